//! Patches of surfaces with closed forms. The outside is where `dv × du` points.

use std::f64::consts::PI;

use boardwright::geometry::curve::{Collocation, KnotVector, Vector};
use boardwright::geometry::surface::Patch;

/// The quintic patch of `spans` × `spans` equal spans over the unit square that agrees with `surface` at the Greville
/// sites; for smooth surfaces its error falls with the sixth power of the spans.
pub fn collocated(spans: usize, surface: impl Fn(f64, f64) -> Vector<3>) -> Patch {
    const DEGREE: usize = 5;
    let knots = KnotVector::uniform(DEGREE, 0.0, 1.0, spans).expect("knots");
    let sites: Vec<(f64, usize)> = knots
        .knots()
        .windows(DEGREE)
        .skip(1)
        .take(knots.count())
        .map(|w| (w.iter().sum::<f64>() / DEGREE as f64, 0))
        .collect();
    let conditions = Collocation::new(knots.clone(), &sites).expect("sites");
    let n = sites.len();
    let solve = |values: Vec<Vector<3>>| conditions.solve::<3>(values).expect("solves");
    let rows: Vec<_> = sites
        .iter()
        .map(|u| solve(sites.iter().map(|v| surface(u.0, v.0)).collect()))
        .collect();
    let mut net = vec![Vector::<3>::zeros(); n * n];
    for j in 0..n {
        let column = solve(rows.iter().map(|r| r.points()[j]).collect());
        for (i, p) in column.points().iter().enumerate() {
            net[i * n + j] = *p;
        }
    }
    Patch::new(knots.clone(), knots, net).expect("patch")
}

/// Half of an ellipsoid about the origin, y ≥ 0, with poles at the ends of the x axis.
pub fn ellipsoid(semi: [f64; 3]) -> impl Fn(f64, f64) -> Vector<3> {
    move |u, v| {
        let ((st, ct), (sp, cp)) = ((PI * u).sin_cos(), (PI * (v - 0.5)).sin_cos());
        Vector::<3>::new(-semi[0] * ct, semi[1] * st * cp, semi[2] * st * sp)
    }
}

/// A cylinder about the x axis, once round.
pub fn cylinder(length: f64, radius: f64) -> impl Fn(f64, f64) -> Vector<3> {
    move |u, v| {
        let (s, c) = (2.0 * PI * v).sin_cos();
        Vector::<3>::new(length * (u - 0.5), radius * c, radius * s)
    }
}

/// Half a cone about the x axis with its apex at the origin, widening along x.
pub fn cone(height: f64, radius: f64) -> impl Fn(f64, f64) -> Vector<3> {
    move |u, v| {
        let (s, c) = (PI * (v - 0.5)).sin_cos();
        Vector::<3>::new(height * u, radius * u * c, radius * u * s)
    }
}

/// A whole torus about the z axis: the circle of radius `tube`, its centre on the circle of radius `ring`.
pub fn torus(ring: f64, tube: f64) -> impl Fn(f64, f64) -> Vector<3> {
    move |u, v| {
        let ((sa, ca), (sb, cb)) = ((2.0 * PI * u).sin_cos(), (2.0 * PI * v).sin_cos());
        let r = ring + tube * cb;
        Vector::<3>::new(-r * ca, r * sa, tube * sb)
    }
}

/// Signed distance from that torus.
pub fn torus_distance(ring: f64, tube: f64, p: &Vector<3>) -> f64 {
    (p.x.hypot(p.y) - ring).hypot(p.z) - tube
}
