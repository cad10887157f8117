//! Rib and spine contours against an independent solution of the same plane sections.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::flat;
use boardwright::board::Board;
use boardwright::design::{Foil, parse};
use boardwright::frame::Rib;
use boardwright::geometry::curve::Vector;
use boardwright::geometry::path::{Path, Point};
use flat::{distance, inside};

type V = Vector<3>;

fn board(name: &str) -> Board {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    Board::new(parse(&text, &file).unwrap()).unwrap()
}

/// The exact surface, straight from outline, rocker, foil and blended sections; the loft is not asked.
fn surface(board: &Board, x: f64, v: f64) -> V {
    let p = board.family.section_at(x).point(v);
    V::new(x, p.x, p.y)
}

/// Outward unit normal by central differences within one smooth segment of the section.
fn normal(board: &Board, x: f64, v: f64, ends: [f64; 2]) -> V {
    let h = 1e-5;
    let (low, high) = ((v - h).max(ends[0]), (v + h).min(ends[1]));
    let across = (surface(board, x, high) - surface(board, x, low)) / (high - low);
    let along = (surface(board, x + 1e-2, v) - surface(board, x - 1e-2, v)) / 2e-2;
    across.cross(&along).normalize()
}

/// The surface moved inward by `depth`, in the plane at `x`: bisection for the place it comes from.
fn inset(board: &Board, x: f64, v: f64, depth: f64, ends: [f64; 2]) -> Vector<2> {
    let at = |from: f64| surface(board, from, v) - normal(board, from, v, ends) * depth;
    let (mut low, mut high) = (x - 2.0 * depth, x + 2.0 * depth);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if at(middle).x > x {
            high = middle
        } else {
            low = middle
        }
    }
    let p = at((low + high) / 2.0);
    Vector::<2>::new(p.y, p.z)
}

fn dense(path: &Path) -> Vec<Point> {
    path.flatten(5e-4)
}

/// Greatest miss of the rib's bottom and deck edges: of the two faces' points one lies on the contour, the other outside it or
/// on it, since the smaller face rules.
fn edge_miss(board: &Board, rib: &Rib) -> f64 {
    let c = &board.design.construction;
    let contour = dense(&rib.outline);
    let mut worst = 0.0_f64;
    let edges = [(0.0, 0.4, c.bottom_skin, 0), (0.56, 1.0, c.deck_skin, 1)];
    for (start, end, depth, face) in edges {
        let stack_face = &rib.stack.faces[face];
        // Where the skin still follows the surface, and clear of the slot and of the rail.
        let (from, to) = if face == 0 {
            (start, stack_face.land_v)
        } else {
            (stack_face.land_v, end)
        };
        let rail = rib.stack.inner_boundary().unwrap();
        let reach = rail.iter().map(|p| p.x).fold(f64::INFINITY, f64::min) - 1.0;
        for i in 1..40 {
            let v = from + (to - from) * f64::from(i) / 40.0;
            let points = [-0.5, 0.5]
                .map(|s| inset(board, rib.x + s * rib.thickness, v, depth, [start, end]));
            if points.iter().any(|p| p.x > reach || p.x < rib.slot_width) {
                continue;
            }
            let misses = points.map(|p| distance(&contour, p));
            worst = worst.max(misses[0].min(misses[1]));
            for (p, miss) in points.iter().zip(misses) {
                assert!(
                    miss < 0.01 || !inside(&contour, *p),
                    "rib {}: {p:?} is cut into",
                    rib.number
                );
            }
        }
    }
    worst
}

#[test]
fn rib_edges_are_the_plane_sections_of_the_inset_surface() {
    for name in ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"] {
        let board = board(name);
        for rib in &board.ribs {
            let miss = edge_miss(&board, rib);
            // 0.01 mm is the bound on the contour; the loft itself may add its 0.005 mm.
            assert!(miss < 0.01, "{name}, rib {}: {miss}", rib.number);
        }
    }
}

#[test]
fn ribs_are_symmetric_and_meet_the_spine_half_way() {
    for name in ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"] {
        let board = board(name);
        let c = &board.design.construction;
        let spine = dense(&board.spine.outline);
        for rib in &board.ribs {
            let points = dense(&rib.outline);
            for p in points.iter().step_by(7) {
                assert!(distance(&points, Vector::<2>::new(-p.x, p.y)) < 1e-6);
            }
            assert_eq!(rib.slot_width, c.spine + c.slot_clearance);
            assert_eq!(board.spine.slot_width, c.rib + c.slot_clearance);
            // Slot of the rib up to half way, slot of the spine down to it.
            for x in [
                rib.x - board.spine.slot_width / 2.0,
                rib.x + board.spine.slot_width / 2.0,
            ] {
                assert!(distance(&spine, Vector::<2>::new(x, rib.slot_top)) < 1e-9);
            }
            for y in [-rib.slot_width / 2.0, rib.slot_width / 2.0] {
                assert!(distance(&points, Vector::<2>::new(y, rib.slot_top)) < 1e-9);
            }
            let [bottom, deck] = rib.heights;
            assert!((rib.slot_top - (bottom + deck) / 2.0).abs() < 1e-9);
        }
    }
}

/// The spine's edges are the inset surface over its thickness.
#[test]
fn spine_edges_are_the_centreline_of_the_inset_surface() {
    for name in ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"] {
        let board = board(name);
        let c = &board.design.construction;
        let contour = dense(&board.spine.outline);
        let [from, to] = board.spine.ends;
        for i in 1..40 {
            let x = from + (to - from) * f64::from(i) / 40.0;
            if board.ribs.iter().any(|r| (r.x - x).abs() < c.rib) {
                continue;
            }
            // Over the spine's thickness the ruling face is the one that leaves less room: at the middle or at half the thickness.
            for (start, end, v, step, depth) in [
                (0.0, 0.4, 0.0, 1e-3, c.bottom_skin),
                (0.56, 1.0, 1.0, -1e-3, c.deck_skin),
            ] {
                let middle = inset(&board, x, v, depth, [start, end]);
                let mut before = middle;
                let mut at = v;
                let side = loop {
                    at += step;
                    let p = inset(&board, x, at, depth, [start, end]);
                    if p.x >= c.spine / 2.0 {
                        let t = (c.spine / 2.0 - before.x) / (p.x - before.x);
                        break before + (p - before) * t;
                    }
                    before = p;
                };
                let z = if v == 0.0 {
                    middle.y.max(side.y)
                } else {
                    middle.y.min(side.y)
                };
                let miss = distance(&contour, Vector::<2>::new(x, z));
                assert!(miss < 0.01, "{name}, x = {x}: {miss}");
            }
        }
    }
}

/// Near a run-out the top strip fills the outer corner alone, its inner face already above the deck's; the rib then ends on the
/// strip below. The round tail's foil, scaled in steps of one percent, passes through such places at its ribs.
#[test]
fn ribs_end_on_the_rail_wherever_a_course_runs_out() {
    let file = "examples/round-tail-6ft4.toml";
    let text = std::fs::read_to_string(file).unwrap();
    for percent in 90..=120 {
        let design = parse(&text, file).unwrap();
        let mut points = design.foil.points(design.length);
        for point in &mut points {
            point[1] *= f64::from(percent) / 100.0;
        }
        let design = design.with(|draft| draft.foil = Foil::Points(points));
        let design = design.unwrap();
        let board = Board::new(design);
        assert!(board.is_ok(), "{percent} %: {}", board.unwrap_err());
    }
}
