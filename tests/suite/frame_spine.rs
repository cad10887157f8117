//! A spine that is longer than the sheet: its pieces, keys and scarfs.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::flat;
use crate::common::found::about;
use boardwright::board::Board;
use boardwright::design::finding::{Code, Topic};
use boardwright::design::parse;
use boardwright::frame::{PieceJoint, SpineKey};
use boardwright::geometry::path::{Placement, Point, Segment};
use flat::{distance, inside};
use std::f64::consts::PI;

fn board(name: &str, more: &str) -> Board {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    Board::new(parse(&format!("{text}\n{more}"), &file).unwrap_or_else(|e| panic!("{e}"))).unwrap()
}

fn sheet(length: f64, joint: &str) -> String {
    format!("[construction.sheet]\nlength = \"{length} mm\"\njoint = \"{joint}\"")
}

fn keys(board: &Board) -> Vec<SpineKey> {
    let key = |joint: &PieceJoint| match joint {
        PieceJoint::Key(key) => *key,
        _ => panic!("no key"),
    };
    board.spine.joints.iter().map(key).collect()
}

/// Length of the after piece's end over a key, from its closed form: straight, two hollows, head.
fn end_length(key: &SpineKey, height: f64) -> f64 {
    let slope = key.shoulder().atan2(key.reach() - key.fillet);
    height - 2.0 * key.shoulder() + 2.0 * key.fillet * (PI - slope) + 2.0 * key.head * (PI - slope)
}

#[test]
fn a_spine_that_fits_the_sheet_is_one_piece() {
    let board = board("round-tail-6ft4", "");
    assert!(board.spine.joints.is_empty());
    assert_eq!(board.spine.pieces.len(), 1);
    assert_eq!(board.spine.pieces[0].outline, board.spine.outline);
}

#[test]
fn pieces_fit_the_sheet_and_joints_keep_off_slots_and_holes() {
    for (name, length) in [
        ("noserider-9ft4", 2440.0),
        ("noserider-9ft4", 1200.0),
        ("round-tail-6ft4", 700.0),
        ("twin-5ft8", 1000.0),
    ] {
        for joint in ["key", "scarf"] {
            let board = board(name, &sheet(length, joint));
            let spine = &board.spine;
            let c = &board.design.construction;
            assert_eq!(about(&board, Topic::Frame), [], "{name} {length} {joint}");
            assert!(spine.pieces.len() >= 2);
            assert_eq!(spine.joints.len() + 1, spine.pieces.len());
            for piece in &spine.pieces {
                assert!(piece.ends[1] - piece.ends[0] <= length);
                let contour = piece.outline.flatten(1e-3);
                for hole in &spine.holes {
                    let b = hole.bounds();
                    if b.max.x < piece.ends[0] || b.min.x > piece.ends[1] {
                        continue;
                    }
                    let web = hole
                        .flatten(2e-3)
                        .iter()
                        .map(|p| {
                            if inside(&contour, *p) {
                                distance(&contour, *p)
                            } else {
                                -1.0
                            }
                        })
                        .fold(f64::INFINITY, f64::min);
                    // Holes near a joint belong to one piece alone.
                    assert!(web > c.frame.holes.web - 0.01 || web == -1.0, "{web}");
                }
            }
            for joint in &spine.joints {
                let [from, to] = joint.range();
                for rib in &board.ribs {
                    let half = spine.slot_width / 2.0;
                    assert!(to < rib.x - half - 4.9 || from > rib.x + half + 4.9);
                }
                for hole in &spine.holes {
                    let b = hole.bounds();
                    let web = c.frame.holes.web - 0.01;
                    assert!(
                        b.max.x < from - web || b.min.x > to + web,
                        "{b:?} {from} {to}"
                    );
                }
            }
        }
    }
}

/// The pieces of a keyed spine add up to the whole less the glue gap, whose area is its width times the length of the end: the end
/// turns back as much as it turns, so that the offset's second-order terms cancel.
#[test]
fn keyed_pieces_add_up_to_the_whole_less_the_gap() {
    for (name, length) in [("noserider-9ft4", 2440.0), ("round-tail-6ft4", 1000.0)] {
        for clearance in [0.2, 0.8] {
            let text = sheet(length, "key");
            let file = format!("examples/{name}.toml");
            let example = std::fs::read_to_string(&file).unwrap();
            let with = example.replacen(
                "[construction]",
                &format!("[construction]\nslot_clearance = \"{clearance} mm\""),
                1,
            );
            let board = Board::new(
                parse(&format!("{with}\n{text}"), &file).unwrap_or_else(|e| panic!("{e}")),
            )
            .unwrap();
            let spine = &board.spine;
            let whole = spine.outline.area().abs();
            let pieces: f64 = spine.pieces.iter().map(|p| p.outline.area().abs()).sum();
            let gap: f64 = keys(&board)
                .iter()
                .map(|key| {
                    let [low, high] = spine.upright(key.x).unwrap();
                    key.gap * end_length(key, high - low)
                })
                .sum();
            // Lines and arcs within 0.008 mm of the edges are fitted anew to each piece.
            // That leaves 0.6 mm² of up to 143 000 here.
            let room = 1.5;
            assert!(
                (whole - pieces - gap).abs() < room,
                "{name}: {whole} {pieces} {gap}"
            );
        }
    }
}

/// The gap is the same all round, and the pieces cannot be drawn apart along the spine, nor pushed up or down.
#[test]
fn a_key_locks_its_socket() {
    let board = board("noserider-9ft4", &sheet(1200.0, "key"));
    let spine = &board.spine;
    for (i, key) in keys(&board).iter().enumerate() {
        assert!(
            key.head > key.neck + key.gap,
            "the head passes the socket's mouth"
        );
        let tongue = spine.pieces[i].outline.flatten(1e-4);
        let on_key: Vec<Point> = tongue
            .iter()
            .copied()
            .filter(|p| p.x > key.x + 1e-6)
            .collect();
        assert!(on_key.len() > 40);
        let socket = &spine.pieces[i + 1].outline;
        let wall = socket.flatten(1e-4);
        for p in &on_key {
            let gap = distance(&wall, *p);
            assert!((gap - key.gap).abs() < 1e-3, "{gap}");
            assert!(!inside(&wall, *p));
        }
        // Every move longer than the gap runs into wood, up to where the head would be clear.
        let meets = |dx: f64, dy: f64| {
            let moved = socket.transform(&Placement::shift(dx, dy)).flatten(1e-3);
            on_key.iter().any(|p| inside(&moved, *p))
        };
        assert!(!meets(0.0, 0.0));
        let mut dx = 3.0 * key.gap;
        // The head is through the mouth where its front chord has become as narrow.
        let mouth = key.neck + key.gap;
        let clear = key.reach() - key.fillet + (key.head * key.head - mouth * mouth).sqrt();
        assert!(clear > key.head);
        while dx < clear - 0.1 {
            assert!(meets(dx, 0.0), "drawn {dx} mm apart");
            dx += 0.5;
        }
        for dy in [-2.0, -0.5, 0.5, 2.0] {
            assert!(meets(0.0, dy), "pushed {dy} mm");
        }
        // The cutter reaches all of both contours: hollows are no tighter than it.
        let cutter = board.design.construction.frame.cutter / 2.0;
        for piece in &spine.pieces[i..=i + 1] {
            for (from, segment) in piece.outline.pieces() {
                if let Segment::Arc { to, bulge } = *segment {
                    let radius = (to - from).norm() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
                    assert!(bulge > 0.0 || radius > cutter - 1e-9, "{radius}");
                }
            }
        }
    }
}

/// Scarfed pieces overlap by the scarf's length, eight times the thickness.
#[test]
fn scarfed_pieces_add_up_to_the_whole_and_the_overlap() {
    let board = board("noserider-9ft4", &sheet(2440.0, "scarf"));
    let spine = &board.spine;
    let [PieceJoint::Scarf { x, length }] = spine.joints.as_slice() else {
        panic!("{:?}", spine.joints);
    };
    assert_eq!(*length, 8.0 * spine.thickness);
    let height = |x: f64| spine.upright(x).map(|[a, b]| b - a).unwrap();
    let (a, b) = (x - length / 2.0, x + length / 2.0);
    // Simpson's rule over the overlap.
    let overlap = length / 6.0 * (height(a) + 4.0 * height(*x) + height(b));
    let pieces: f64 = spine.pieces.iter().map(|p| p.outline.area().abs()).sum();
    let over = pieces - spine.outline.area().abs() - overlap;
    assert!(over.abs() < 1.5, "{over}");
    assert!((spine.pieces[0].ends[1] - b).abs() < 1e-9);
    assert!((spine.pieces[1].ends[0] - a).abs() < 1e-9);
}

#[test]
fn a_joint_that_finds_no_room_is_told() {
    // No key has hollows that so big a cutter reaches.
    let tight = board(
        "round-tail-6ft4",
        &format!(
            "{}\n[construction.cutter]\ndiameter = \"30 mm\"",
            sheet(1000.0, "key")
        ),
    );
    // The other finding is that so big a cutter does not go into the slots either.
    let found = about(&tight, Topic::Frame);
    let [_, scarfed] = found.as_slice() else {
        panic!("{found:?}");
    };
    assert_eq!(scarfed.code, Code::SpineScarfed);
    assert!(matches!(tight.spine.joints[0], PieceJoint::Scarf { .. }));
}
