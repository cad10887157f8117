//! Flattening against closed forms, theorems and another implementation.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::sheets3d;
use boardwright::geometry::curve::Vector;
use boardwright::wood::skin::{FlattenError, angle_deficit, conformal_map, flatten};
use proptest::prelude::*;
use sheets3d::{Sheet, disc, edge_strain, grid};
use std::f64::consts::{PI, TAU};

/// Places of a list of 3-vectors or 2-vectors in a fixture.
fn places<const D: usize>(value: &serde_json::Value) -> Vec<Vector<D>> {
    let rows: Vec<Vec<f64>> = serde_json::from_value(value.clone()).unwrap();
    rows.iter().map(|r| Vector::from_fn(|i, _| r[i])).collect()
}

/// libigl 2.6.3 on the same meshes: the conformal map point for point, the rigid one by its energy and singular values.
#[test]
fn agrees_with_another_implementation() {
    let fixture: serde_json::Value =
        serde_json::from_str(include_str!("../fixtures/flatten.json")).unwrap();
    for case in fixture["cases"].as_array().unwrap() {
        let name = case["name"].as_str().unwrap();
        let points = places::<3>(&case["points"]);
        let triangles: Vec<[u32; 3]> = serde_json::from_value(case["triangles"].clone()).unwrap();
        let pins: [usize; 2] = serde_json::from_value(case["pins"].clone()).unwrap();
        let reach = case["reach"].as_f64().unwrap();
        let held = [
            (pins[0], Vector::from([0.0, 0.0])),
            (pins[1], Vector::from([reach, 0.0])),
        ];
        let map = conformal_map(&points, &triangles, held).unwrap();
        for (got, want) in map.iter().zip(places::<2>(&case["conformal"])) {
            assert!((got - want).norm() < 1e-8 * reach, "{name}: {got} {want}");
        }
        let flat = flatten(&points, &triangles).unwrap();
        let energy = case["energy"].as_f64().unwrap();
        // Both are at the minimum, ours not above theirs.
        assert!(flat.energy <= energy * (1.0 + 1e-12), "{name}");
        assert!(
            (flat.energy / energy - 1.0).abs() < 1e-6,
            "{name}: {} {energy}",
            flat.energy
        );
        for (got, want) in flat.stretches.iter().zip(places::<2>(&case["stretches"])) {
            let miss = (got.greater - want.x)
                .abs()
                .max((got.lesser - want.y).abs());
            assert!(miss < 2e-6, "{name}: {got:?} {want}");
        }
    }
}

fn cylinder(rows: usize, columns: usize, radius: f64, angle: f64, skew: f64) -> Sheet {
    grid(rows, columns, |u, v| {
        // Skewed so that no edge but those across lies along a ruling.
        let a = angle * (u - 0.5) + skew * angle * (v - 0.5);
        [radius * a.sin(), 300.0 * v, -radius * a.cos()]
    })
}

/// A prism is developable itself: flat to rounding, and the border's length is that of its chords.
#[test]
fn a_cylinder_divided_along_its_rulings_is_exact() {
    let (radius, angle) = (400.0, 1.8);
    let sheet = cylinder(240, 6, radius, angle, 0.0);
    let flat = flatten(&sheet.0, &sheet.1).unwrap();
    assert!(edge_strain(&sheet, &flat.flat) < 1e-10);
    let ends = (flat.flat[240 * 7] - flat.flat[0]).norm();
    assert!((ends / (radius * angle) - 1.0).abs() < 1e-5, "{ends}");
    assert!(angle_deficit(&sheet.0, &sheet.1).unwrap().abs() < 1e-10);
}

/// Triangles that cross the rulings strain by the square of their turning, and no more than 1e-6 when fine.
#[test]
fn a_cylinder_divided_anyhow_develops_under_refinement() {
    let strain = |n: usize| {
        let sheet = cylinder(n, n / 2, 3000.0, 0.25, 0.4);
        edge_strain(&sheet, &flatten(&sheet.0, &sheet.1).unwrap().flat)
    };
    let strains = [20, 40, 80, 160].map(strain);
    for w in strains.windows(2) {
        assert!((3.0..5.0).contains(&(w[0] / w[1])), "{strains:?}");
    }
    assert!(strains[3] < 1e-6, "{strains:?}");
}

/// A cone of base radius R and slant s opens to a sector of 2πR/s; here a slit frustum.
#[test]
fn a_cone_opens_to_its_sector() {
    let (slope, from, to) = (0.3_f64, 200.0, 700.0);
    let turn = 1.6 * PI;
    let sheet = grid(10, 600, |u, v| {
        let (slant, a) = (from + (to - from) * u, turn * v);
        let r = slant * slope;
        [
            r * a.cos(),
            r * a.sin(),
            -slant * (1.0 - slope * slope).sqrt(),
        ]
    });
    let flat = flatten(&sheet.0, &sheet.1).unwrap().flat;
    assert!(edge_strain(&sheet, &flat) < 1e-9);
    let at = |i: usize, j: usize| flat[i * 601 + j];
    // The apex by prolonging both straight sides; the sector's angle between them.
    let (a, b) = (at(10, 0) - at(0, 0), at(10, 600) - at(0, 600));
    let angle = a.perp(&b).abs().atan2(a.dot(&b));
    assert!((angle - turn * slope).abs() < 1e-4, "{angle}");
    let apex = at(0, 0) - a * (from / (to - from));
    for j in 0..=600 {
        assert!(((at(10, j) - apex).norm() - to).abs() < 1e-4 * to);
    }
}

/// A cylinder of radius r cut obliquely at φ unrolls to z = r tan φ cos(s / r).
#[test]
fn an_oblique_cut_unrolls_to_a_cosine() {
    let (r, phi) = (150.0, 0.5_f64);
    let cut = |a: f64| r * phi.tan() * a.cos();
    let (rows, n) = (8, 480);
    let angle = |v: f64| 1.9 * PI * (v - 0.5);
    let sheet = grid(rows, n, |u, v| {
        let a = angle(v);
        [-400.0 * (1.0 - u) + cut(a) * u, r * a.sin(), -r * a.cos()]
    });
    let flat = flatten(&sheet.0, &sheet.1).unwrap().flat;
    // The straight edge is the axis of arc length.
    let (origin, end) = (flat[0], flat[n]);
    let across = (end - origin).normalize();
    let sign = (flat[rows * (n + 1)] - origin).perp(&across).signum();
    for j in 0..=n {
        let p = flat[rows * (n + 1) + j] - origin;
        let s = across.dot(&p) - (end - origin).norm() / 2.0;
        let z = sign * p.perp(&across) - 400.0;
        assert!((z - r * phi.tan() * (s / r).cos()).abs() < 5e-3, "{j}: {z}");
    }
}

fn sphere_cap(rings: usize, theta: f64) -> Sheet {
    disc(rings, |t, a| {
        let p = theta * t;
        [p.sin() * a.cos(), p.sin() * a.sin(), p.cos()].map(|c| 100.0 * c)
    })
}

/// No map of a cap of half-angle θ is exact. Milnor (*A problem in cartography*, Amer. Math. Monthly 76, 1969): ln(greatest / least
/// enlargement) ≥ ln(θ / sin θ) ≈ θ²/6 for every map.
///
/// The rigid map r(ρ) minimises ∫ [(r′ − 1)² + (r / sin ρ − 1)²] sin ρ dρ. With r = ρ + w and sin ρ ≈ ρ − ρ³/6 its
/// equation is ρ w″ + w′ − w/ρ = ρ²/6 with w′(θ) = 0, so w = ρ³/48 − θ²ρ/16: at the rim the hoop is θ²/8 too long, at the
/// centre everything θ²/16 too short, and the distortion is 3θ²/16.
#[test]
fn a_spherical_cap_strains_as_it_must() {
    for theta in [0.1_f64, 0.2, 0.35] {
        let sheet = sphere_cap(40, theta);
        let flat = flatten(&sheet.0, &sheet.1).unwrap();
        let greatest = flat.stretches.iter().map(|s| s.greater).fold(0.0, f64::max);
        let least = flat.stretches.iter().map(|s| s.lesser).fold(9.0, f64::min);
        let (square, room) = (theta * theta, 0.06 + theta * theta);
        assert!(
            ((greatest - 1.0) / (square / 8.0) - 1.0).abs() < room,
            "{theta}: {greatest}"
        );
        assert!(
            ((1.0 - least) / (square / 16.0) - 1.0).abs() < room,
            "{theta}: {least}"
        );
        // The outermost triangles stand for places a little inside the rim.
        let milnor = (theta / theta.sin()).ln();
        assert!((greatest / least).ln() > 0.97 * milnor, "{theta}");
    }
}

/// Gauss–Bonnet: the deficit of a cap is 2π (1 − cos θ), of which the outer ring of triangles sees a part only.
#[test]
fn the_deficit_of_a_cap_is_its_solid_angle() {
    let theta = 0.4_f64;
    let want = TAU * (1.0 - theta.cos());
    let miss = [20, 40].map(|n| {
        let (points, triangles) = sphere_cap(n, theta);
        want - angle_deficit(&points, &triangles).unwrap()
    });
    // Half a ring is missing, which halves with refinement.
    assert!((miss[0] / miss[1] - 2.0).abs() < 0.1, "{miss:?}");
    assert!(miss[1] > 0.0 && miss[1] < 0.03 * want, "{miss:?}");
}

fn flat_area(triangles: &[[u32; 3]], flat: &[Vector<2>]) -> f64 {
    let of = |t: &[u32; 3]| {
        let [a, b, c] = t.map(|i| flat[i as usize]);
        (b - a).perp(&(c - a)) / 2.0
    };
    triangles.iter().map(of).sum()
}

#[test]
fn area_is_kept_within_the_strain_reported() {
    let sheet = sphere_cap(20, 0.5);
    let flat = flatten(&sheet.0, &sheet.1).unwrap();
    let surface: f64 = {
        let of = |t: &[u32; 3]| {
            let [a, b, c] = t.map(|i| sheet.0[i as usize]);
            (b - a).cross(&(c - a)).norm() / 2.0
        };
        sheet.1.iter().map(of).sum()
    };
    let change = surface / flat_area(&sheet.1, &flat.flat) - 1.0;
    let strains: Vec<f64> = flat.stretches.iter().map(|s| s.area_strain()).collect();
    let (low, high) = strains
        .iter()
        .fold((f64::MAX, f64::MIN), |(l, h), s| (l.min(*s), h.max(*s)));
    assert!(
        low <= change && change <= high && change.abs() < 2e-3,
        "{low} {change} {high}"
    );
}

#[test]
fn what_is_no_disc_is_refused() {
    let (points, triangles) = grid(3, 3, |u, v| [u, v, 0.0]);
    let mut holed = triangles.clone();
    holed.retain(|t| !t.contains(&5));
    assert!(matches!(
        flatten(&points, &holed),
        Err(FlattenError::NotADisc(_))
    ));
    let mut apart = triangles.clone();
    apart.truncate(1);
    apart.push(triangles[17]);
    assert!(matches!(
        flatten(&points, &apart),
        Err(FlattenError::NotADisc(_))
    ));
    let mut turned = triangles.clone();
    turned[4].swap(0, 1);
    assert!(matches!(
        flatten(&points, &turned),
        Err(FlattenError::NotADisc(_))
    ));
    let mut wild = triangles.clone();
    wild[2][0] = 99;
    assert_eq!(flatten(&points, &wild), Err(FlattenError::Index(2)));
    let mut thin = points.clone();
    thin[0] = (thin[1] + thin[4]) / 2.0;
    assert!(matches!(
        flatten(&thin, &triangles),
        Err(FlattenError::Sliver(_))
    ));
    let mut lost = points.clone();
    lost[7].x = f64::NAN;
    assert_eq!(flatten(&lost, &triangles), Err(FlattenError::NotFinite(7)));
    assert!(matches!(
        flatten(&points, &[]),
        Err(FlattenError::NotADisc(_))
    ));
    let ball = [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]];
    let corners = [[0.0; 3], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(Vector::from);
    assert!(matches!(
        flatten(&corners, &ball),
        Err(FlattenError::NotADisc(_))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Turning and moving the surface changes no strain; a bump of any shape settles.
    #[test]
    fn strains_do_not_depend_on_where_the_surface_lies(
        bend in -4e-3..4e-3_f64, crown in -4e-3..4e-3_f64, twist in -2e-3..2e-3_f64,
        turn in prop::array::uniform3(-3.0..3.0_f64), shift in -500.0..500.0_f64,
    ) {
        let sheet = grid(10, 6, |u, v| {
            let (x, y) = (300.0 * (u - 0.5), 180.0 * (v - 0.5));
            [x, y, bend * x * x + crown * y * y + twist * x * y]
        });
        let rotation = nalgebra::Rotation3::new(Vector::from(turn));
        let moved: Vec<Vector<3>> = sheet.0.iter().map(|p| rotation * p + Vector::from([shift; 3])).collect();
        let (a, b) = (flatten(&sheet.0, &sheet.1).unwrap(), flatten(&moved, &sheet.1).unwrap());
        for (p, q) in a.stretches.iter().zip(&b.stretches) {
            prop_assert!((p.greater - q.greater).abs() < 1e-8 && (p.lesser - q.lesser).abs() < 1e-8);
            prop_assert!(p.strain(&Vector::from([1.0, 0.0, 0.0])).abs() <= p.worst().abs() + 1e-12);
        }
    }
}
