//! The spine's template.

use super::Sheet;
use super::label::{LETTER, arrow, block, path, polyline, text};
use crate::board::Board;
use crate::drawing::{Align, Drawing, Layer, Point};
use crate::units;

pub(super) fn sheet(board: &Board) -> Sheet {
    let (part, spine) = ("spine", &board.spine);
    let mut items = vec![path(part, Layer::OutsideCut, spine.outline.clone())];
    for rib in &board.ribs {
        let [bottom, _] = rib.heights;
        let tick = (rib.slot_top - bottom).min(6.0);
        let mark = [Point::new(rib.x, bottom), Point::new(rib.x, bottom + tick)];
        items.push(polyline(part, Layer::Mark, &mark));
        let letter = LETTER.min((rib.slot_top - bottom) / 4.0);
        let at = Point::new(rib.x + 2.0, bottom + tick * 0.3);
        items.push(text(
            part,
            at,
            letter,
            Align::Start,
            format!("{}", rib.number),
        ));
    }
    let place = spine.label_place(&board.ribs);
    items.push(text(
        part,
        Point::new(place.x - 30.0, place.y),
        LETTER,
        Align::Middle,
        "SPINE".into(),
    ));
    let nose = Point::new(place.x + 20.0, place.y + LETTER / 2.0);
    items.extend(arrow(part, nose, Point::new(nose.x + 25.0, nose.y)));
    items.push(text(
        part,
        Point::new(nose.x + 28.0, place.y),
        LETTER,
        Align::Start,
        "NOSE".into(),
    ));
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
