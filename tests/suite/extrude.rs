//! Plates are closed and have the volume their outline and thickness give.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::mesh::{MeshError, PlateFrame, extrude, extrude_with};
use nalgebra::{Point3, Rotation3, Vector2, Vector3};
use proptest::prelude::*;
use std::f64::consts::TAU;

fn star(radii: &[f64], centre: (f64, f64)) -> Vec<Vector2<f64>> {
    let n = radii.len() as f64;
    radii
        .iter()
        .enumerate()
        .map(|(i, r)| {
            let (sin, cos) = (TAU * i as f64 / n).sin_cos();
            Vector2::new(centre.0 + r * cos, centre.1 + r * sin)
        })
        .collect()
}

fn area(ring: &[Vector2<f64>]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    let twice: f64 = ring
        .iter()
        .zip(next)
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum();
    (twice / 2.0).abs()
}

/// Splits every edge in three, which leaves collinear points.
fn subdivided(ring: &[Vector2<f64>]) -> Vec<Vector2<f64>> {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .flat_map(|(a, b)| [0.0, 1.0 / 3.0, 2.0 / 3.0].map(|t| a + (b - a) * t))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]
    #[test]
    fn star_plates_are_closed_and_true(
        radii in prop::collection::vec(60.0..200.0f64, 5..60),
        hole in prop::collection::vec(2.0..12.0f64, 3..20),
        thickness in 0.5..20.0f64,
        turn in prop::array::uniform3(-3.0..3.0f64),
        clockwise: bool,
    ) {
        let mut outline = subdivided(&star(&radii, (0.0, 0.0)));
        // The inner circle of any such star is at least 60 cos(π/5) = 48 wide.
        let holes = [(-16.0, -14.0), (16.0, -14.0), (0.0, 16.0)].map(|c| star(&hole, c)).to_vec();
        let expected = (area(&outline) - holes.iter().map(|h| area(h)).sum::<f64>()) * thickness;
        if clockwise {
            outline.reverse();
        }
        let r = Rotation3::new(Vector3::from(turn));
        let frame = PlateFrame {
            origin: Point3::new(1200.0, -80.0, 15.0),
            across: r * Vector3::x(),
            up: r * Vector3::y(),
            through: r * Vector3::z() * if clockwise { -1.0 } else { 1.0 },
        };
        let mesh = extrude("plate", &outline, &holes, &frame, thickness).unwrap();
        let report = mesh.check(1e-9);
        prop_assert!(report.is_sound(), "{report}");
        prop_assert!((report.volume / expected - 1.0).abs() < 1e-9);
        let corners = outline.len() + 3 * hole.len();
        prop_assert_eq!(mesh.vertices.len(), 2 * corners);
        // Two caps of n + 2h − 2 triangles each, two triangles a wall: every ring point is a corner.
        prop_assert_eq!(mesh.triangles.len(), 2 * (corners + 2 * 3 - 2) + 2 * corners);
    }
}

#[test]
fn a_bevelled_plate_stays_closed() {
    let outline = star(&[50.0; 24], (0.0, 0.0));
    let mesh = extrude_with("cone", &outline, &[], |p, top| {
        let size = if top { 0.5 } else { 1.0 };
        Point3::new(p.x * size, p.y * size, if top { 30.0 } else { 0.0 })
    })
    .unwrap();
    let base = area(&outline);
    let frustum = 30.0 / 3.0 * base * (1.0 + 0.5 + 0.25);
    assert!(mesh.check(1e-9).is_sound());
    assert!((mesh.volume() / frustum - 1.0).abs() < 1e-12);
}

/// Rounding leaves anything where there should be zero.
#[test]
fn a_ring_may_come_as_near_to_zero_as_it_likes() {
    for power in 1..320 {
        let tiny = 10.0_f64.powi(-power);
        let ring = [(tiny, -tiny), (10.0, tiny), (10.0, 10.0), (-tiny, 10.0)];
        let ring = ring.map(|(x, y)| Vector2::new(x, y));
        let mesh = extrude("p", &ring, &[], &PlateFrame::flat(), 3.0).unwrap();
        assert!(
            (mesh.volume() - 300.0).abs() <= 100.0 * tiny + 1e-9,
            "{power}"
        );
    }
}

#[test]
fn bad_rings_are_refused_with_a_reason() {
    let square = |a: f64, b: f64| {
        [(a, a), (b, a), (b, b), (a, b)]
            .map(|(x, y)| Vector2::new(x, y))
            .to_vec()
    };
    let plate = |outline: &[Vector2<f64>], holes: &[Vec<Vector2<f64>>]| {
        extrude("p", outline, holes, &PlateFrame::flat(), 3.0).unwrap_err()
    };
    let mut bow = square(0.0, 10.0);
    bow.swap(1, 2);
    assert!(matches!(plate(&bow, &[]), MeshError::Crossing { .. }));
    assert!(matches!(
        plate(&square(0.0, 10.0)[..2], &[]),
        MeshError::TooFewPoints { .. }
    ));
    let outside = vec![square(20.0, 30.0)];
    assert_eq!(plate(&square(0.0, 10.0), &outside), MeshError::StrayHole);
    let nested = vec![square(2.0, 8.0), square(4.0, 6.0)];
    assert_eq!(plate(&square(0.0, 10.0), &nested), MeshError::StrayHole);
    let crossing = vec![square(5.0, 15.0)];
    assert!(matches!(
        plate(&square(0.0, 10.0), &crossing),
        MeshError::Crossing { .. }
    ));
    let touching = vec![square(0.0, 5.0)];
    assert!(matches!(
        plate(&square(0.0, 10.0), &touching),
        MeshError::Coincident { .. }
    ));
    let mut lost = square(0.0, 10.0);
    lost[2].x = f64::INFINITY;
    assert!(matches!(plate(&lost, &[]), MeshError::NotFinite { .. }));
    let flat = extrude("p", &square(0.0, 10.0), &[], &PlateFrame::flat(), 0.0);
    assert_eq!(flat, Err(MeshError::NoVolume));
    // Outline vertex on another edge of the outline: a pinch without a crossing.
    let pinch = [
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 10.0),
        (5.0, 0.0),
        (0.0, 10.0),
    ]
    .map(|(x, y)| Vector2::new(x, y));
    assert!(matches!(plate(&pinch, &[]), MeshError::Crossing { .. }));
}
