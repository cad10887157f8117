//! Numbers with their units.

use crate::design::finding::Dimension;
use crate::design::units::{self, Unit};

/// A gap, a margin or a profile's size: to the hundredth of a millimetre, or the thousandth of an inch.
pub(super) fn fine(mm: f64, unit: Unit) -> String {
    if unit.is_metric() {
        units::mm(mm, 2)
    } else {
        units::inches(mm, 3)
    }
}

/// A length by which something is off, to the tenth of a millimetre or the thousandth of an inch.
pub(super) fn tenths(mm: f64, unit: Unit) -> String {
    if unit.is_metric() {
        units::mm(mm, 1)
    } else {
        units::inches(mm, 3)
    }
}

/// A length that serves if it is no greater: rounded down, so that it serves as it is printed.
pub(super) fn at_most(mm: f64, unit: Unit) -> String {
    rounded(mm, unit, |steps| (steps + 1e-6).floor())
}

/// A length that serves if it is no less: rounded up, so that it serves as it is printed.
pub(super) fn at_least(mm: f64, unit: Unit) -> String {
    rounded(mm, unit, |steps| (steps - 1e-6).ceil())
}

fn rounded(mm: f64, unit: Unit, round: fn(f64) -> f64) -> String {
    let step = if unit.is_metric() { 0.1 } else { 0.0254 };
    tenths(step * round(mm / step), unit)
}

/// An angle of radians in degrees.
pub(super) fn degrees(radians: f64) -> String {
    format!("{:.1}°", radians.to_degrees())
}

/// A fraction in percent.
pub(super) fn percent(fraction: f64) -> String {
    format!("{:.2} %", 100.0 * fraction)
}

/// A value of a dimension as tables and programs get it, whatever the maker's unit: the number and its unit's sign.
pub fn plain(dimension: Dimension, value: f64) -> (f64, &'static str) {
    match dimension {
        Dimension::Length => (value, "mm"),
        Dimension::Angle => (value.to_degrees(), "degrees"),
        Dimension::Strain => (100.0 * value, "%"),
        Dimension::Thicknesses => (value, "× thickness"),
        Dimension::Mass => (value, "kg"),
        Dimension::None => (value, ""),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_rounded_to_the_side_that_serves() {
        assert_eq!(at_most(5.4, Unit::Mm), "5.4 mm");
        assert_eq!(at_most(5.49, Unit::Cm), "5.4 mm");
        assert_eq!(at_least(5.41, Unit::Mm), "5.5 mm");
        // 5.4 mm are 0.21260 in.
        assert_eq!(at_most(5.4, Unit::In), "0.212 in");
        assert_eq!(at_least(5.4, Unit::Ft), "0.213 in");
    }
}
