//! Least squares, fits to a tolerance, offsets.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{
    BSpline, CurveError, Ends, KnotVector, Parameters, Vector, approximate, fit, interpolate,
    least_squares,
};
use proptest::prelude::*;
use std::f64::consts::PI;

fn circle(u: f64) -> Vector<2> {
    Vector::from([100.0 * u.cos(), 100.0 * u.sin()])
}

#[test]
fn least_squares_gives_a_spline_back() {
    let knots = KnotVector::clamped(3, 0.0, &[0.2, 0.5, 0.5, 0.9], 1.0).expect("knots");
    let points = (0..knots.count())
        .map(|i| Vector::from([i as f64, (i * i % 7) as f64]))
        .collect();
    let curve = BSpline::<2>::new(knots.clone(), points).expect("curve");
    let t: Vec<f64> = (0..=60).map(|i| f64::from(i) / 60.0).collect();
    let data: Vec<_> = t.iter().map(|&u| curve.point(u)).collect();
    let back = least_squares(knots.clone(), &t, &data).expect("solvable");
    for (a, b) in back.points().iter().zip(curve.points()) {
        assert!((a - b).norm() < 1e-10);
    }
    let sparse = least_squares(knots, &[0.0, 0.05, 0.1, 1.0], &data[..4]);
    assert!(matches!(sparse, Err(CurveError::Singular(_))), "{sparse:?}");
}

/// Least squares is no worse than any other spline over its knots with the same ends.
#[test]
fn least_squares_is_least() {
    let knots = KnotVector::uniform(3, 0.0, 1.0, 4).expect("knots");
    let t: Vec<f64> = (0..=40).map(|i| f64::from(i) / 40.0).collect();
    let data: Vec<_> = t.iter().map(|&u| Vector::from([(9.0 * u).sin()])).collect();
    let best = least_squares(knots.clone(), &t, &data).expect("solvable");
    let sum = |c: &BSpline<1>| -> f64 {
        t.iter()
            .zip(&data)
            .map(|(&u, p)| (c.point(u) - p).norm_squared())
            .sum()
    };
    for i in 1..knots.count() - 1 {
        for nudge in [-1e-3, 1e-3] {
            let mut points = best.points().to_vec();
            points[i][0] += nudge;
            let other = BSpline::new(knots.clone(), points).expect("curve");
            assert!(sum(&other) > sum(&best));
        }
    }
}

#[test]
fn a_circle_is_approximated_with_few_spans() {
    let mut last = 0;
    for tolerance in [1e-1, 1e-3, 1e-5, 1e-7] {
        let knots = KnotVector::uniform(3, 0.0, 2.0 * PI, 1).expect("knots");
        let curve = approximate(circle, knots, tolerance).expect("smooth");
        for i in 0..=10_000 {
            let u = 2.0 * PI * f64::from(i) / 10_000.0;
            assert!((curve.point(u) - circle(u)).norm() <= tolerance);
        }
        // Error falls with the fourth power of the span.
        let spans = curve.knots().breaks().len() - 1;
        assert!(last == 0 || spans <= 4 * last, "{spans} after {last}");
        last = spans;
    }
    let jump = |u: f64| Vector::from([u, f64::from(u8::from(u > 0.3))]);
    let knots = KnotVector::uniform(3, 0.0, 1.0, 1).expect("knots");
    assert!(
        approximate(jump, knots, 0.01).is_err(),
        "no spline follows a jump"
    );
}

#[test]
fn a_crease_declared_by_knots_is_followed() {
    let roof = |u: f64| Vector::from([u, (u - 0.4).abs()]);
    let knots = KnotVector::clamped(3, 0.0, &[0.4; 3], 1.0).expect("knots");
    let curve = approximate(roof, knots.clone(), 1e-9).expect("creased");
    assert_eq!(curve.knots(), &knots, "no further knot is needed");
}

#[test]
fn circles_offset_to_circles_and_too_tight_ones_are_refused() {
    let knots = KnotVector::uniform(3, 0.0, PI, 1).expect("knots");
    let arc = approximate(circle, knots, 1e-7).expect("smooth");
    for (distance, radius) in [(30.0, 70.0), (-50.0, 150.0), (99.0, 1.0)] {
        let offset = arc.offset(distance, 1e-3).expect("wide enough");
        for i in 0..=1000 {
            let p = offset.point(PI * f64::from(i) / 1000.0);
            assert!((p.norm() - radius).abs() < 1.1e-3, "{} at {i}", p.norm());
        }
    }
    let refused = arc.offset(101.0, 1e-3);
    assert!(
        matches!(refused, Err(CurveError::TooTight { radius, .. }) if (radius - 100.0).abs() < 0.1),
        "{refused:?}"
    );
    assert!(
        arc.offset(-101.0, 1e-3).is_ok(),
        "on the other side there is room"
    );
}

#[test]
fn the_tightest_bend_is_named_even_between_samples() {
    // y = x² / 2: radius 1 at the apex.
    let knots = KnotVector::uniform(2, -3.0, 2.0, 1).expect("knots");
    let points = [[-3.0, 4.5], [-0.5, -3.0], [2.0, 2.0]].map(Vector::<2>::from);
    let parabola = BSpline::new(knots, points.to_vec()).expect("curve");
    let refused = parabola.offset(1.001, 1e-3);
    assert!(
        matches!(refused, Err(CurveError::TooTight { parameter, radius, .. })
            if parameter.abs() < 1e-9 && (radius - 1.0).abs() < 1e-9),
        "{refused:?}"
    );
    assert!(parabola.offset(0.999, 1e-3).is_ok());
    assert!(matches!(
        parabola.offset(f64::NAN, 1e-3),
        Err(CurveError::NotFinite(_))
    ));
}

#[test]
fn creases_have_no_offset() {
    let knots = KnotVector::clamped(2, 0.0, &[1.0, 1.0], 2.0).expect("knots");
    let points = [[0., 0.], [1., 1.], [2., 2.], [3., 1.], [4., 0.]].map(Vector::<2>::from);
    let roof = BSpline::new(knots, points.to_vec()).expect("curve");
    assert_eq!(roof.offset(0.1, 1e-3), Err(CurveError::Crease(1.0)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn every_point_is_within_the_tolerance(
        heights in prop::collection::vec(-20.0..20.0f64, 4..60),
        degree in 1usize..6,
        tolerance in 0.001..20.0f64,
    ) {
        prop_assume!(heights.len() > degree);
        let points: Vec<Vector<2>> =
            heights.iter().enumerate().map(|(i, &y)| Vector::from([7.0 * i as f64, y])).collect();
        let t = boardwright::geometry::curve::parameters(&points, Parameters::ChordLength).expect("rising");
        let curve = fit(&points, degree, Parameters::ChordLength, tolerance).expect("reachable");
        for (u, p) in t.iter().zip(&points) {
            prop_assert!((curve.point(*u) - p).norm() <= tolerance.max(1e-9));
        }
        prop_assert!((curve.point(0.0) - points[0]).norm() < 1e-9);
        prop_assert!(curve.points().len() <= points.len());
    }

    /// The offset lies at its distance from the curve, square to it.
    #[test]
    fn offsets_keep_their_distance(
        heights in prop::collection::vec(-15.0..15.0f64, 5..9),
        distance in -20.0..20.0f64,
    ) {
        let points: Vec<Vector<2>> =
            heights.iter().enumerate().map(|(i, &y)| Vector::from([100.0 * i as f64, y])).collect();
        let curve = interpolate(&points, 3, Parameters::ChordLength, Ends::Natural).expect("solvable");
        let tolerance = 0.005;
        if let Ok(offset) = curve.offset(distance, tolerance) {
            for i in 0..=300 {
                let u = f64::from(i) / 300.0;
                let [c, d] = curve.derivatives::<2>(u);
                let left = Vector::from([-d[1], d[0]]) / d.norm();
                prop_assert!((offset.point(u) - c - left * distance).norm() <= tolerance);
            }
        } else {
            // Refused: then some bend is too tight on that side.
            let tight = (0..=2000).any(|i| {
                let k = curve.curvature(f64::from(i) / 2000.0).unwrap_or(0.0);
                k * distance > 0.95
            });
            prop_assert!(tight);
        }
    }
}
