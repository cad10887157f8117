//! The air's way from bay to bay, cutter relief on whole boards, and frames that do not fit.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::flat;
use crate::common::found::{about, said};
use boardwright::board::Board;
use boardwright::design::finding::{Code, Finding, Part, Topic};
use boardwright::design::parse;
use boardwright::design::units::Unit;
use boardwright::frame::{Bay, Half, sealed_bays};
use boardwright::geometry::path::{Path, Point};
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
            assert_eq!(about(&board, Topic::Frame), [], "{name}");
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
    let found = about(&board, Topic::Frame);
    let [sealed] = found.as_slice() else {
        panic!("{found:?}");
    };
    assert_eq!(sealed.code, Code::BaySealed);
    assert!(said(sealed, Unit::Mm).contains("`breather`"));
}

/// Points on the walls of a slot that points along `up`, and the corners of the partner in it.
fn corners_reached(outline: &Path, corners: &[Point], radius: f64) {
    let wall = outline.flatten(1e-4);
    for corner in corners {
        let near: Vec<&[Point]> = wall
            .windows(2)
            .filter(|w| distance(w, *corner) < 3.0 * radius)
            .collect();
        // A twentieth of a degree turns the disc by a thousandth of its radius.
        let reached = (0..7200).any(|k| {
            let (s, c) = (f64::from(k) * std::f64::consts::PI / 3600.0).sin_cos();
            let centre = corner + nalgebra::Vector2::new(c, s) * radius;
            // In the slot, not in the wood on its other side.
            near.iter().all(|w| distance(w, centre) > radius - 2e-3) && !flat::inside(&wall, centre)
        });
        assert!(reached, "{corner}");
    }
}

/// The inside corner of a square-cut rib beside the starboard starters, where its contour turns right by about a quarter turn: the point the
/// contour has there, and where its edges on either side meet. The planes of the two faces may leave a step of some hundredths between.
fn starters_corner(plain: &Path) -> [Point; 2] {
    let contour = plain.flatten(1e-4);
    let edges: Vec<[Point; 2]> = contour
        .windows(2)
        .map(|w| [w[0], w[1]])
        .filter(|[a, b]| (b - a).norm() > 1.0 && a.x > 30.0 && b.x > 30.0)
        .collect();
    let corner = edges.windows(2).find_map(|w| {
        let ([a, p], [q, b]) = (w[0], w[1]);
        let (d, e) = (p - a, b - q);
        let turn = d.perp(&e).atan2(d.dot(&e)).to_degrees();
        let met = a + d * ((q - a).perp(&e) / d.perp(&e));
        ((-120.0..-60.0).contains(&turn) && (q - p).norm() < 2.0).then_some([p, met])
    });
    corner.expect("a corner beside the starters")
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
            assert_eq!(about(&board, Topic::Frame), []);
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
                let [there, corner] = starters_corner(&plain.outline);
                corners_reached(
                    &rib.outline,
                    &[corner, Point::new(-corner.x, corner.y)],
                    diameter / 2.0,
                );
                let wall = rib.outline.flatten(1e-4);
                assert!(!flat::inside(&wall, there) || distance(&wall, there) < 1e-3);
                // The bites are all that is gone: two in the slot and one beside either rail's starters, of at most half a circle each but for
                // the step at a starter's corner, and no less than a corner's bite.
                let gone = plain.outline.area().abs() - rib.outline.area().abs();
                let (r, half) = (
                    diameter / 2.0,
                    std::f64::consts::PI * diameter * diameter / 8.0,
                );
                let least = 3.5 * (std::f64::consts::PI / 2.0 - 1.0) * r * r;
                assert!(gone > least && gone < 4.0 * half + 0.5, "{gone}");
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
    let found = about(&board, Topic::Frame);
    let [square] = found.as_slice() else {
        panic!("{found:?}");
    };
    let words = said(square, board.design.report);
    assert!(words.contains("cutter of 0.315 in"), "{words}");
}

/// Widths of the slots that open upward in a spine's contour, from its own lines: between two upright walls of more than 3 mm.
fn slot_widths(spine: &boardwright::geometry::path::Path) -> Vec<f64> {
    let walls: Vec<f64> = spine
        .pieces()
        .filter_map(|(from, segment)| {
            let to = segment.to();
            let upright = (from.x - to.x).abs() < 1e-6 && (from.y - to.y).abs() > 3.0;
            upright.then_some(from.x)
        })
        .collect();
    let mut sorted = walls;
    sorted.sort_by(f64::total_cmp);
    let pairs = sorted.windows(2).map(|w| w[1] - w[0]);
    pairs.filter(|w| *w < 30.0).collect()
}

/// Measured on the contours: slots that a cutter does not go into are told, whatever the relief, and no others.
#[test]
fn slots_narrower_than_the_cutter_are_told() {
    for (diameter, relief) in [
        (6.0, "none"),
        (6.0, "corner"),
        (5.2, "none"),
        (6.35, "wall"),
        (3.0, "wall"),
        (2.0, "none"),
    ] {
        let cutter =
            format!("[construction.cutter]\nrelief = \"{relief}\"\ndiameter = \"{diameter} mm\"");
        let board = board("twin-5ft8", &cutter);
        let widths = slot_widths(&board.spine.outline);
        assert_eq!(widths.len(), board.ribs.len());
        let narrowest = widths.iter().copied().fold(f64::INFINITY, f64::min);
        let found = about(&board, Topic::Frame);
        let output: Vec<&Finding> = found
            .iter()
            .filter(|f| f.code == Code::SlotNarrow)
            .collect();
        if narrowest > diameter - 1e-6 {
            assert!(output.is_empty(), "{diameter}");
            continue;
        }
        let [trouble] = output.as_slice() else {
            panic!("{diameter} {relief}: {found:?}");
        };
        assert!((trouble.value.unwrap() - narrowest).abs() < 1e-9);
        assert_eq!(trouble.limit, Some(diameter));
        let words = said(trouble, Unit::Mm);
        for part in [
            &format!("cutter of {diameter} mm"),
            "5.2 mm in the spine",
            "ribs 1 to 7",
            "cutter of 5.2 mm or less",
            "chisel",
            "`rib`",
        ] {
            assert!(words.contains(part), "{part} in {words}");
        }
        // 6.2 mm in the ribs: too narrow for a quarter of an inch alone.
        assert_eq!(
            words.contains("6.2 mm in the ribs"),
            diameter > 6.2,
            "{words}"
        );
        // Relief that finds no room in the same slots is not a second finding.
        let others = found.iter().filter(|f| f.code == Code::SlotUnrelieved);
        assert!(others.count() <= usize::from(diameter < 6.2), "{found:?}");
    }
}

/// What a file leaves out is no trouble of the maker's: whatever ribs and spine it asks for, the default cutter goes into their slots.
#[test]
fn the_default_cutter_goes_into_every_slot() {
    for thickness in ["3 mm", "4 mm", "6 mm", "12 mm"] {
        let text = format!(
            "name = 'x'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n[construction]\nrib = '{thickness}'\nspine = '{thickness}'\n\
             slot_clearance = 0\n"
        );
        let board = Board::new(parse(&text, "x").unwrap_or_else(|e| panic!("{e}"))).unwrap();
        let found = about(&board, Topic::Frame);
        assert!(
            found.iter().all(|f| f.part != Part::Slots),
            "{thickness}: {found:?}"
        );
    }
}

/// In a report in inches a slot and its cutter are told in inches, finely enough to tell them apart.
#[test]
fn a_narrow_slot_is_told_in_the_maker_s_unit() {
    let cutter = "[construction.cutter]\ndiameter = \"1/4 in\"";
    let board = board("noserider-9ft4", cutter);
    let found = about(&board, Topic::Frame);
    let output = found.iter().find(|f| f.part == Part::Slots).unwrap();
    let words = said(output, board.design.report);
    assert!(words.contains("0.250 in"), "{words}");
    assert!(words.contains("0.244 in in the spine"), "{words}");
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
    let found = about(&board, Topic::Frame);
    assert!(found.iter().any(|f| f.code == Code::RibLeftOut));
    assert!(found.iter().all(|f| !f.remedies.is_empty()));
}
