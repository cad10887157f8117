//! A value set against its limit.

use serde::Serialize;

/// A value, the limit it is held to, and how much of the limit it uses.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Utilisation {
    /// What was found.
    pub value: f64,
    /// What it is held to, in the same unit.
    pub limit: f64,
    /// `value / limit`; above 1 the limit is passed.
    pub ratio: f64,
}

impl Utilisation {
    /// Sets the size of `value`, sign dropped, against `limit`. A limit of zero gives an infinite ratio for any value but zero.
    pub fn new(value: f64, limit: f64) -> Self {
        let value = value.abs();
        let ratio = if value == 0.0 { 0.0 } else { value / limit };
        Self {
            value,
            limit,
            ratio,
        }
    }

    /// Whether the value keeps within the limit.
    pub fn passes(&self) -> bool {
        self.ratio <= 1.0
    }
}
