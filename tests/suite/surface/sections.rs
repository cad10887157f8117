//! Plane sections of patches and of their offsets against closed forms.

use std::f64::consts::PI;

use crate::surface::patches::{collocated, cylinder, ellipsoid, torus, torus_distance};
use boardwright::geometry::curve::{KnotVector, Vector};
use boardwright::geometry::surface::{ContourLine, Patch, offset_section, section};

fn length(contour: &ContourLine) -> f64 {
    let chords = contour.points.windows(2);
    chords.map(|w| (w[1] - w[0]).norm()).sum()
}

/// Area of a plane polygon, by the vector area's length.
fn area(contour: &ContourLine) -> f64 {
    let first = contour.points[0];
    let fan = contour.points.windows(2);
    let sum: Vector<3> = fan.map(|w| (w[0] - first).cross(&(w[1] - first))).sum();
    sum.norm() / 2.0
}

fn on_plane(contours: &[ContourLine], normal: Vector<3>, constant: f64) {
    for p in contours.iter().flat_map(|c| &c.points) {
        let miss = (normal.dot(p) - constant) / normal.norm();
        assert!(miss.abs() < 1e-8, "{miss} off the plane");
    }
}

/// An oblique cut is an ellipse. With the plane 60° from square its axes are 2 : 1, its perimeter 4 a E(√3/2), by mpmath
/// 9.688448220547 for the axes 2, 1.
#[test]
fn an_oblique_cut_through_a_cylinder_is_an_ellipse() {
    let radius = 50.0;
    let patch = collocated(32, cylinder(300.0, radius));
    let normal = Vector::<3>::new(0.5, 0.0, 0.75_f64.sqrt()) * 3.0;
    let cut = section(&patch, normal, 0.0, 1e-5);
    on_plane(&cut, normal, 0.0);
    // One branch, from seam to seam.
    let [branch] = &cut[..] else {
        panic!("{} branches", cut.len())
    };
    let want = 9.688_448_220_547_68 * radius;
    assert!((length(branch) / want - 1.0).abs() < 1e-6);
    for p in &branch.points {
        assert!((p.y.hypot(p.z) - radius).abs() < 1e-6);
    }
}

/// A plane h from the centre cuts a circle of area π (R² − h²); moved inward by d, π ((R − d)² − h²).
#[test]
fn a_sphere_is_cut_in_circles_at_every_depth() {
    let (radius, h) = (80.0_f64, 55.0_f64);
    let patch = collocated(24, ellipsoid([radius; 3]));
    let normal = Vector::<3>::new(0.25, 0.9, -0.2);
    for depth in [0.0, 3.0, 11.0] {
        let constant = h * normal.norm();
        let cut = offset_section(&patch, depth, normal, constant, 1e-5);
        on_plane(&cut, normal, constant);
        let [circle] = &cut[..] else {
            panic!("{} branches", cut.len())
        };
        assert!(circle.closed);
        let want = PI * ((radius - depth).powi(2) - h * h);
        assert!((area(circle) / want - 1.0).abs() < 1e-6, "depth {depth}");
    }
    assert!(section(&patch, normal, 81.0 * normal.norm(), 1e-5).is_empty());
}

/// Across the axis two circles, R ± √(r² − h²); every other section is checked point by point against the torus itself.
#[test]
fn a_torus_is_cut_in_its_known_curves_at_every_depth() {
    let (ring, tube) = (100.0_f64, 30.0_f64);
    let patch = collocated(32, torus(ring, tube));
    for depth in [0.0, 5.0, 12.0] {
        let (r, h) = (tube - depth, 8.0);
        let cut = offset_section(&patch, depth, Vector::<3>::z(), h, 1e-5);
        let mut lengths: Vec<f64> = cut.iter().map(length).collect();
        lengths.sort_by(f64::total_cmp);
        let across = (r * r - h * h).sqrt();
        let want = [ring - across, ring + across].map(|r| 2.0 * PI * r);
        assert_eq!(lengths.len(), 2);
        for (got, want) in lengths.iter().zip(want) {
            assert!((got / want - 1.0).abs() < 1e-6, "{got} against {want}");
        }
        // Along the axis two circles of the tube's radius (the seams cut one of them); beside it, spiric curves.
        let meridian = offset_section(&patch, depth, Vector::<3>::x(), 0.0, 1e-5);
        let total: f64 = meridian.iter().map(length).sum();
        assert!((total / (4.0 * PI * r) - 1.0).abs() < 1e-6, "{total}");
        for (normal, constant) in [
            (Vector::<3>::y(), 40.0),
            (Vector::<3>::y(), 90.0),
            (Vector::<3>::new(0.3, 0.5, 0.8), 10.0),
        ] {
            let cut = offset_section(&patch, depth, normal, constant, 1e-3);
            assert!(!cut.is_empty());
            on_plane(&cut, normal, constant);
            for p in cut.iter().flat_map(|c| &c.points) {
                let miss = torus_distance(ring, r, p);
                assert!(miss.abs() < 1e-6, "{miss} off the torus");
            }
        }
    }
}

/// A paraboloid z = h (1 − x²/a² − y²/b²) is polynomial, so its patch is exact; a level cut is an ellipse.
#[test]
fn a_level_cut_through_a_paraboloid_is_an_ellipse() {
    let (a, b, height) = (60.0, 40.0, 25.0);
    let patch = paraboloid(a, b, height);
    for level in [4.0, 12.0, 24.0] {
        let cut = section(&patch, Vector::<3>::z(), level, 1e-6);
        let [ellipse] = &cut[..] else {
            panic!("{} branches", cut.len())
        };
        assert!(ellipse.closed);
        let want = PI * a * b * (1.0 - level / height);
        assert!((area(ellipse) / want - 1.0).abs() < 1e-6);
        // The chords keep their tolerance: pull every middle out to the ellipse.
        for w in ellipse.points.windows(2) {
            let m = (w[0] + w[1]) / 2.0;
            let f = m.x.powi(2) / (a * a) + m.y.powi(2) / (b * b) - (1.0 - level / height);
            let slope = 2.0 * (m.x / (a * a)).hypot(m.y / (b * b));
            assert!((f / slope).abs() < 2e-6, "chord error {}", f / slope);
        }
    }
}

/// Over the square |x| ≤ a, |y| ≤ b, as one biquadratic Bézier patch in four by four spans.
fn paraboloid(a: f64, b: f64, height: f64) -> Patch {
    let square = |t: f64| 2.0 * t - 1.0;
    let surface = |u: f64, v: f64| {
        let (x, y) = (square(v), square(u));
        Vector::<3>::new(a * x, b * y, height * (1.0 - x * x - y * y))
    };
    // Bernstein points of 1 − ξ² are 0, 2, 0 and of ξ −1, 0, 1; by blossoms, for either variable alone.
    let knots = KnotVector::clamped(2, 0.0, &[], 1.0).expect("knots");
    let mut net = Vec::new();
    for i in 0..3 {
        for j in 0..3 {
            let (y, x) = ((i as f64 - 1.0) * b, (j as f64 - 1.0) * a);
            let hump = |k: usize| if k == 1 { 2.0 } else { 0.0 };
            net.push(Vector::<3>::new(x, y, height * (hump(i) + hump(j) - 1.0)));
        }
    }
    let patch = Patch::new(knots.clone(), knots, net).expect("patch");
    for (u, v) in [(0.1, 0.7), (0.5, 0.5), (0.9, 0.2)] {
        assert!((patch.point(u, v) - surface(u, v)).norm() < 1e-12);
    }
    patch
}
