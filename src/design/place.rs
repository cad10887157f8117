//! Where a value of a design stands: its table, its key, and which of several.

use std::fmt;

use serde::Serialize;

use super::keys::tables;

/// A key's place in a design.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct KeyPlace {
    /// The table's dotted name; empty for the top of the file.
    pub table: &'static str,
    /// Which of the tables of this name, from 0; 0 for a table that comes once.
    pub row: usize,
    /// The key.
    pub key: &'static str,
    /// Which element of a list, from 0; `None` for the value as a whole.
    pub index: Option<usize>,
}

impl KeyPlace {
    /// The key of this dotted name, such as `construction.strip.width`, in the first of its tables.
    pub fn of(name: &'static str) -> Self {
        Self::in_row(name, 0)
    }

    /// The same key in the `row`th of its tables.
    pub fn in_row(name: &'static str, row: usize) -> Self {
        let (table, key) = name.rsplit_once('.').unwrap_or(("", name));
        Self {
            table,
            row,
            key,
            index: None,
        }
    }

    /// One element of the list that stands here.
    pub const fn element(self, index: usize) -> Self {
        Self {
            index: Some(index),
            ..self
        }
    }
}

impl fmt::Display for KeyPlace {
    /// `construction.strip.width`, `section[2].at`, `rocker.flat[1]`; tables and elements are counted from 0.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            table, row, key, ..
        } = self;
        let repeated = tables().iter().any(|t| t.path == *table && t.repeated());
        match (*table, repeated) {
            ("", _) => f.write_str(key)?,
            (_, true) => write!(f, "{table}[{row}].{key}")?,
            (_, false) => write!(f, "{table}.{key}")?,
        }
        match self.index {
            Some(index) => write!(f, "[{index}]"),
            None => Ok(()),
        }
    }
}
