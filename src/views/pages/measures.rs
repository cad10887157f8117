//! Measures and rocker.

use super::text::size;
use crate::board::Board;
use crate::design::units::Unit;
use crate::views::document::{Block, Section};
use crate::views::report::measure_list;
use crate::views::table::{Cell, Column, Quantity, Table};

/// The measures the trade quotes; for a report in other units the millimetres beside them.
pub(super) fn measures(board: &Board) -> Section {
    let unit = board.design.report;
    let in_mm = unit != Unit::Mm;
    let mut table = Table::with_columns(&["", "", ""]);
    if in_mm {
        let mut column = Column::plain("mm");
        column.decimals = 1;
        table.columns.insert(2, column);
    }
    for m in measure_list(board) {
        let mut row = vec![Cell::from(m.name), m.value.into()];
        if in_mm {
            row.push(match m.value.plain() {
                (mm, "mm") => mm.into(),
                _ => Cell::Empty,
            });
        }
        row.push(m.at.map_or(Cell::Empty, |x| {
            format!("{} from the tail", size(x, unit)).into()
        }));
        table.rows.push(row);
    }
    Section::new("Measures", vec![Block::Table(table)])
}

/// The bottom's height along the board.
pub(super) fn rocker(board: &Board) -> Section {
    let m = &board.measures;
    let nose = [m.length, m.nose_rocker];
    let last = m.rocker.last().is_some_and(|p| m.length - p[0] < 1.0);
    let points = m.rocker.iter().chain((!last).then_some(&nose));
    let mut table = Table::with_columns(&["from the tail", "height"]);
    table
        .rows
        .extend(points.map(|p| p.map(|mm| Quantity::Size(mm).into()).to_vec()));
    Section::new("Rocker", vec![Block::Table(table)])
        .with_aside("height of the bottom on the centreline, every 12 in from the tail")
}
