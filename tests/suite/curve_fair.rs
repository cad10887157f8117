//! Minimum-energy curves: closed forms, conditions, contradictions.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{
    Condition, CurveError, Ends, FairCurve, KnotVector, Parameters, Term, Vector, interpolate,
};
use proptest::prelude::*;

/// A cubic of least ∫|C''|² with knots at the points is the natural interpolating spline (Holladay's theorem).
#[test]
fn least_bending_through_points_is_the_natural_spline() {
    let t = [0.0, 0.2, 0.35, 0.7, 1.0];
    let p = [
        [0., 0.],
        [300., 120.],
        [500., 90.],
        [900., 200.],
        [1500., -40.],
    ]
    .map(Vector::<2>::from);
    let natural = interpolate(&p, 3, Parameters::Values(&t), Ends::Natural).expect("solvable");
    let knots = KnotVector::divided(3, &t, 3).expect("knots");
    let fair = t
        .iter()
        .zip(p)
        .fold(FairCurve::new(knots).energy(2, 1.0), |f, (&t, p)| {
            f.point(t, p)
        })
        .solve()
        .expect("solvable");
    for i in 0..=200 {
        let u = f64::from(i) / 200.0;
        let gap = (fair.point(u) - natural.point(u)).norm();
        assert!(gap < 1e-8, "{gap} mm apart at {u}");
    }
}

/// With both end points and end slopes held, least ∫|C''|² is the Hermite cubic, whatever the degree and knots.
#[test]
fn least_bending_with_held_ends_is_the_hermite_cubic() {
    let knots = KnotVector::uniform(5, 0.0, 2.0, 7).expect("knots");
    let curve = FairCurve::<1>::new(knots)
        .energy(2, 3.0)
        .point(0.0, Vector::from([1.0]))
        .derivative(0.0, 1, Vector::from([-2.0]))
        .point(2.0, Vector::from([4.0]))
        .derivative(2.0, 1, Vector::from([5.0]))
        .solve()
        .expect("solvable");
    // 1 - 2u + a u² + b u³ with value 4 and slope 5 at 2.
    let (a, b) = (1.75, 0.0);
    for i in 0..=40 {
        let u = f64::from(i) / 20.0;
        let want = 1.0 - 2.0 * u + a * u * u + b * u.powi(3);
        assert!((curve.point(u)[0] - want).abs() < 1e-10, "at {u}");
    }
}

/// Least ∫|C'''|² leaves a parabola alone when three points are held.
#[test]
fn least_variation_keeps_a_parabola() {
    let knots = KnotVector::uniform(4, 0.0, 1.0, 9).expect("knots");
    let f = |u: f64| Vector::from([3.0 * u - u * u, 100.0 * u * u]);
    let curve = [0.0, 0.3, 1.0]
        .iter()
        .fold(FairCurve::<2>::new(knots).energy(3, 1.0), |c, &u| {
            c.point(u, f(u))
        })
        .solve()
        .expect("solvable");
    for i in 0..=50 {
        let u = f64::from(i) / 50.0;
        assert!((curve.point(u) - f(u)).norm() < 1e-8);
    }
}

#[test]
fn repeated_conditions_are_fine_and_contradictions_are_not() {
    let base = || {
        let knots = KnotVector::uniform(3, 0.0, 1.0, 6).expect("knots");
        FairCurve::<2>::new(knots)
            .energy(2, 1.0)
            .point(0.0, Vector::zeros())
            .point(1.0, Vector::from([100.0, 0.0]))
    };
    let once = base().solve().expect("solvable");
    let twice = base()
        .coordinate(1.0, 0, 100.0)
        .solve()
        .expect("the same thing said twice");
    assert!((once.point(0.4) - twice.point(0.4)).norm() < 1e-9);
    let odd = base().coordinate(1.0, 0, 100.1).solve();
    assert_eq!(odd, Err(CurveError::Inconsistent(1.0)));
    let absent = base().coordinate(0.5, 7, 1.0).solve();
    assert_eq!(absent, Err(CurveError::Inconsistent(0.5)));
}

#[test]
fn wrong_data_is_named() {
    let knots = KnotVector::uniform(3, 0.0, 1.0, 6).expect("knots");
    let base = FairCurve::<2>::new(knots).point(0.0, Vector::zeros());
    assert_eq!(base.solve(), Err(CurveError::Energy(0.0)));
    let bent = base.clone().energy(2, 1.0);
    assert_eq!(bent.solve(), Err(CurveError::Undetermined));
    assert_eq!(
        base.clone().energy(2, -1.0).solve(),
        Err(CurveError::Energy(-1.0))
    );
    assert_eq!(base.energy(4, 1.0).solve(), Err(CurveError::Order(4)));
    assert!(matches!(
        bent.clone().point(1.5, Vector::zeros()).solve(),
        Err(CurveError::Outside { .. })
    ));
    assert_eq!(
        bent.point(0.5, Vector::from([f64::NAN, 0.0])).solve(),
        Err(CurveError::NotFinite(2))
    );
}

/// A condition that ties two coordinates at two parameters: the curve is its own mirror image about the diagonal.
#[test]
fn conditions_may_couple_coordinates() {
    let knots = KnotVector::uniform(4, 0.0, 1.0, 8).expect("knots");
    let mirror = |u: f64| Condition {
        terms: vec![
            Term {
                at: u,
                order: 0,
                weight: Vector::from([1.0, 0.0]),
            },
            Term {
                at: 1.0 - u,
                order: 0,
                weight: Vector::from([0.0, -1.0]),
            },
        ],
        value: 0.0,
    };
    let base = FairCurve::<2>::new(knots)
        .energy(2, 1.0)
        .coordinate(0.0, 0, 0.0)
        .condition(mirror(0.0));
    // x(0) = y(1) and no more: the rest may slide freely.
    assert_eq!(base.solve(), Err(CurveError::Undetermined));
    let curve = base
        .coordinate(0.0, 1, 200.0)
        .condition(mirror(1.0))
        .condition(mirror(0.3))
        .condition(mirror(0.7))
        .coordinate(0.3, 1, 170.0)
        .across(0.5, Vector::from([1.0, 1.0]))
        .solve()
        .expect("solvable");
    for i in 0..=50 {
        let u = f64::from(i) / 50.0;
        let (a, b) = (curve.point(u), curve.point(1.0 - u));
        assert!((a[0] - b[1]).abs() < 1e-8, "not a mirror image at {u}");
    }
    assert!((curve.point(0.7)[0] - 170.0).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Every condition holds to 1e-9 mm, and no other curve that meets the conditions has less energy.
    #[test]
    fn conditions_hold_and_the_energy_is_least(
        heights in prop::collection::vec(-200.0..200.0f64, 4..16),
        degree in 3usize..6,
        nudge in prop::collection::vec(-1.0..1.0f64, 80),
    ) {
        let n = heights.len();
        let points: Vec<Vector<2>> = heights
            .iter()
            .enumerate()
            .map(|(i, &y)| Vector::from([1800.0 * i as f64 / (n - 1) as f64, y]))
            .collect();
        let t: Vec<f64> = (0..n).map(|i| i as f64 / (n - 1) as f64).collect();
        let knots = KnotVector::divided(degree, &t, 2).expect("knots");
        let problem = |targets: &[Vector<2>]| {
            t.iter()
                .zip(targets)
                .fold(FairCurve::new(knots.clone()).energy(2, 1e-3).energy(3, 1.0), |f, (&t, &p)| f.point(t, p))
                .across(0.0, Vector::from([1.0, 0.0]))
                .across(0.5, Vector::from([0.0, 1.0]))
        };
        let fair = problem(&points);
        let curve = fair.solve().expect("solvable");
        for (&t, p) in t.iter().zip(&points) {
            prop_assert!((curve.point(t) - p).norm() < 1e-9);
        }
        prop_assert!(curve.derivatives::<2>(0.0)[1][0].abs() < 1e-7);
        prop_assert!(curve.derivatives::<2>(0.5)[1][1].abs() < 1e-7);
        // Any admissible change: a curve that meets the same conditions with zero values.
        let zero = vec![Vector::zeros(); n];
        let change = problem(&zero)
            .coordinate(0.5 / (n - 1) as f64, 0, 10.0 * nudge[0])
            .coordinate(0.5 / (n - 1) as f64, 1, 10.0 * nudge[1])
            .solve()
            .expect("solvable");
        let moved: Vec<Vector<2>> =
            curve.points().iter().zip(change.points()).map(|(a, b)| a + b * 0.1).collect();
        let moved = boardwright::geometry::curve::BSpline::new(knots.clone(), moved).expect("finite");
        let (least, other) = (fair.energy_of(&curve), fair.energy_of(&moved));
        prop_assert!(other >= least * (1.0 - 1e-9), "{other} < {least}");
    }
}
