//! The spine's template.

use super::Sheet;
use super::label::{LETTER, arrow, block, engraved, path, polyline};
use crate::board::Board;
use crate::design::units;
use crate::frame::{PieceJoint, Rib, Spine, SpinePiece};
use crate::geometry::path::{Path, Point};
use crate::views::drawing::{Align, Drawing, Item, Layer, text_width};

/// Length of the arrow to the nose over the height of letters.
const ARROW: f64 = 3.0;

/// The whole spine; where it is longer than the sheet, with the joints of its pieces for reference.
pub(super) fn sheet(board: &Board) -> Sheet {
    let spine = &board.spine;
    let [from, to] = spine.ends.map(|x| units::size(x, board.design.report));
    let mut words = vec![
        board.design.name.clone(),
        format!("Spine: from {from} to {to} from the tail"),
    ];
    words.extend(common_words(board));
    let split = spine.pieces.len() > 1;
    if split {
        let length = board.design.construction.frame.sheet.length;
        words.push(format!(
            "Longer than the sheet of {}: cut its {} pieces instead, each on its own sheet. This one is for reference and has no line to cut.",
            units::size(length, board.design.report),
            spine.pieces.len()
        ));
    }
    let mut items = part_items(board, "spine", "SPINE", &spine.outline);
    if split {
        // A shop that selects the cut layer must not cut the spine whole as well as in pieces.
        for item in &mut items {
            item.layer = Layer::Reference;
        }
        let pieces = spine.pieces.iter().map(|p| p.outline.clone());
        items.extend(pieces.map(|outline| path("spine", Layer::Reference, outline)));
    }
    finished(board, "spine", "spine", &spine.outline, items, &words)
}

/// The pieces of a spine that is longer than the sheet.
pub(super) fn pieces(board: &Board) -> Vec<Sheet> {
    let spine = &board.spine;
    if spine.pieces.len() < 2 {
        return Vec::new();
    }
    let unit = board.design.report;
    let sheet = |piece: &SpinePiece| {
        let part = format!("spine-{}", piece.number);
        let [from, to] = piece.ends.map(|x| units::size(x, unit));
        let mut words = vec![
            board.design.name.clone(),
            format!(
                "Spine, piece {} of {} from the tail: from {from} to {to}",
                piece.number,
                spine.pieces.len()
            ),
        ];
        words.extend(common_words(board));
        // The joints at its two ends.
        let ours = [piece.number.checked_sub(2), Some(piece.number - 1)];
        let joints = ours
            .into_iter()
            .flatten()
            .filter_map(|i| spine.joints.get(i));
        let mut items = part_items(
            board,
            &part,
            &format!("SPINE {}", piece.number),
            &piece.outline,
        );
        match spine.joints.first() {
            Some(PieceJoint::Key(key)) => words.push(format!(
                "The key drops in sideways with {} of glue room all round. Glue a cheek of the same stock over the joint, from hole to hole.",
                units::fine_size(key.gap, board.design.report)
            )),
            Some(PieceJoint::Scarf { length, .. }) => words.push(format!(
                "Plane both ends to a slope over {} between the marks, on opposite faces, and glue face to face.",
                units::fine_size(*length, board.design.report)
            )),
            None => {}
        }
        for joint in joints {
            if let PieceJoint::Scarf { x, length } = *joint {
                let inner = if x < (piece.ends[0] + piece.ends[1]) / 2.0 {
                    x + length / 2.0
                } else {
                    x - length / 2.0
                };
                items.extend(spine.upright(inner).map(|[low, high]| {
                    let ends = [Point::new(inner, low), Point::new(inner, high)];
                    polyline(&part, Layer::Mark, &ends)
                }));
            }
        }
        let what = format!("spine, piece {}", piece.number);
        finished(board, &part, &what, &piece.outline, items, &words)
    };
    spine.pieces.iter().map(sheet).collect()
}

/// Contour, holes and marks of the spine or a piece of it.
fn part_items(board: &Board, part: &str, label: &str, outline: &Path) -> Vec<Item> {
    let spine = &board.spine;
    let bounds = outline.bounds();
    let within = |x: f64| x > bounds.min.x && x < bounds.max.x;
    let holes = spine.holes.iter().filter(|h| within(h.bounds().min.x));
    let mut items: Vec<Item> = holes
        .map(|hole| path(part, Layer::InsideCut, hole.clone()))
        .collect();
    items.push(path(part, Layer::OutsideCut, outline.clone()));
    let ribs: Vec<&Rib> = board.ribs.iter().filter(|r| within(r.x)).collect();
    for rib in &ribs {
        items.extend(station(part, rib));
    }
    items.extend(name(part, label, spine, &ribs));
    items
}

fn common_words(board: &Board) -> [String; 2] {
    let spine = &board.spine;
    [
        format!(
            "{} thick, cut 1. Seen from starboard, nose to the right, deck up.",
            units::fine_size(spine.thickness, board.design.report)
        ),
        format!(
            "Slots from above, {} wide, for ribs of {}. Cut along the outside of the contour.",
            units::fine_size(spine.slot_width, board.design.report),
            units::fine_size(board.design.construction.rib, board.design.report)
        ),
    ]
}

fn finished(
    board: &Board,
    part: &str,
    what: &str,
    outline: &Path,
    mut items: Vec<Item>,
    words: &[String],
) -> Sheet {
    let bounds = outline.bounds();
    let top = Point::new(bounds.min.x, bounds.min.y - 10.0);
    items.extend(block(part, top, words));
    Sheet {
        name: part.into(),
        what: format!("{what} with the slots for the ribs"),
        drawing: Drawing {
            title: format!("{}: {what}", board.design.name),
            items,
        },
    }
}

/// The mark of a rib's station at the bottom edge, with its number.
fn station(part: &str, rib: &Rib) -> Vec<Item> {
    let [bottom, _] = rib.heights;
    let tick = ((rib.slot_top - bottom) / 2.0).min(6.0);
    let mark = [Point::new(rib.x, bottom), Point::new(rib.x, bottom + tick)];
    let letter = LETTER.min(tick * 0.6);
    let at = Point::new(rib.x + 2.0, bottom + tick * 0.4);
    vec![
        polyline(part, Layer::Mark, &mark),
        engraved(part, at, letter, Align::Start, &rib.number.to_string()),
    ]
}

/// The part's name and the arrows to nose and deck, round the slot of the tallest rib, where there are no holes.
fn name(part: &str, label: &str, spine: &Spine, ribs: &[&Rib]) -> Vec<Item> {
    let tall = |r: &&&Rib| r.heights[1] - r.heights[0];
    let Some(rib) = ribs.iter().max_by(|a, b| tall(a).total_cmp(&tall(b))) else {
        return Vec::new();
    };
    let room = spine.lap_room(rib.x);
    let [bottom, deck] = rib.heights;
    // Below the slot: the name, an arrow, "NOSE".
    let words = [label, "NOSE"].map(|w| text_width(w, 1.0));
    let [spine_word, nose_word] = words;
    let wide = spine_word + nose_word + ARROW + 1.0;
    let letter = LETTER
        .min((rib.slot_top - bottom) / 4.0)
        .min(2.0 * (room - 1.0) / wide);
    let y = (rib.slot_top + bottom) / 2.0 + letter * 0.2;
    let left = rib.x - wide * letter / 2.0;
    let from = left + (spine_word + 0.5) * letter;
    let to = from + ARROW * letter;
    let at = |x: f64| Point::new(x, y);
    let height = |x: f64| Point::new(x, y + letter / 2.0);
    let mut items = vec![
        engraved(part, at(left), letter, Align::Start, label),
        engraved(part, at(to + 0.5 * letter), letter, Align::Start, "NOSE"),
    ];
    items.extend(arrow(part, height(from), height(to)));
    // Beside the slot, upward.
    let x = rib.x + spine.slot_width / 2.0 + (room - spine.slot_width / 2.0) / 2.0;
    let tall = deck - rib.slot_top;
    let low = rib.slot_top + tall * 0.15;
    let high = deck - tall * 0.25;
    if high - low > 2.5 * letter {
        items.extend(arrow(
            part,
            Point::new(x, low + 1.5 * letter),
            Point::new(x, high),
        ));
        items.push(engraved(
            part,
            Point::new(x, low),
            letter,
            Align::Middle,
            "UP",
        ));
    }
    items
}
