//! Ribs and spine, fittings, building bed.

use super::text::{counted, fine, size};
use crate::board::Board;
use crate::design::Through;
use crate::views::document::{Block, Section};
use crate::views::report::Report;
use crate::views::table::{Cell, Quantity, Table};

/// Ribs and spine.
pub(super) fn frame(report: &Report) -> Section {
    let unit = report.report;
    let thick = report.ribs.first().map_or(0.0, |rib| rib.thickness);
    let spine = &report.spine;
    let aside = format!(
        "{} of {}; spine of {} from {} to {}{}",
        counted(report.ribs.len(), "rib", "ribs"),
        fine(thick, unit),
        fine(spine.thickness, unit),
        size(spine.ends[0], unit),
        size(spine.ends[1], unit),
        match spine.pieces {
            0 | 1 => String::new(),
            n => format!(", in {n} pieces"),
        }
    );
    let mut table = Table::with_columns(&[
        "rib",
        "from the tail",
        "width",
        "height",
        "holes",
        "courses a side",
        "top bevel",
    ]);
    table.rows.extend(report.ribs.iter().map(|rib| {
        vec![
            Cell::from(rib.number),
            Quantity::Size(rib.x).into(),
            Quantity::Size(rib.width).into(),
            Quantity::Size(rib.height).into(),
            rib.holes.into(),
            rib.courses.into(),
            rib.top_bevel
                .map_or(Cell::Empty, |a| Quantity::Angle(a, 1).into()),
        ]
    }));
    let words = "A course is one strip of the rail; courses count from the bottom skin up. The top bevel is the slope to which the uppermost one is \
                 planed for the deck.";
    Section::new("Frame", vec![Block::Table(table), Block::small(words)]).with_aside(aside)
}

/// Fins, leash plug and vent; nothing where there are none.
pub(super) fn fittings(board: &Board) -> Option<Section> {
    let mut table = Table::with_columns(&[
        "fitting",
        "let into",
        "from the tail",
        "off centre",
        "depth",
        "held by",
    ]);
    table.rows.extend(board.pads.fittings.iter().map(|f| {
        vec![
            Cell::from(f.name.as_str()),
            match f.through {
                Through::Deck => "deck",
                Through::Bottom => "bottom",
            }
            .into(),
            Quantity::Size(f.middle[0]).into(),
            Quantity::Size(f.middle[1].abs()).into(),
            Quantity::Fine(f.depth).into(),
            if f.pad.is_some() { "pad" } else { "block" }.into(),
        ]
    }));
    let words = "Places are those of the centre of a fin's base or of a hole. A pad is a piece of solid wood glued to the skin's inside.";
    (!table.rows.is_empty()).then(|| {
        Section::new("Fittings", vec![Block::Table(table), Block::small(words)])
            .with_aside("fins, leash plug and vent")
    })
}

/// The cradles that hold the bottom skin while the frame is glued on; nothing where there are none.
pub(super) fn bed(board: &Board) -> Option<Section> {
    let (bed, unit) = (&board.bed, board.design.report);
    let mut table = Table::with_columns(&[
        "cradle",
        "from the tail",
        "under rib",
        "width",
        "height, centre",
        "height, ends",
    ]);
    table.rows.extend(bed.cradles.iter().map(|c| {
        vec![
            Cell::from(c.number),
            Quantity::Size(c.x).into(),
            c.rib.map_or(Cell::Empty, Cell::from),
            Quantity::Size(2.0 * c.half_width).into(),
            Quantity::Size(c.heights[0]).into(),
            Quantity::Size(c.heights[1]).into(),
        ]
    }));
    let aside = format!(
        "{} on a level table {} below the board",
        counted(bed.cradles.len(), "cradle", "cradles"),
        size(-bed.table, unit)
    );
    (!table.rows.is_empty())
        .then(|| Section::new("Building bed", vec![Block::Table(table)]).with_aside(aside))
}
