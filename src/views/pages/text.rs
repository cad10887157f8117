//! Measures in running text.

use crate::design::units::{self, Unit};
use crate::views::table::Quantity;

/// A place or a size along the board.
pub(super) fn size(mm: f64, unit: Unit) -> String {
    Quantity::Size(mm).text(unit)
}

/// A size to set a machine to: `12.7 mm`, `0.500 in`.
pub(super) fn fine(mm: f64, unit: Unit) -> String {
    units::fine_size(mm, unit)
}

/// Thickness by width: `6 × 12.7 mm`, `0.236 × 0.500 in`.
pub(super) fn section([thickness, width]: [f64; 2], unit: Unit) -> String {
    let width = fine(width, unit);
    let thickness = fine(thickness, unit);
    let bare = thickness.split_once(' ').map_or("", |(number, _)| number);
    format!("{bare} × {width}")
}

/// The name with a capital first.
pub(super) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

/// `1 scarf`, `2 scarfs`.
pub(super) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}
