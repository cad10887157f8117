//! The bed's heights as a table.

use super::cells::{count, degrees, maybe, mm, table as titled};
use crate::board::Board;
use crate::views::table::{Cell, Column, Table};

/// One row a cradle, heights over the table it stands on.
pub(super) fn table(board: &Board) -> Table {
    let columns = vec![
        Column::plain("cradle"),
        mm("from the tail"),
        mm("face towards the tail"),
        mm("face towards the nose"),
        Column::plain("under rib"),
        mm("width"),
        mm("height at the centreline"),
        mm("height at the ends"),
        mm("sight line"),
        degrees("bevel at the centreline"),
        degrees("bevel at the ends"),
        mm("table under the base plane"),
    ];
    let bed = &board.bed;
    let row = |c: &crate::frame::bed::Cradle| {
        let half = c.thickness / 2.0;
        vec![
            count(c.number),
            c.x.into(),
            (c.x - half).into(),
            (c.x + half).into(),
            c.rib.map_or(Cell::Empty, count),
            (2.0 * c.half_width).into(),
            c.heights[0].into(),
            c.heights[1].into(),
            maybe(Some(bed.sight)),
            c.bevels[0].to_degrees().into(),
            c.bevels[1].to_degrees().into(),
            (-bed.table).into(),
        ]
    };
    let rows = bed.cradles.iter().map(row).collect();
    titled(board, "building bed", columns, rows)
}
