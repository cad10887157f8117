//! Roots, lengths, curvature, closest points and edits, against closed forms and brute force.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{
    ArcLength, BSpline, CurveError, Ends, KnotVector, Parameters, Vector, gauss_legendre,
    integrate, interpolate,
};
use boardwright::geometry::solve::root;
use proptest::prelude::*;
use std::f64::consts::PI;

/// A spline through many points of an ellipse arc: close to it, but a spline all the same.
fn ellipse(a: f64, b: f64, turn: f64, count: usize) -> BSpline<2> {
    let t: Vec<f64> = (0..count)
        .map(|i| turn * i as f64 / (count - 1) as f64)
        .collect();
    let points: Vec<_> = t
        .iter()
        .map(|t| Vector::from([a * t.cos(), b * t.sin()]))
        .collect();
    interpolate(&points, 5, Parameters::Values(&t), Ends::Free).expect("solvable")
}

#[test]
fn gauss_rules_are_exact_to_their_degree() {
    for n in 1..=20 {
        let rule = gauss_legendre(n);
        for k in 0..2 * n {
            let got = integrate(&rule, 0.0, 1.0, |x| x.powi(k as i32));
            assert!(
                (got - 1.0 / (k + 1) as f64).abs() < 2e-15,
                "n {n}, power {k}"
            );
        }
        let beyond = integrate(&rule, -1.0, 1.0, |x| x.powi(2 * n as i32));
        assert!(
            beyond < 2.0 / (2 * n + 1) as f64,
            "one degree more is not exact"
        );
    }
}

#[test]
#[allow(clippy::type_complexity)]
fn root_finds_hard_roots_and_refuses_none() {
    let cases: [(fn(f64) -> (f64, f64), f64, f64, f64); 4] = [
        (|x| (x * x - 2.0, 2.0 * x), 0.0, 2.0, 2f64.sqrt()),
        (|x| (x.powi(9), 9.0 * x.powi(8)), -1.0, 0.7, 0.0),
        (|x| (x.cos() - x, 0.0), 0.0, 1.0, 0.739_085_133_215_160_6),
        (|x| (1e-3 / x - 1.0, -1e-3 / (x * x)), 1e-6, 1.0, 1e-3),
    ];
    for (f, a, b, want) in cases {
        let got = root(f, a, b, 1e-12).expect("bracketed");
        assert!((got - want).abs() <= 2e-12, "{got} against {want}");
        assert_eq!(root(f, b, a, 1e-12), Some(got), "the order of the ends");
    }
    assert_eq!(root(|x| (x * x + 1.0, 2.0 * x), -1.0, 1.0, 1e-9), None);
    assert_eq!(root(|_| (f64::NAN, 0.0), -1.0, 1.0, 1e-9), None);
}

/// values.md section 9: the perimeter of the ellipse 2, 1.
#[test]
fn ellipse_perimeter() {
    let curve = ellipse(2.0, 1.0, 2.0 * PI, 101);
    let length = curve.length(1e-9).expect("accuracy");
    assert!((length - 9.688_448_221).abs() < 1e-8, "{length}");
    assert!(curve.length(0.0).is_err());
}

#[test]
fn length_of_a_cusp_is_exact() {
    // (t², t³) over [-1, 1]: 2 (13√13 − 8) / 27, with a kink of the speed at 0.
    let cusp = [[1., -1.], [-1., 1.], [-1., -1.], [1., 1.]].map(Vector::<2>::from);
    let points: Vec<_> = [(0, 1.0), (1, 1.0), (2, 1.0), (3, 1.0)]
        .iter()
        .map(|&(i, s)| cusp[i] * s)
        .collect();
    // Bézier points of t = 2u − 1: x = t² has 1, −1/3, −1/3, 1; y = t³ has −1, 1, −1, 1.
    let points: Vec<Vector<2>> = points
        .iter()
        .zip([1.0, -1.0 / 3.0, -1.0 / 3.0, 1.0])
        .map(|(p, x)| Vector::from([x, p[1]]))
        .collect();
    let curve =
        BSpline::new(KnotVector::uniform(3, 0.0, 1.0, 1).expect("knots"), points).expect("curve");
    let want = 2.0 * (13.0 * 13f64.sqrt() - 8.0) / 27.0;
    let got = curve.length(1e-10).expect("accuracy");
    assert!((got - want).abs() < 1e-10, "{got} against {want}");
    assert_eq!(curve.tangent(0.5), None, "the cusp stands still");
}

#[test]
fn circle_has_its_curvature_and_no_inflection() {
    let curve = ellipse(100.0, 100.0, PI, 81);
    for i in 0..=100 {
        let u = PI * f64::from(i) / 100.0;
        let k = curve.curvature(u).expect("moving");
        assert!((k - 0.01).abs() < 1e-7, "{k} at {u}");
        let v = curve.curvature_vector(u).expect("moving");
        assert!((v + curve.point(u) * 1e-4).norm() < 1e-6);
    }
    assert!(curve.inflections().is_empty());
    let top = curve.extrema(1);
    assert_eq!(top.len(), 1);
    assert!((top[0] - PI / 2.0).abs() < 1e-8);
    let (low, high) = curve.bounds();
    assert!((high - Vector::from([100.0, 100.0])).norm() < 1e-6);
    assert!((low - Vector::from([-100.0, 0.0])).norm() < 1e-6);
}

#[test]
fn helix_has_its_torsion() {
    // Radius r, rise c a radian: κ = r/(r² + c²), τ = c/(r² + c²).
    let (r, c) = (30.0, 10.0);
    let t: Vec<f64> = (0..=60).map(|i| 0.1 * f64::from(i)).collect();
    let points: Vec<_> = t
        .iter()
        .map(|t| Vector::from([r * t.cos(), r * t.sin(), c * t]))
        .collect();
    let curve = interpolate(&points, 7, Parameters::Values(&t), Ends::Free).expect("solvable");
    for u in [1.0, 2.2, 3.7, 5.0] {
        let k = curve.curvature_vector(u).expect("moving").norm();
        assert!((k - r / 1000.0).abs() < 1e-8);
        assert!((curve.torsion(u).expect("bent") - c / 1000.0).abs() < 1e-7);
    }
}

#[test]
fn cubic_inflection_and_tangential_crossing() {
    // y = x³ − 3x on [-2, 2] as a graph: inflection at 0, touches ±2 at ∓1.
    let knots = KnotVector::uniform(3, -2.0, 2.0, 1).expect("knots");
    let points = [
        [-2.0, -2.0],
        [-2.0 / 3.0, 10.0],
        [2.0 / 3.0, -10.0],
        [2.0, 2.0],
    ];
    let curve = BSpline::new(knots, points.map(Vector::<2>::from).to_vec()).expect("curve");
    assert!((curve.point(1.5)[1] - (1.5f64.powi(3) - 4.5)).abs() < 1e-12);
    let bend = curve.inflections();
    assert!(bend.len() == 1 && bend[0].abs() < 1e-12, "{bend:?}");
    let touch = curve.crossings(1, 2.0);
    assert_eq!(touch.len(), 2, "{touch:?}");
    assert!((touch[0] + 1.0).abs() < 1e-6 && (touch[1] - 2.0).abs() < 1e-12);
    let three = curve.crossings(1, 0.0);
    let want = [-3f64.sqrt(), 0.0, 3f64.sqrt()];
    assert_eq!(three.len(), 3, "{three:?}");
    assert!(three.iter().zip(want).all(|(g, w)| (g - w).abs() < 1e-12));
    assert!(curve.crossings(1, 2.1).is_empty() && curve.crossings(5, 0.0).is_empty());
    assert_eq!(curve.extrema(1).len(), 2);
}

#[test]
fn a_crease_counts_as_an_extremum() {
    let knots = KnotVector::clamped(2, 0.0, &[1.0, 1.0], 2.0).expect("knots");
    let points = [[0., 0.], [1., 1.], [2., 2.], [3., 1.], [4., 0.]].map(Vector::<2>::from);
    let roof = BSpline::new(knots, points.to_vec()).expect("curve");
    assert_eq!(roof.extrema(1), [1.0]);
    assert_eq!(roof.bounds().1, Vector::from([4.0, 2.0]));
    assert!(matches!(roof.derivative(), Err(CurveError::Knots { .. })));
}

/// Any spline: degree, knots (some repeated) and points.
fn splines() -> impl Strategy<Value = BSpline<2>> {
    (
        1usize..6,
        prop::collection::vec((1usize..4, 0.05..1.0f64), 0..6),
    )
        .prop_flat_map(|(degree, gaps)| {
            let mut inner = Vec::new();
            let mut at = 0.0;
            for (times, gap) in gaps {
                at += gap;
                inner.extend(std::iter::repeat_n(at, times.min(degree)));
            }
            let knots = KnotVector::clamped(degree, 0.0, &inner, at + 0.5).expect("knots");
            let count = knots.count();
            prop::collection::vec((-100.0..100.0f64, -100.0..100.0f64), count).prop_map(
                move |points| {
                    let points = points.iter().map(|&(x, y)| Vector::from([x, y])).collect();
                    BSpline::new(knots.clone(), points).expect("curve")
                },
            )
        })
}

fn samples(curve: &BSpline<2>, count: usize) -> impl Iterator<Item = f64> + use<> {
    let (a, b) = curve.domain();
    (0..=count).map(move |i| a + (b - a) * i as f64 / count as f64)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_change_of_sign_is_a_crossing(curve in splines(), c in -80.0..80.0f64) {
        let found = curve.crossings(1, c);
        for &u in &found {
            prop_assert!((curve.point(u)[1] - c).abs() < 1e-9);
        }
        let grid: Vec<f64> = samples(&curve, 400).collect();
        for w in grid.windows(2) {
            let (a, b) = (curve.point(w[0])[1] - c, curve.point(w[1])[1] - c);
            if a * b < 0.0 {
                prop_assert!(found.iter().any(|u| (w[0]..=w[1]).contains(u)), "missed in {w:?}: {found:?}");
            }
        }
    }

    #[test]
    fn no_sample_is_closer_than_the_closest(curve in splines(), x in -150.0..150.0f64, y in -150.0..150.0f64) {
        let target = Vector::from([x, y]);
        let best = curve.closest(target);
        prop_assert!(((curve.point(best.parameter) - target).norm() - best.distance).abs() < 1e-12);
        for u in samples(&curve, 400) {
            prop_assert!((curve.point(u) - target).norm() >= best.distance - 1e-9);
        }
    }

    #[test]
    fn edits_keep_the_shape(curve in splines(), cut in 0.05..0.95f64) {
        let (a, b) = curve.domain();
        let at = a + cut * (b - a);
        let inserted = curve.with_knot(at, 2).expect("inside");
        let refined = curve.refined(&[at, a + 0.3 * (b - a)]).expect("inside");
        let (left, right) = curve.split(at).expect("inside");
        let back = curve.reversed().expect("mirrored");
        let wide = curve.over(10.0, 30.0).expect("domain");
        for u in samples(&curve, 100) {
            let want = curve.point(u);
            prop_assert!((inserted.point(u) - want).norm() < 1e-9);
            prop_assert!((refined.point(u) - want).norm() < 1e-9);
            let part = if u < at { &left } else { &right };
            prop_assert!((part.point(u) - want).norm() < 1e-9);
            prop_assert!((back.point(a + (b - u)) - want).norm() < 1e-9);
            prop_assert!((wide.point(10.0 + 20.0 * (u - a) / (b - a)) - want).norm() < 1e-7);
        }
        for piece in curve.beziers() {
            let alone = BSpline::new(
                KnotVector::uniform(curve.degree(), piece.start, piece.end, 1).expect("knots"),
                piece.points.clone(),
            ).expect("curve");
            let mid = 0.5 * (piece.start + piece.end);
            prop_assert!((alone.point(mid) - curve.point(mid)).norm() < 1e-9);
        }
    }

    #[test]
    fn the_derivative_curve_is_the_derivative(curve in splines()) {
        if let Ok(slope) = curve.derivative() {
            for u in samples(&curve, 50) {
                let want = curve.derivatives::<2>(u)[1];
                prop_assert!((slope.point(u) - want).norm() < 1e-9 * (1.0 + want.norm()));
            }
        }
    }

    #[test]
    fn length_and_parameter_are_inverse(curve in splines(), share in 0.0..1.0f64) {
        let table = ArcLength::new(&curve, 1e-9).expect("accuracy");
        // Corners at knots are not cut.
        let mut grid: Vec<f64> = samples(&curve, 2000).chain(curve.knots().breaks()).collect();
        grid.sort_by(f64::total_cmp);
        let chord = |w: &[f64]| (curve.point(w[1]) - curve.point(w[0])).norm();
        let chords: f64 = grid.windows(2).map(chord).sum();
        prop_assert!(chords <= table.total() + 1e-8 && chords > 0.999 * table.total());
        let u = table.parameter(share * table.total());
        prop_assert!((table.at(u) - share * table.total()).abs() < 1e-8);
        prop_assert!((table.at(curve.domain().1) - table.total()).abs() < 1e-8);
    }
}
