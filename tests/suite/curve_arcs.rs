//! Lines and arcs along curves and polylines.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{
    BSpline, CurveError, Ends, KnotVector, Parameters, Vector, interpolate,
};
use boardwright::geometry::path::{Path, Segment, arcs_along, arcs_of_polyline};
use proptest::prelude::*;
use std::f64::consts::PI;

/// Greatest distance of samples of a curve from a chain, and of the chain from the samples' polygon.
fn deviation(path: &Path, f: impl Fn(f64) -> Vector<2>, a: f64, b: f64) -> (f64, f64) {
    let n = 20_000;
    let samples: Vec<_> = (0..=n)
        .map(|i| f(a + (b - a) * f64::from(i) / f64::from(n)))
        .collect();
    let out = samples
        .iter()
        .step_by(5)
        .map(|&p| path.distance(p))
        .fold(0.0, f64::max);
    let back = path
        .pieces()
        .flat_map(|(from, piece)| (0..=8).map(move |k| piece.point(from, f64::from(k) / 8.0)))
        .map(|p| {
            samples
                .iter()
                .map(|s| (s - p).norm())
                .fold(f64::INFINITY, f64::min)
        })
        .fold(0.0, f64::max);
    (out, back)
}

/// Largest turn between neighbouring pieces, radians.
fn largest_turn(path: &Path) -> f64 {
    let steps: Vec<_> = path.pieces().collect();
    steps
        .windows(2)
        .map(|w| {
            let near = 1e-6;
            let before = w[0].1.point(w[0].0, 1.0) - w[0].1.point(w[0].0, 1.0 - near);
            let after = w[1].1.point(w[1].0, near) - w[1].0;
            before.angle(&after)
        })
        .fold(0.0, f64::max)
}

#[test]
fn a_circle_becomes_few_arcs_on_it() {
    let f = |u: f64| {
        let (s, c) = u.sin_cos();
        (Vector::from([50.0 * c, 50.0 * s]), Vector::from([-s, c]))
    };
    let path = arcs_along(f, 0.0, 1.5 * PI, 0.01).expect("smooth");
    assert!(path.segments.len() <= 4, "{}", path.segments.len());
    for (from, piece) in path.pieces() {
        let (centre, radius) = piece.circle(from).expect("an arc");
        assert!(centre.norm() < 1e-3 && (radius - 50.0).abs() < 1e-3);
        assert!(piece.bulge() > 0.0, "counter-clockwise");
    }
    assert!((path.length(1e-9) - 75.0 * PI).abs() < 1e-3);
    let back = path.reversed();
    assert!((back.length(1e-9) - path.length(1e-9)).abs() < 1e-9 && back.end() == path.start);
    // A quarter circle: bulge tan(π/8).
    let quarter = arcs_along(f, 0.0, 0.5 * PI, 0.01).expect("smooth");
    assert_eq!(quarter.segments.len(), 1);
    assert!((quarter.segments[0].bulge() - 0.414_213_56).abs() < 1e-6);
}

#[test]
fn a_straight_curve_becomes_one_line() {
    let f = |u: f64| (Vector::from([u, 2.0 * u]), Vector::from([1.0, 2.0]));
    let path = arcs_along(f, 0.0, 500.0, 0.02).expect("smooth");
    assert_eq!(path.segments.len(), 1);
    assert_eq!(path.segments[0].bulge(), 0.0);
}

/// A biarc of length L strays |κ'| L³ / 324 from a spiral (the cubic term of its series), so the least number of arcs is about
/// 2 ∫ ∛(|κ'| / 324 tolerance) ds.
fn expected_arcs(tolerance: f64) -> f64 {
    let bend = |u: f64| 250_000.0 / (1e6 * u.sin().powi(2) + 62_500.0 * u.cos().powi(2)).powf(1.5);
    let n = 20_000;
    let h = PI / f64::from(n);
    let speed = |u: f64| (1e6 * u.sin().powi(2) + 62_500.0 * u.cos().powi(2)).sqrt();
    (0..n)
        .map(|i| {
            let u = h * (f64::from(i) + 0.5);
            let slope = (bend(u + 0.5 * h) - bend(u - 0.5 * h)).abs() / (h * speed(u));
            2.0 * (slope / (324.0 * tolerance)).cbrt() * speed(u) * h
        })
        .sum()
}

/// An ellipse of 1000 by 250 mm.
#[test]
fn an_ellipse_is_followed_from_upright_end_to_upright_end() {
    let point = |u: f64| Vector::from([-1000.0 * u.cos(), 250.0 * u.sin()]);
    let f = |u: f64| (point(u), Vector::from([1000.0 * u.sin(), 250.0 * u.cos()]));
    for tolerance in [0.5, 0.02, 0.02 / 27.0] {
        let path = arcs_along(f, 0.0, PI, tolerance).expect("smooth");
        let (out, back) = deviation(&path, point, 0.0, PI);
        assert!(out <= tolerance, "{out} above {tolerance}");
        assert!(back <= tolerance + 0.1, "{back}: samples are 0.16 mm apart");
        assert!(largest_turn(&path) < 2e-3, "{}", largest_turn(&path));
        let most = 1.1 * expected_arcs(tolerance) + 4.0;
        assert!(
            path.segments.len() as f64 <= most,
            "{} above {most}",
            path.segments.len()
        );
    }
}

#[test]
fn creases_of_a_spline_stay_corners() {
    let knots = KnotVector::clamped(2, 0.0, &[1.0, 1.0], 2.0).expect("knots");
    let points = [[0., 0.], [10., 30.], [20., 20.], [30., 30.], [40., 0.]].map(Vector::<2>::from);
    let curve = BSpline::new(knots, points.to_vec()).expect("curve");
    let path = curve.arcs(0.01).expect("smooth between creases");
    assert!(
        path.segments
            .iter()
            .any(|p| (p.to() - points[2]).norm() < 1e-12)
    );
    let (out, _) = deviation(&path, |u| curve.point(u), 0.0, 2.0);
    assert!(out <= 0.01, "{out}");
}

#[test]
fn polyline_corners_are_kept_and_curves_between_become_arcs() {
    // A slot: two straights, a half circle, and square corners.
    let mut points = vec![Vector::from([0.0, 0.0]), Vector::from([100.0, 0.0])];
    points.extend((1..=90).map(|i| {
        let a = -0.5 * PI + PI * f64::from(i) / 90.0;
        Vector::from([100.0 + 20.0 * a.cos(), 20.0 + 20.0 * a.sin()])
    }));
    points.extend([Vector::from([0.0, 40.0]), Vector::from([0.0, 0.0])]);
    let path = arcs_of_polyline(&points, 0.3, 0.02).expect("polyline");
    for corner in [[0.0, 40.0], [0.0, 0.0]] {
        assert!(path.segments.iter().any(|p| p.to() == Vector::from(corner)));
    }
    for p in &points {
        assert!(path.distance(*p) <= 0.02);
    }
    assert!(path.segments.len() <= 12, "{}", path.segments.len());
    assert!(
        (path.length(1e-9) - (240.0 + 20.0 * PI)).abs() < 0.1,
        "{}",
        path.length(1e-9)
    );
}

#[test]
fn sparse_polylines_keep_their_edges() {
    let square = [[0., 0.], [10., 0.], [10., 10.], [0., 10.], [0., 0.]].map(Vector::<2>::from);
    for corner in [0.1, 3.0] {
        let path = arcs_of_polyline(&square, corner, 0.01).expect("polyline");
        assert_eq!(path.segments.len(), 4, "corner {corner}");
        assert!(path.segments.iter().all(|p| p.bulge() == 0.0));
    }
}

#[test]
fn wrong_data_is_named() {
    let f = |u: f64| {
        (
            Vector::from([u, f64::from(u8::from(u > 0.5))]),
            Vector::from([1.0, 0.0]),
        )
    };
    assert!(
        matches!(
            arcs_along(f, 0.0, 1.0, 0.01),
            Err(CurveError::NotReached { .. })
        ),
        "a jump"
    );
    assert!(matches!(
        arcs_along(f, 0.0, 1.0, -1.0),
        Err(CurveError::Tolerance(_))
    ));
    let one = [Vector::from([1.0, 1.0]); 3];
    assert_eq!(
        arcs_of_polyline(&one, 0.1, 0.1),
        Err(CurveError::TooFew { got: 1, need: 2 })
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn splines_are_followed_within_the_tolerance_both_ways(
        heights in prop::collection::vec(-60.0..60.0f64, 4..10),
        tolerance in 0.005..0.5f64,
    ) {
        let points: Vec<Vector<2>> =
            heights.iter().enumerate().map(|(i, &y)| Vector::from([120.0 * i as f64, y])).collect();
        let curve = interpolate(&points, 3, Parameters::ChordLength, Ends::Natural).expect("solvable");
        let path = curve.arcs(tolerance).expect("smooth");
        let (out, back) = deviation(&path, |u| curve.point(u), 0.0, 1.0);
        prop_assert!(out <= tolerance, "{out} above {tolerance}");
        prop_assert!(back <= tolerance + 0.06, "{back}");
        prop_assert_eq!(path.start, points[0]);
        prop_assert!((path.end() - points[points.len() - 1]).norm() < 1e-9);
        // The dense polyline of the same curve, forwards and backwards.
        let dense: Vec<_> = (0..=600).map(|i| curve.point(f64::from(i) / 600.0)).collect();
        let turned: Vec<_> = dense.iter().rev().copied().collect();
        for line in [dense, turned] {
            let path = arcs_of_polyline(&line, 0.4, tolerance).expect("polyline");
            for w in line.windows(2) {
                for k in 0..5 {
                    let p = w[0] + (w[1] - w[0]) * (0.2 * f64::from(k));
                    prop_assert!(path.distance(p) <= tolerance);
                }
            }
        }
    }

    #[test]
    fn arc_geometry_is_consistent(x in 1.0..100.0f64, y in -50.0..50.0f64, bulge in -1.0..1.0f64, share in 0.0..1.0f64) {
        prop_assume!(bulge.abs() > 1e-3);
        let from = Vector::from([3.0, -2.0]);
        let piece = Segment::Arc { to: Vector::from([x, y]), bulge };
        let (centre, radius) = piece.circle(from).expect("an arc");
        let p = piece.point(from, share);
        prop_assert!(((p - centre).norm() - radius).abs() < 1e-9 * radius);
        prop_assert!(piece.distance(from, p) < 1e-8 * radius);
        let n = 2000;
        let walk: f64 = (0..n).map(|i| {
            (piece.point(from, f64::from(i + 1) / f64::from(n)) - piece.point(from, f64::from(i) / f64::from(n))).norm()
        }).sum();
        prop_assert!((walk - piece.length(from, 1e-9)).abs() < 1e-5 * walk);
    }
}

fn cubic_path(numbers: [f64; 8]) -> Path {
    let [a, b, c, d, e, f, g, h] = numbers;
    Path {
        start: Vector::from([a, b]),
        segments: vec![Segment::Cubic {
            c1: Vector::from([c, d]),
            c2: Vector::from([e, f]),
            to: Vector::from([g, h]),
        }],
        closed: false,
    }
}

/// Greatest distance of points along one path from another path.
fn one_way(a: &Path, b: &Path) -> f64 {
    let distances = a.flatten(5e-4).into_iter().map(|p| b.distance(p));
    distances.fold(0.0, f64::max)
}

fn check_cubic(path: &Path) {
    let arcs = path.with_arcs(0.02).expect("arcs");
    assert!(!arcs.has_cubics() && arcs.start == path.start && arcs.end() == path.end());
    // Of which half a micrometre for the chords of the flattening.
    let (out, back) = (one_way(path, &arcs), one_way(&arcs, path));
    assert!(out <= 0.02 + 5e-4, "{out} from {path:?}");
    assert!(back <= 0.02 + 5e-4, "{back} back from {path:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn arcs_follow_cubics_within_the_tolerance_both_ways(numbers in prop::array::uniform8(-200.0..200.0f64)) {
        check_cubic(&cubic_path(numbers));
    }
}

/// Cusps, a line that runs past its end and back, ends that stand still.
#[test]
fn arcs_follow_cubics_that_stop_and_turn() {
    for numbers in [
        [0.0, 0.0, 100.0, 100.0, 0.0, 100.0, 100.0, 0.0],
        [0.0, 0.0, 90.0, 0.0, -60.0, 0.0, 30.0, 0.0],
        [0.0, 0.0, 0.0, 0.0, 50.0, 80.0, 100.0, 0.0],
        [0.0, 0.0, 50.0, 80.0, 100.0, 0.0, 100.0, 0.0],
    ] {
        check_cubic(&cubic_path(numbers));
    }
}

#[test]
fn a_rib_like_curve_needs_few_arcs() {
    let path = cubic_path([0.0, 0.0, 80.0, 40.0, 200.0, 60.0, 260.0, 20.0]);
    let arcs = path.with_arcs(0.02).expect("arcs");
    assert!(arcs.segments.len() <= 24, "{}", arcs.segments.len());
}

#[test]
fn straight_and_collapsed_cubics_become_lines() {
    let straight = cubic_path([0.0, 0.0, 10.0, 10.0, 20.0, 20.0, 30.0, 30.0]);
    assert_eq!(
        straight.with_arcs(0.02).expect("arcs").segments,
        vec![Segment::Line { to: straight.end() }]
    );
    let blunt = cubic_path([0.0, 0.0, 0.0, 0.0, 30.0, 0.0, 30.0, 0.0]);
    assert_eq!(blunt.with_arcs(0.02).expect("arcs").segments.len(), 1);
}
