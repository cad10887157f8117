//! The pads' contours.

use super::Sheet;
use super::label::{LETTER, arrow, block, engraved, path, text};
use crate::board::Board;
use crate::design::units::{self, Unit};
use crate::frame::pads::{FittingKind, Pad, PlacedFitting};
use crate::geometry::path::{Path, Placement, Point};
use crate::views::drawing::{Align, Drawing, Item, Layer, row, text_width};

/// Gap between pads, mm, and width of a row of them.
const GAP: f64 = 20.0;
const ROW: f64 = 700.0;

/// Every pad, cut to what it meets; `None` for a board without pads.
pub(super) fn sheet(board: &Board) -> Option<Sheet> {
    let part = "pads";
    let padded = |f: &'_ PlacedFitting| f.pad.clone().map(|pad| (f.clone(), pad));
    let padded: Vec<(PlacedFitting, Pad)> = board.pads.fittings.iter().filter_map(padded).collect();
    if padded.is_empty() {
        return None;
    }
    let drawings: Vec<Drawing> = padded.iter().map(|(f, pad)| one(f, pad)).collect();
    let mut drawing = row(&drawings, GAP, ROW);
    drawing.title = format!("{}: pads", board.design.name);
    let mut words = vec![
        board.design.name.clone(),
        "Pads, seen from above, nose to the right; one face is fitted to the skin, the other stays flat.".into(),
        "Fitted between spine, ribs, blocks and strips: a pad is in pieces where these go through.".into(),
        "Grey: what is cut out once the board is closed.".into(),
    ];
    words.extend(
        padded
            .iter()
            .map(|(f, pad)| line(f, pad, board.design.report)),
    );
    drawing
        .items
        .extend(block(part, Point::new(0.0, -10.0), &words));
    Some(Sheet {
        name: part.into(),
        what: "pads for fins, leash plug and vent".into(),
        drawing,
    })
}

fn line(f: &PlacedFitting, pad: &Pad, unit: Unit) -> String {
    format!(
        "{}: {} by {} before fitting, from a board of {}; {} thick at the least",
        f.name,
        units::fine_size(pad.size[0], unit),
        units::fine_size(pad.size[1], unit),
        units::fine_size(pad.stock, unit),
        units::fine_size(pad.thickness, unit)
    )
}

/// The pad's name, its side among it, engraved on a piece: port and starboard are mirror images and easily swapped.
fn named(part: &str, piece: &Path) -> Option<Item> {
    let word = part.trim_start_matches("pad-").to_uppercase();
    let bounds = piece.bounds();
    let room = 0.7 * bounds.width() / text_width(&word, 1.0);
    let letter = LETTER.min(room).min(0.3 * bounds.height());
    let (x, y) = (
        (bounds.min.x + bounds.max.x) / 2.0,
        (bounds.min.y + bounds.max.y) / 2.0,
    );
    // Smaller letters could not be read.
    let at = Point::new(x, y - letter / 2.0);
    (letter >= 1.0).then(|| engraved(part, at, letter, Align::Middle, &word))
}

/// A pad's pieces as they lie, the cut-outs in grey, its name over it.
fn one(f: &PlacedFitting, pad: &Pad) -> Drawing {
    let part = format!("pad-{}", f.name);
    let back = Placement::shift(-f.middle[0], -f.middle[1]);
    let placed = |p: &Path| p.transform(&back);
    let mut items: Vec<Item> = pad
        .pieces
        .iter()
        .map(|piece| path(&part, Layer::OutsideCut, placed(&piece.outline)))
        .collect();
    items.extend(
        pad.pieces
            .iter()
            .filter_map(|piece| named(&part, &placed(&piece.outline))),
    );
    items.extend(
        f.cuts
            .iter()
            .map(|cut| path(&part, Layer::Reference, placed(cut))),
    );
    let drawing = Drawing {
        title: part.clone(),
        items: items.clone(),
    };
    if let Some(bounds) = drawing.bounds() {
        items.push(text(
            &part,
            Point::new(bounds.min.x, bounds.max.y + 5.0),
            LETTER,
            Align::Start,
            part.to_uppercase(),
        ));
        let y = bounds.min.y - 6.0;
        items.extend(arrow(
            &part,
            Point::new(bounds.min.x, y),
            Point::new(bounds.min.x + 20.0, y),
        ));
        let kind = match f.kind {
            FittingKind::Fin => "TO NOSE, ON THE BOTTOM",
            FittingKind::Plug | FittingKind::Vent
                if f.through == crate::design::Through::Bottom =>
            {
                "TO NOSE, ON THE BOTTOM"
            }
            FittingKind::Plug | FittingKind::Vent => "TO NOSE, UNDER THE DECK",
        };
        items.push(text(
            &part,
            Point::new(bounds.min.x + 24.0, y - 1.5),
            3.0,
            Align::Start,
            kind.into(),
        ));
    }
    Drawing { title: part, items }
}
