//! Fittings as a table.

use super::cells::{count, degrees, mm, table as titled};
use crate::board::Board;
use crate::design::Through;
use crate::frame::pads::{FittingKind, PlacedFitting};
use crate::views::table::{Cell, Column, Table};

/// One row a fitting.
pub(super) fn table(board: &Board) -> Table {
    let columns = vec![
        Column::plain("fitting"),
        Column::plain("kind"),
        Column::plain("let into"),
        mm("from the tail"),
        mm("centre from the tail"),
        mm("centre to starboard"),
        degrees("toe"),
        degrees("cant"),
        mm("base or diameter"),
        mm("depth"),
        mm("moved inboard for the strips"),
        Column::plain("held by"),
        mm("pad length"),
        mm("pad width"),
        mm("pad thickness"),
        mm("pad board"),
        Column::plain("pad pieces"),
        Column::measured("pad volume", "mm³", 0),
    ];
    let row = |f: &PlacedFitting| {
        let kind = match f.kind {
            FittingKind::Fin => "fin",
            FittingKind::Plug => "leash plug",
            FittingKind::Vent => "vent",
        };
        let skin = match f.through {
            Through::Deck => "deck",
            Through::Bottom => "bottom",
        };
        let mut row: Vec<Cell> = vec![f.name.as_str().into(), kind.into(), skin.into()];
        row.extend(
            [
                f.from_tail,
                f.middle[0],
                f.middle[1],
                f.toe.to_degrees(),
                f.cant.to_degrees(),
                f.base,
                f.depth,
                f.moved,
            ]
            .map(Cell::Number),
        );
        match &f.pad {
            Some(pad) => {
                row.push("pad".into());
                let [length, width] = pad.size;
                row.extend([length, width, pad.thickness, pad.stock].map(Cell::Number));
                row.push(count(pad.pieces.len()));
                row.push(pad.volume().into());
            }
            None => {
                row.push("block".into());
                row.extend(std::iter::repeat_n(Cell::Empty, 6));
            }
        }
        row
    };
    let rows = board.pads.fittings.iter().map(row).collect();
    titled(board, "fins, leash plug and vent", columns, rows)
}
