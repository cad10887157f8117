//! The spine's template.

use super::Sheet;
use super::label::{LETTER, arrow, block, engraved, path, polyline};
use crate::board::Board;
use crate::drawing::{Align, Drawing, Item, Layer, Point, text_width};
use crate::frame::{Rib, Spine};
use crate::units;

/// Length of the arrow to the nose over the height of letters.
const ARROW: f64 = 3.0;

pub(super) fn sheet(board: &Board) -> Sheet {
    let (part, spine) = ("spine", &board.spine);
    let holes = spine.holes.iter().cloned();
    let mut items: Vec<Item> = holes
        .map(|hole| path(part, Layer::InsideCut, hole))
        .collect();
    items.push(path(part, Layer::OutsideCut, spine.outline.clone()));
    for rib in &board.ribs {
        items.extend(station(part, rib));
    }
    items.extend(name(part, spine, &board.ribs));
    let bounds = spine.outline.bounds();
    let [from, to] = spine.ends.map(|x| units::size(x, board.design.report));
    let words = [
        board.design.name.clone(),
        format!("Spine: from {from} to {to} from the tail"),
        format!(
            "{} thick, cut 1. Seen from starboard, nose to the right, deck up.",
            units::mm(spine.thickness, 1)
        ),
        format!(
            "Slots from above, {} wide, for {} ribs of {}. Cut along the outside of the contour.",
            units::mm(spine.slot_width, 1),
            board.ribs.len(),
            units::mm(board.design.construction.rib, 1)
        ),
    ];
    items.extend(block(
        part,
        Point::new(bounds.min.x, bounds.min.y - 10.0),
        &words,
    ));
    Sheet {
        name: part.into(),
        what: "spine with the slots for the ribs".into(),
        drawing: Drawing {
            title: format!("{}: spine", board.design.name),
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
fn name(part: &str, spine: &Spine, ribs: &[Rib]) -> Vec<Item> {
    let tall = |r: &&Rib| r.heights[1] - r.heights[0];
    let Some(rib) = ribs.iter().max_by(|a, b| tall(a).total_cmp(&tall(b))) else {
        return Vec::new();
    };
    let room = spine.lap_room(rib.x);
    let [bottom, deck] = rib.heights;
    // Below the slot: "SPINE", an arrow, "NOSE".
    let words = ["SPINE", "NOSE"].map(|w| text_width(w, 1.0));
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
        engraved(part, at(left), letter, Align::Start, "SPINE"),
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
