//! Neutral tables: a title, columns with units, and rows.

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
