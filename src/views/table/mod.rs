//! Neutral tables: a title, columns with units, and rows; measured values that know their dimension.

mod quantity;

pub use quantity::Quantity;

use crate::design::units::Unit;

/// A column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its name.
    pub name: String,
    /// Unit of its numbers, such as `mm`; empty when they have none.
    pub unit: String,
    /// Decimals its numbers are rounded to, at most 9.
    pub decimals: u32,
}

/// A cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A number in the column's unit.
    Number(f64),
    /// A measured value, shown in the reader's unit; its column has none.
    Quantity(Quantity),
    /// A count.
    Count(i64),
    /// Nothing.
    Empty,
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its title.
    pub title: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, one cell a column.
    pub rows: Vec<Vec<Cell>>,
}

impl Column {
    /// A column of words or counts.
    pub fn plain(name: &str) -> Self {
        Self::measured(name, "", 0)
    }

    /// A column of numbers with a unit.
    pub fn measured(name: &str, unit: &str, decimals: u32) -> Self {
        Self {
            name: name.to_owned(),
            unit: unit.to_owned(),
            decimals: decimals.min(9),
        }
    }

    /// Name and unit, as a heading.
    pub fn heading(&self) -> String {
        if self.unit.is_empty() {
            self.name.clone()
        } else {
            format!("{} ({})", self.name, self.unit)
        }
    }
}

impl Cell {
    /// The cell as a page shows it in a report in `unit`; `column` says how many decimals a bare number has.
    pub fn text(&self, column: &Column, unit: Unit) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Number(number) if number.is_finite() => {
                format!("{number:.*}", column.decimals as usize)
            }
            Self::Number(_) => "–".to_owned(),
            Self::Quantity(quantity) => quantity.text(unit),
            Self::Count(count) => count.to_string(),
            Self::Empty => String::new(),
        }
    }

    /// Whether it is a number of some kind.
    pub fn is_number(&self) -> bool {
        matches!(self, Self::Number(_) | Self::Quantity(_) | Self::Count(_))
    }
}

impl Table {
    /// A table without a title for a page: columns by name, empty so far.
    pub fn with_columns(names: &[&str]) -> Self {
        Self {
            title: String::new(),
            columns: names.iter().map(|name| Column::plain(name)).collect(),
            rows: Vec::new(),
        }
    }

    /// Whether a column holds numbers, which are set flush right.
    pub fn is_numeric(&self, column: usize) -> bool {
        let cells = self.rows.iter().filter_map(|row| row.get(column));
        cells.into_iter().any(Cell::is_number)
    }
}

impl From<Quantity> for Cell {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(quantity)
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<usize> for Cell {
    fn from(count: usize) -> Self {
        Self::Count(i64::try_from(count).unwrap_or(i64::MAX))
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}
