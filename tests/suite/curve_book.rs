//! The NURBS Book's worked numbers for basis functions and interpolation.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{Ends, KnotVector, Parameters, Vector, interpolate};

/// *The NURBS Book*, 2nd ed., p. 68–72, as quoted in the tests of an open B-spline library (geomdl, `test_helpers.py`).
#[test]
fn basis_functions_and_derivatives_of_the_worked_example() {
    let knots =
        KnotVector::new(2, vec![0., 0., 0., 1., 2., 3., 4., 4., 5., 5., 5.]).expect("valid knots");
    assert_eq!(knots.span(2.5), 4);
    let basis = knots.basis::<3>(2.5);
    assert_eq!(basis.first, 2);
    let expected = [[0.125, 0.75, 0.125], [-0.5, 0.0, 0.5], [1.0, -2.0, 1.0]];
    for (got, want) in basis.values.iter().zip(expected) {
        for (g, w) in got.iter().zip(want) {
            assert!((g - w).abs() < 1e-15, "{got:?} against {want:?}");
        }
    }
}

/// *The NURBS Book*, example 9.1: the points from memory, the control points computed independently with numpy.
#[test]
fn global_interpolation_of_example_9_1() {
    let q = [[0., 0.], [3., 4.], [-1., 4.], [-4., 0.], [-4., -3.]].map(Vector::<2>::from);
    let curve = interpolate(&q, 3, Parameters::ChordLength, Ends::Free).expect("solvable");
    let inner = curve.knots().knots()[4];
    assert!((inner - 28.0 / 51.0).abs() < 1e-15);
    let expected = [
        [0.0, 0.0],
        [7.31696352, 3.68677753],
        [-2.95813057, 6.67827653],
        [-4.49495347, -0.67369151],
        [-4.0, -3.0],
    ];
    for (got, want) in curve.points().iter().zip(expected) {
        assert!(
            (got - Vector::<2>::from(want)).norm() < 1e-8,
            "{got} against {want:?}"
        );
    }
}
