//! Splines against SciPy's, from a file that `fixtures/scipy_splines.py` writes.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{
    BSpline, Ends, FairCurve, KnotVector, Parameters, Vector, interpolate,
};
use serde::Deserialize;

#[derive(Deserialize)]
struct Fixture {
    parameters: Vec<f64>,
    data: Vec<[f64; 2]>,
    samples: Vec<f64>,
    tangents: [[f64; 2]; 2],
    curves: Vec<Curve>,
    inserted: Inserted,
    smoothing: Vec<Smoothing>,
}

#[derive(Deserialize)]
struct Curve {
    name: String,
    degree: usize,
    knots: Vec<f64>,
    points: Vec<[f64; 2]>,
    values: Vec<[[f64; 2]; 3]>,
    length: f64,
}

#[derive(Deserialize)]
struct Inserted {
    at: Vec<f64>,
    knots: Vec<f64>,
    points: Vec<[f64; 2]>,
}

#[derive(Deserialize)]
struct Smoothing {
    sum: f64,
    max_residual: f64,
}

fn fixture() -> Fixture {
    serde_json::from_str(include_str!("../fixtures/scipy_splines.json")).expect("sound fixture")
}

fn vectors(points: &[[f64; 2]]) -> Vec<Vector<2>> {
    points.iter().copied().map(Vector::from).collect()
}

fn theirs(curve: &Curve) -> BSpline<2> {
    let knots = KnotVector::new(curve.degree, curve.knots.clone()).expect("knots");
    BSpline::new(knots, vectors(&curve.points)).expect("curve")
}

/// Points to 1e-9 mm, derivatives to 1e-11 relative, lengths to 1e-8 mm.
#[test]
fn values_derivatives_and_lengths_agree() {
    let fixture = fixture();
    assert_eq!(fixture.curves.len(), 4);
    for recorded in &fixture.curves {
        let curve = theirs(recorded);
        for (&u, values) in fixture.samples.iter().zip(&recorded.values) {
            let got = curve.derivatives::<3>(u);
            for (g, w) in got.iter().zip(values) {
                let w = Vector::<2>::from(*w);
                assert!(
                    (g - w).norm() <= 1e-9 + 1e-11 * w.norm(),
                    "{} at {u}",
                    recorded.name
                );
            }
        }
        let length = curve.length(1e-9).expect("accuracy");
        assert!(
            (length - recorded.length).abs() < 1e-8,
            "{}: {length}",
            recorded.name
        );
    }
}

/// The same interpolation problem gives the same control points.
#[test]
fn interpolation_agrees() {
    let fixture = fixture();
    let data = vectors(&fixture.data);
    let rule = Parameters::Values(&fixture.parameters);
    let [a, b] = fixture.tangents.map(Vector::from);
    for (index, ends) in [(0, Ends::Natural), (1, Ends::Tangents(a, b))] {
        let recorded = &fixture.curves[index];
        let curve = interpolate(&data, 3, rule, ends).expect("solvable");
        assert_eq!(curve.knots().knots(), recorded.knots);
        for (g, w) in curve.points().iter().zip(vectors(&recorded.points)) {
            assert!((g - w).norm() < 1e-9, "{}", recorded.name);
        }
    }
    // Not-a-knot has its own knots; collocation over them is the same problem.
    for recorded in &fixture.curves[2..] {
        let knots = KnotVector::new(recorded.degree, recorded.knots.clone()).expect("knots");
        let sites: Vec<_> = fixture.parameters.iter().map(|&t| (t, 0)).collect();
        let curve =
            boardwright::geometry::curve::collocate(knots, &sites, data.clone()).expect("solvable");
        for (g, w) in curve.points().iter().zip(vectors(&recorded.points)) {
            assert!((g - w).norm() < 1e-8, "{}", recorded.name);
        }
    }
}

#[test]
fn knot_insertion_agrees() {
    let fixture = fixture();
    let curve = theirs(&fixture.curves[0])
        .refined(&fixture.inserted.at)
        .expect("inside");
    assert_eq!(curve.knots().knots(), fixture.inserted.knots);
    for (g, w) in curve.points().iter().zip(vectors(&fixture.inserted.points)) {
        assert!((g - w).norm() < 1e-9);
    }
}

/// FITPACK's smoothing spline bounds a sum of squares, ours each distance. Given FITPACK's greatest distance as tolerance, ours
/// keeps it; its energy is below the natural spline's, which is the most that is ever needed.
#[test]
fn smoothing_keeps_the_distance_fitpack_needed() {
    let fixture = fixture();
    let data = vectors(&fixture.data);
    let knots = KnotVector::divided(3, &fixture.parameters, 2).expect("knots");
    let fair = FairCurve::new(knots).energy(2, 1.0);
    let wanted: Vec<_> = fixture.parameters.iter().copied().zip(data).collect();
    let through = wanted.iter().fold(fair.clone(), |f, &(t, p)| f.point(t, p));
    let mut last = fair.energy_of(&through.solve().expect("solvable"));
    for theirs in &fixture.smoothing {
        assert!(theirs.sum >= theirs.max_residual.powi(2));
        let curve = fair
            .solve_within(&wanted, theirs.max_residual)
            .expect("within reach");
        for &(t, p) in &wanted {
            assert!((curve.point(t) - p).norm() <= theirs.max_residual);
        }
        let energy = fair.energy_of(&curve);
        assert!(energy < last, "{energy} not below {last}");
        last = energy;
    }
}

/// Burden & Faires, *Numerical Analysis*, section 3.5: cubic splines of eˣ at 0, 1, 2, 3 (from memory, recomputed).
#[test]
#[allow(clippy::approx_constant)] // the table's own digits
fn exponential_of_burden_and_faires() {
    let t = [0.0, 1.0, 2.0, 3.0];
    let points = t.map(|x: f64| Vector::from([x.exp()])).to_vec();
    let slopes = Ends::Tangents(Vector::from([1.0]), Vector::from([3f64.exp()]));
    let natural = [
        [1.0, 1.46600, 0.0, 0.25228],
        [2.71828, 2.22285, 0.75685, 1.69107],
        [7.38906, 8.80977, 5.83007, -1.94336],
    ];
    let clamped = [
        [1.0, 1.00000, 0.44468, 0.27360],
        [2.71828, 2.71016, 1.26548, 0.69513],
        [7.38906, 7.32652, 3.35087, 2.01909],
    ];
    for (ends, table, area) in [
        (Ends::Natural, natural, 19.55229),
        (slopes, clamped, 19.05964),
    ] {
        let curve = interpolate(&points, 3, Parameters::Values(&t), ends).expect("solvable");
        for (x, want) in t.iter().zip(table) {
            let [a, b, c, d] = curve.derivatives::<4>(*x).map(|v| v[0]);
            for (got, want) in [a, b, c / 2.0, d / 6.0].iter().zip(want) {
                assert!((got - want).abs() < 6e-6, "{got} against {want} at {x}");
            }
        }
        let rule = boardwright::geometry::curve::gauss_legendre(2);
        let got: f64 = t
            .windows(2)
            .map(|w| {
                boardwright::geometry::curve::integrate(&rule, w[0], w[1], |x| curve.point(x)[0])
            })
            .sum();
        assert!((got - area).abs() < 6e-6, "{got} against {area}");
    }
}

/// A clothoid: curvature grows in proportion to the length run. The quintic through its points has that curvature.
#[test]
fn clothoid_has_linear_curvature() {
    // κ = 2 a² s with x' = cos(a² s²), y' = sin(a² s²).
    let a2 = 1e-5;
    let rule = boardwright::geometry::curve::gauss_legendre(20);
    let at = |s: f64| {
        let part = |f: fn(f64) -> f64| {
            boardwright::geometry::curve::integrate(&rule, 0.0, s, |r| f(a2 * r * r))
        };
        Vector::from([part(f64::cos), part(f64::sin)])
    };
    let t: Vec<f64> = (0..=40).map(|i| 10.0 * f64::from(i)).collect();
    let points: Vec<_> = t.iter().map(|&s| at(s)).collect();
    let curve = interpolate(&points, 5, Parameters::Values(&t), Ends::Free).expect("solvable");
    for i in 4..=36 {
        let s = 10.0 * f64::from(i) + 3.0;
        let k = curve.curvature(s).expect("moving");
        assert!((k - 2.0 * a2 * s).abs() < 1e-8, "{k} at {s}");
    }
    assert!((curve.length(1e-9).expect("accuracy") - 400.0).abs() < 1e-6);
}
