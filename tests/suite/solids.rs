//! Meshes of whole boards and of solids with closed forms.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::solids;
use boardwright::board::Board;
use boardwright::design;
use boardwright::geometry::curve::Vector;
use boardwright::geometry::surface::tessellate;
use boardwright::shape::{DEFAULT_TOLERANCE, Shell, loft};
use boardwright::views::solids::{MESH_TOLERANCE, frame_preview, shell_mesh};
use solids::{Superellipsoid, Wigley};

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn board(name: &str) -> Board {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    Board::new(design::parse(&text, &file).unwrap()).unwrap()
}

/// Greatest distance of the surface from the two triangles of each cell, at 5 × 5 places a cell.
fn greatest_miss(shell: &Shell, tolerance: f64) -> f64 {
    let mut worst = 0.0_f64;
    for (patch, grid) in shell
        .patches
        .iter()
        .zip(tessellate(&shell.patches, tolerance))
    {
        let n = grid.v.len();
        for i in 0..grid.u.len() - 1 {
            for j in 0..n - 1 {
                let corner = |di: usize, dj: usize| grid.points[(i + di) * n + j + dj];
                let (a, b, c, d) = (corner(0, 0), corner(0, 1), corner(1, 1), corner(1, 0));
                for (s, t) in (1..25).map(|k| (f64::from(k % 5) / 5.0, f64::from(k / 5) / 5.0)) {
                    let p = patch.point(
                        grid.u[i] + (grid.u[i + 1] - grid.u[i]) * s,
                        grid.v[j] + (grid.v[j + 1] - grid.v[j]) * t,
                    );
                    let miss = [[a, b, c], [a, c, d], [a, b, d], [b, c, d]]
                        .iter()
                        .map(|t| distance(&p, t))
                        .fold(f64::INFINITY, f64::min);
                    worst = worst.max(miss);
                }
            }
        }
    }
    worst
}

/// Distance of a point from a triangle.
fn distance(p: &Vector<3>, t: &[Vector<3>; 3]) -> f64 {
    let normal = (t[1] - t[0]).cross(&(t[2] - t[0]));
    if normal.norm() > 1e-12 {
        let n = normal.normalize();
        let foot = p - n * (p - t[0]).dot(&n);
        let inside = (0..3).all(|k| (t[(k + 1) % 3] - t[k]).cross(&(foot - t[k])).dot(&n) >= 0.0);
        if inside {
            return (p - foot).norm();
        }
    }
    (0..3)
        .map(|k| {
            let (a, d) = (t[k], t[(k + 1) % 3] - t[k]);
            let s = ((p - a).dot(&d) / d.norm_squared().max(1e-300)).clamp(0.0, 1.0);
            (p - a - d * s).norm()
        })
        .fold(f64::INFINITY, f64::min)
}

#[test]
fn every_example_shell_is_closed_outward_and_within_tolerance() {
    for name in EXAMPLES {
        let board = board(name);
        let mesh = shell_mesh(&board.shell, MESH_TOLERANCE).unwrap();
        let report = mesh.check(1e-6);
        assert!(report.is_sound(), "{name}: {report}");
        let difference = (mesh.volume() / board.measures.volume - 1.0).abs();
        assert!(difference < 3e-3, "{name}: {difference}");
        let miss = greatest_miss(&board.shell, MESH_TOLERANCE);
        assert!(miss <= MESH_TOLERANCE, "{name}: {miss}");
    }
}

/// Stem lines (Wigley) and poles (ellipsoid) close without empty triangles.
#[test]
fn stems_and_poles_close() {
    let wigley = loft(
        &Wigley {
            length: 2000.0,
            beam: 500.0,
            draught: 125.0,
        },
        DEFAULT_TOLERANCE,
    )
    .unwrap();
    let ellipsoid = loft(
        &Superellipsoid {
            semi: [990.0, 255.0, 32.0],
            exponent: 2.0,
        },
        DEFAULT_TOLERANCE,
    )
    .unwrap();
    for shell in [wigley, ellipsoid] {
        for tolerance in [1.0, 0.1] {
            let report = shell_mesh(&shell, tolerance).unwrap().check(1e-6);
            assert!(report.is_sound(), "{report}");
            assert!(greatest_miss(&shell, tolerance) <= tolerance);
        }
    }
}

#[test]
fn every_part_of_the_frame_preview_is_a_closed_solid() {
    for name in EXAMPLES {
        let board = board(name);
        let meshes = frame_preview(&board).unwrap();
        assert!(
            meshes.len() > board.ribs.len() * 5,
            "{name}: {} parts",
            meshes.len()
        );
        for mesh in &meshes {
            let report = mesh.check(1e-6);
            assert!(report.is_sound(), "{name}, {}: {report}", mesh.name);
        }
        let rib = &board.ribs[2];
        let want = rib.area() * rib.thickness;
        let got = meshes.iter().find(|m| m.name == "rib-03").unwrap().volume();
        assert!(
            (got / want - 1.0).abs() < 1e-3,
            "{name}: {got} against {want}"
        );
    }
}
