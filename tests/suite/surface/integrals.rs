//! Volume, centroid and area of patches, and their tessellation, against closed forms.

use std::f64::consts::PI;

use crate::surface::patches::{collocated, ellipsoid, torus, torus_distance};
use boardwright::geometry::curve::{KnotVector, Vector};
use boardwright::geometry::surface::{Grid, Patch, integrals, skin, tessellate};

fn relative(got: f64, want: f64) -> f64 {
    (got / want - 1.0).abs()
}

/// One side of Wigley's hull y = (B/2)(1 − ξ²)(1 − ζ²), ξ from −1 to 1, ζ from 1 at the keel to 0: biquadratic.
///
/// Half volume 2/9 LBT, moments by ∫(1 − ξ²)² dξ = 16/15: ∭ y = 8/225 B²LT; centroid 3T/8 under the waterline.
#[test]
fn the_volume_of_a_polynomial_patch_is_exact() {
    let (length, beam, draught) = (2000.0, 500.0, 125.0);
    let knots = KnotVector::clamped(2, 0.0, &[], 1.0).expect("knots");
    let mut net = Vec::new();
    for (i, along) in [0.0, 2.0, 0.0].into_iter().enumerate() {
        for (j, down) in [0.0, 1.0, 1.0].into_iter().enumerate() {
            let (x, z) = (i as f64 * length / 2.0, j as f64 * draught / 2.0 - draught);
            net.push(Vector::<3>::new(x, beam / 2.0 * along * down, z));
        }
    }
    let patch = Patch::new(knots.clone(), knots, net).expect("patch");
    let got = integrals(&patch);
    let volume = 2.0 / 9.0 * length * beam * draught;
    assert!(relative(got.volume, volume) < 1e-13, "{}", got.volume);
    assert!(relative(got.moment.x / got.volume, length / 2.0) < 1e-13);
    let transverse = 8.0 / 225.0 * beam * beam * length * draught;
    assert!(relative(got.moment.y, transverse) < 1e-13);
    assert!(relative(got.moment.z / got.volume, -3.0 * draught / 8.0) < 1e-13);
}

/// Half a sphere skinned through n exact half circles: 2/3 π R³ and 2π R², centroid 3R/8 (Archimedes).
#[test]
fn a_skinned_sphere_converges_with_the_fourth_order() {
    let radius = 80.0;
    let exact = ellipsoid([radius; 3]);
    let sphere = |n: usize| {
        // Circles far better than the rows, so that the rows alone err.
        let across = collocated(64, &exact);
        let rows: Vec<_> = (0..=n)
            .map(|i| {
                let u = i as f64 / n as f64;
                (u, across.across(u).expect("row").points().to_vec())
            })
            .collect();
        integrals(&skin(across.v(), &rows).expect("skins"))
    };
    let levels = [16, 32, 64, 128].map(sphere);
    let volume = 2.0 / 3.0 * PI * radius.powi(3);
    let errors = levels.map(|l| relative(l.volume, volume));
    let areas = levels.map(|l| relative(l.area, 2.0 * PI * radius * radius));
    for errors in [errors, areas] {
        for w in errors.windows(2) {
            assert!((w[0] / w[1]).log2() > 3.7, "{errors:?}");
        }
        assert!(errors[3] < 2e-6, "{errors:?}");
    }
    let last = &levels[3];
    assert!(relative(last.moment.y / last.volume, 3.0 / 8.0 * radius) < 1e-5);
    assert!((last.moment.x / last.volume).abs() < 1e-6);
}

/// Pappus: V = 2π R · π r², A = 2π R · 2π r, and the centroid goes where the torus is moved.
#[test]
fn a_torus_has_the_measures_that_pappus_gives_it() {
    let (ring, tube) = (100.0, 30.0);
    let moved = Vector::<3>::new(700.0, -250.0, 90.0);
    let shape = torus(ring, tube);
    let patch = collocated(32, |u, v| shape(u, v) + moved);
    let got = integrals(&patch);
    let (volume, area) = (
        2.0 * PI * PI * ring * tube * tube,
        4.0 * PI * PI * ring * tube,
    );
    assert!(relative(got.volume, volume) < 1e-8, "{}", got.volume);
    assert!(relative(got.area, area) < 1e-8, "{}", got.area);
    assert!((got.moment / got.volume - moved).norm() < 1e-5);
    assert!((got.area_moment / got.area - moved).norm() < 1e-5);
}

/// Greatest distance from a surface of points on the grid's triangles, whichever way its cells are split.
fn chord_error(grid: &Grid, distance: impl Fn(&Vector<3>) -> f64) -> f64 {
    let n = grid.v.len();
    let mut worst = 0.0_f64;
    for i in 0..grid.u.len() - 1 {
        for j in 0..n - 1 {
            let p = |di: usize, dj: usize| grid.points[(i + di) * n + j + dj];
            let (a, b, c, d) = (p(0, 0), p(0, 1), p(1, 1), p(1, 0));
            for t in [[a, b, c], [a, c, d], [a, b, d], [b, c, d]] {
                for w in [
                    [1.0, 1.0, 1.0],
                    [1.0, 1.0, 0.0],
                    [0.0, 1.0, 1.0],
                    [1.0, 0.0, 1.0],
                    [2.0, 2.0, 1.0],
                ] {
                    let sum: f64 = w.iter().sum();
                    let q = (t[0] * w[0] + t[1] * w[1] + t[2] * w[2]) / sum;
                    worst = worst.max(distance(&q).abs());
                }
            }
        }
    }
    worst
}

#[test]
fn triangles_keep_the_tolerance_and_use_it() {
    let sphere = collocated(12, ellipsoid([80.0; 3]));
    let ring = collocated(12, torus(100.0, 30.0));
    for tolerance in [1.0, 0.1, 0.02] {
        let grids = tessellate(std::slice::from_ref(&sphere), tolerance);
        let worst = chord_error(&grids[0], |p| p.norm() - 80.0);
        assert!(worst <= tolerance, "sphere {worst} over {tolerance}");
        assert!(worst > tolerance / 4.0, "sphere {worst} wastes {tolerance}");
        let grids = tessellate(std::slice::from_ref(&ring), tolerance);
        let worst = chord_error(&grids[0], |p| torus_distance(100.0, 30.0, p));
        assert!(worst <= tolerance, "torus {worst} over {tolerance}");
        assert!(worst > tolerance / 4.0, "torus {worst} wastes {tolerance}");
    }
}

/// Two halves of a torus, one squeezed: the squeezed one asks for more lines across, and the other gets them too.
#[test]
fn neighbours_meet_point_for_point() {
    let (shape, slender) = (torus(100.0, 30.0), torus(100.0, 30.0));
    let first = collocated(12, |u, v| shape(0.5 * u, v));
    let second = collocated(12, |u, v| {
        let p = slender(0.5 + 0.5 * u, v);
        Vector::<3>::new(p.x, 4.0 * p.y, p.z)
    });
    let grids = tessellate(&[first, second], 0.05);
    assert_eq!(grids[0].v, grids[1].v);
    let n = grids[0].v.len();
    let last = &grids[0].points[grids[0].points.len() - n..];
    for (a, b) in last.iter().zip(&grids[1].points[..n]) {
        assert!((a - b).norm() < 1e-9, "{a} against {b}");
    }
    assert!(chord_error(&grids[0], |p| torus_distance(100.0, 30.0, p)) <= 0.05);
}
