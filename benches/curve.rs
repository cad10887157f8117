//! Speed of the curve kernel. Our aims: a point of a cubic in 20 ns, the other cases in a few milliseconds.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::hint::black_box;

use boardwright::geometry::curve::{
    ArcLength, BSpline, Ends, FairCurve, KnotVector, Parameters, Vector, interpolate,
};
use boardwright::geometry::path::arcs_of_polyline;
use criterion::{Criterion, criterion_group, criterion_main};

fn through(count: usize) -> Vec<Vector<3>> {
    let point = |i: usize| {
        let t = i as f64 / (count - 1) as f64;
        Vector::from([
            1800.0 * t,
            250.0 * (t * (1.0 - t) * 4.0).sqrt(),
            60.0 * (t - 0.5).powi(2),
        ])
    };
    (0..count).map(point).collect()
}

fn outline(count: usize) -> BSpline<2> {
    let t: Vec<f64> = (0..count).map(|i| i as f64 / (count - 1) as f64).collect();
    let point = |t: &f64| {
        let angle = std::f64::consts::PI * t;
        Vector::from([900.0 - 900.0 * angle.cos(), 250.0 * angle.sin()])
    };
    let points: Vec<_> = t.iter().map(point).collect();
    interpolate(&points, 3, Parameters::Values(&t), Ends::Free).expect("solvable")
}

fn curves(c: &mut Criterion) {
    let points = through(40);
    let curve = interpolate(&points, 3, Parameters::ChordLength, Ends::Free).expect("solvable");
    // All over the curve, so that no branch is predictable; per call, a thousand calls a round.
    let spread: Vec<f64> = (0..1000).map(|i| f64::from(i) * 0.618_034 % 1.0).collect();
    c.bench_function("1000 points of a cubic in 3D", |b| {
        b.iter(|| spread.iter().map(|&u| curve.point(u)).sum::<Vector<3>>());
    });
    c.bench_function("1000 points with two derivatives of a cubic in 3D", |b| {
        b.iter(|| {
            for &u in &spread {
                black_box(curve.derivatives::<3>(u));
            }
        });
    });
    c.bench_function("interpolation of 40 points", |b| {
        b.iter(|| interpolate(black_box(&points), 3, Parameters::ChordLength, Ends::Free));
    });
    c.bench_function("arc length to 1e-6 mm and back", |b| {
        b.iter(|| ArcLength::new(&curve, 1e-6).map(|l| l.parameter(0.3 * l.total())));
    });
    c.bench_function("closest point in 3D", |b| {
        b.iter(|| curve.closest(black_box(Vector::from([700.0, 300.0, 20.0]))));
    });
}

fn fair(c: &mut Criterion) {
    let t: Vec<f64> = (0..20).map(|i| f64::from(i) / 19.0).collect();
    let shape = outline(41);
    let wanted: Vec<_> = t.iter().map(|&t| (t, shape.point(t))).collect();
    let knots = KnotVector::divided(5, &t, 4).expect("knots");
    assert_eq!(knots.count(), 81);
    let free = FairCurve::new(knots)
        .energy(3, 1.0)
        .across(0.0, Vector::from([1.0, 0.0]));
    let held = wanted.iter().fold(free.clone(), |f, &(t, p)| f.point(t, p));
    c.bench_function("fair curve, 162 unknowns, 41 conditions", |b| {
        b.iter(|| held.solve())
    });
    c.bench_function("fair curve within 0.5 mm, 162 unknowns", |b| {
        b.iter(|| free.solve_within(&wanted, 0.5));
    });
}

fn arcs(c: &mut Criterion) {
    let shape = outline(41);
    c.bench_function("arcs along a spline to 0.02 mm", |b| {
        b.iter(|| shape.arcs(0.02))
    });
    let dense: Vec<_> = (0..300)
        .map(|i| shape.point(f64::from(i) / 299.0))
        .collect();
    c.bench_function("arcs of a polyline of 300 points", |b| {
        b.iter(|| arcs_of_polyline(&dense, 0.3, 0.05));
    });
    c.bench_function("offset by 20 mm to 0.005 mm", |b| {
        b.iter(|| shape.offset(20.0, 0.005))
    });
}

criterion_group!(benches, curves, fair, arcs);
criterion_main!(benches);
