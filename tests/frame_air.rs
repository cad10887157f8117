//! The air's way from bay to bay, cutter relief on whole boards, and frames that do not fit.
#![allow(clippy::unwrap_used, clippy::panic)]

#[path = "common/flat.rs"]
mod flat;

use boardwright::board::Board;
use boardwright::design::parse;
use boardwright::drawing::{Path, Point};
use boardwright::frame::{Bay, Half, sealed_bays};
use flat::distance;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn board(name: &str, more: &str) -> Board {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    Board::new(parse(&format!("{text}\n{more}"), &file).unwrap_or_else(|e| panic!("{e}"))).unwrap()
}

#[test]
fn every_bay_of_the_examples_breathes() {
    for name in EXAMPLES {
        for more in ["", "[construction.holes]\npattern = \"none\""] {
            let board = board(name, more);
            assert_eq!(board.frame_troubles, [], "{name}");
            for vent in [None, Some([500.0, 0.0]), Some([700.0, 90.0])] {
                assert_eq!(sealed_bays(&board.ribs, &board.spine, vent), []);
            }
        }
    }
}

/// Walls without holes shut off what lies behind them, and nothing else.
#[test]
fn a_wall_without_holes_shuts_off_what_lies_behind_it() {
    let board = board("round-tail-6ft4", "");
    let bay = |number, half| Bay { number, half };
    // Rib 2 shut to starboard: the air goes round through the spine's holes.
    let mut ribs = board.ribs.clone();
    ribs[1].holes.retain(|h| h.bounds().max.x < 0.0);
    assert_eq!(sealed_bays(&ribs, &board.spine, None), []);
    // Shut on both sides: bays 1 and 2 of each side lie behind it.
    ribs[1].holes.clear();
    let both: Vec<Bay> = [1, 2]
        .into_iter()
        .flat_map(|n| [bay(n, Half::Port), bay(n, Half::Starboard)])
        .collect();
    assert_eq!(sealed_bays(&ribs, &board.spine, None), both);
    // A vent in the tail's bays turns it round.
    let from_tail = sealed_bays(&ribs, &board.spine, Some([board.ribs[0].x - 20.0, 0.0]));
    assert_eq!(from_tail.len(), 2 * (ribs.len() + 1) - 4);
    assert!(from_tail.iter().all(|b| b.number > 2));
    // A spine without holes parts port from starboard; a vent on it serves both.
    let mut spine = board.spine.clone();
    spine.holes.clear();
    let port = sealed_bays(&board.ribs, &spine, Some([600.0, 80.0]));
    assert_eq!(port.len(), board.ribs.len() + 1);
    assert!(port.iter().all(|b| b.half == Half::Port));
    assert_eq!(sealed_bays(&board.ribs, &spine, Some([600.0, 0.0])), []);
}

#[test]
fn an_air_hole_that_finds_no_room_is_told() {
    let board = board(
        "round-tail-6ft4",
        "[construction.holes]\npattern = \"none\"\nbreather = \"40 mm\"",
    );
    let [trouble] = board.frame_troubles.as_slice() else {
        panic!("{:?}", board.frame_troubles);
    };
    assert!(trouble.headline.contains("air is shut in"), "{trouble:?}");
    assert!(trouble.remedy.contains("breather"));
}

/// Points on the walls of a slot that points along `up`, and the corners of the partner in it.
fn corners_reached(outline: &Path, corners: &[Point], radius: f64) {
    let wall = outline.flatten(1e-4);
    for corner in corners {
        let reached = (0..720).any(|k| {
            let (s, c) = (f64::from(k) * std::f64::consts::PI / 360.0).sin_cos();
            let centre = corner + nalgebra::Vector2::new(c, s) * radius;
            // In the slot, not in the wood on its other side.
            let outside = !flat::inside(&wall, centre);
            outside && distance(&wall, centre) > radius - 2e-3
        });
        assert!(reached, "{corner}");
    }
}

/// A cutter's disc that stays out of the wood touches every corner the partner needs.
#[test]
fn relieved_slots_let_the_partner_home() {
    for relief in ["corner", "wall"] {
        for diameter in [3.0, 5.0] {
            let more = format!(
                "[construction.cutter]\nrelief = \"{relief}\"\ndiameter = \"{diameter} mm\""
            );
            let board = board("round-tail-6ft4", &more);
            assert_eq!(board.frame_troubles, []);
            let square = self::board("round-tail-6ft4", "");
            for (rib, plain) in board.ribs.iter().zip(&square.ribs) {
                let h = rib.slot_width / 2.0;
                corners_reached(
                    &rib.outline,
                    &[Point::new(-h, rib.slot_top), Point::new(h, rib.slot_top)],
                    diameter / 2.0,
                );
                let w = board.spine.slot_width / 2.0;
                corners_reached(
                    &board.spine.outline,
                    &[
                        Point::new(rib.x - w, rib.slot_top),
                        Point::new(rib.x + w, rib.slot_top),
                    ],
                    diameter / 2.0,
                );
                // The bites are all that is gone: two of at most half a circle each.
                let gone = plain.outline.area().abs() - rib.outline.area().abs();
                assert!(
                    gone > 0.0 && gone < std::f64::consts::PI * diameter * diameter / 4.0 + 1e-6,
                    "{gone}"
                );
            }
        }
    }
}

#[test]
fn a_cutter_too_big_for_the_slots_is_told() {
    let board = board(
        "round-tail-6ft4",
        "[construction.cutter]\nrelief = \"wall\"\ndiameter = \"8 mm\"",
    );
    let [trouble] = board.frame_troubles.as_slice() else {
        panic!("{:?}", board.frame_troubles);
    };
    assert!(trouble.headline.contains("8.0 mm"), "{trouble:?}");
}

/// A rib where the hollow is too low is left out and told; the rest of the board is there.
#[test]
fn a_rib_with_no_hollow_is_left_out() {
    let file = "examples/twin-5ft8.toml";
    let text = std::fs::read_to_string(file).unwrap();
    let thin = text
        .replace("[\"5' 8\\\"\", 2.2]", "[\"5' 8\\\"\", 0.9]")
        .replace("[142.24, 4.1]", "[142.24, 2.2]");
    assert_ne!(text, thin);
    let thin = thin
        .replace("nose_block = 12", "nose_block = 4")
        .replace("132, 152]", "132, 165]");
    let board = Board::new(parse(&thin, file).unwrap_or_else(|e| panic!("{e}"))).unwrap();
    assert!(board.ribs.len() < 7);
    assert!(!board.ribs.is_empty());
    assert!(
        board
            .frame_troubles
            .iter()
            .any(|t| t.headline.contains("is left out"))
    );
    assert!(board.frame_troubles.iter().all(|t| !t.remedy.is_empty()));
}
