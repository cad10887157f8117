//! Measured values and how a report shows them.

use crate::design::units::{self, Unit};

/// A value with its dimension, in the program's units: mm, kg, N, degrees, percent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Quantity {
    /// The board's length, mm.
    Length(f64),
    /// Any other length, mm.
    Size(f64),
    /// A length that another must fit or that is judged by hundredths, mm.
    Fine(f64),
    /// A length that is measured to the micrometre, mm.
    Exact(f64),
    /// An area, mm².
    Area(f64),
    /// A volume, mm³.
    Volume(f64),
    /// A mass, kg.
    Mass(f64),
    /// A force, N.
    Force(f64),
    /// An angle, degrees, and how many decimals to show.
    Angle(f64, usize),
    /// A multiple of something.
    Times(f64),
    /// A share, percent, and how many decimals to show.
    Percent(f64, usize),
    /// A share that may be of either sign, percent, its sign always shown.
    Signed(f64, usize),
}

impl Quantity {
    /// As a report in `unit` shows it: volumes in litres, areas in square metres or square feet; a dash where it is no number.
    pub fn text(self, unit: Unit) -> String {
        match self {
            Self::Length(mm) => units::length(mm, unit),
            Self::Size(mm) => units::size(mm, unit),
            Self::Fine(mm) if unit.is_metric() => units::mm(mm, 2),
            Self::Fine(mm) => units::inches(mm, 3),
            Self::Exact(mm) if unit.is_metric() => units::mm(mm, 3),
            Self::Exact(mm) => units::inches(mm, 4),
            Self::Volume(cubic) => units::litres(cubic),
            Self::Area(square) if unit.is_metric() => format!("{:.4} m²", square / 1e6),
            Self::Area(square) => {
                let foot = Unit::Ft.in_mm();
                format!("{:.2} sq ft", square / (foot * foot))
            }
            Self::Mass(kg) => units::mass(kg, unit),
            Self::Force(newtons) => units::force(newtons, unit),
            Self::Angle(degrees, decimals) => format!("{degrees:.decimals$}°"),
            Self::Times(factor) => format!("{factor:.0} ×"),
            Self::Percent(share, decimals) => format!("{share:.decimals$} %"),
            Self::Signed(share, decimals) => format!("{share:+.decimals$} %"),
        }
    }

    /// The number and its unit's symbol, whatever unit a report is in.
    pub fn plain(self) -> (f64, &'static str) {
        match self {
            Self::Length(mm) | Self::Size(mm) | Self::Fine(mm) | Self::Exact(mm) => (mm, "mm"),
            Self::Area(square) => (square, "mm²"),
            Self::Volume(cubic) => (cubic, "mm³"),
            Self::Mass(kg) => (kg, "kg"),
            Self::Force(newtons) => (newtons, "N"),
            Self::Angle(degrees, _) => (degrees, "degrees"),
            Self::Times(factor) => (factor, ""),
            Self::Percent(share, _) | Self::Signed(share, _) => (share, "%"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_report_shows_its_own_unit() {
        let shown = |q: Quantity| [Unit::Mm, Unit::In].map(|unit| q.text(unit));
        assert_eq!(shown(Quantity::Size(520.7)), ["520.7 mm", "20 1/2\""]);
        assert_eq!(shown(Quantity::Fine(0.5)), ["0.50 mm", "0.020 in"]);
        assert_eq!(shown(Quantity::Mass(2.5)), ["2.50 kg", "5.51 lb"]);
        assert_eq!(shown(Quantity::Angle(12.34, 1)), ["12.3°", "12.3°"]);
        assert_eq!(shown(Quantity::Signed(0.4, 2)), ["+0.40 %", "+0.40 %"]);
        assert_eq!(Quantity::Size(f64::NAN).text(Unit::In), "– in");
    }
}
