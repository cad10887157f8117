//! Columns and cells of the report's tables.

use crate::board::Board;
use crate::rail::CourseKind;
use crate::views::table::{Cell, Column, Table};

pub(super) fn mm(name: &str) -> Column {
    Column::measured(name, "mm", 3)
}

pub(super) fn degrees(name: &str) -> Column {
    Column::measured(name, "degrees", 2)
}

pub(super) fn count(n: usize) -> Cell {
    Cell::Count(i64::try_from(n).unwrap_or(i64::MAX))
}

pub(super) fn maybe(number: Option<f64>) -> Cell {
    number.map_or(Cell::Empty, Cell::Number)
}

pub(super) fn words(kind: CourseKind) -> Cell {
    Cell::from(match kind {
        CourseKind::Starter => "starter",
        CourseKind::BeadOnly => "bead-only",
        CourseKind::BeadAndCove => "bead-and-cove",
    })
}

pub(super) fn table(
    board: &Board,
    title: &str,
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
) -> Table {
    Table {
        title: format!("{}: {title}", board.design.name),
        columns,
        rows,
    }
}
