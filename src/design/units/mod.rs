//! Lengths, volumes and masses as makers write them.
//!
//! Inside the library a length is an `f64` in millimetres. This module is the edge where a maker's writing becomes
//! such a number ([`parse_length`]) and where a number becomes writing again ([`mm`], [`inches`], [`feet_inches`],
//! [`length`], [`size`], [`place`], [`litres`], [`mass`]). Nothing here looks at the locale.

mod error;
mod list;
mod parse;
mod print;
mod scan;

pub use error::LengthError;
pub use list::list;
pub use parse::parse_length;
pub use print::{
    feet_inches, fine_size, force, hundredths, inches, length, litres, mass, mm, place, size,
};

/// A unit of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Unit {
    /// Millimetre.
    Mm,
    /// Centimetre.
    Cm,
    /// Metre.
    M,
    /// Inch.
    In,
    /// Foot.
    Ft,
}

impl Unit {
    /// All units, the metric ones first.
    pub const ALL: [Self; 5] = [Self::Mm, Self::Cm, Self::M, Self::In, Self::Ft];

    /// How many millimetres the unit is; exact by definition (1 in = 25.4 mm).
    pub const fn in_mm(self) -> f64 {
        match self {
            Self::Mm => 1.0,
            Self::Cm => 10.0,
            Self::M => 1000.0,
            Self::In => 25.4,
            Self::Ft => 304.8,
        }
    }

    /// `value` of this unit in millimetres.
    pub const fn to_mm(self, value: f64) -> f64 {
        value * self.in_mm()
    }

    /// `mm` millimetres in this unit.
    pub const fn from_mm(self, mm: f64) -> f64 {
        mm / self.in_mm()
    }

    /// The unit's symbol: `mm`, `cm`, `m`, `in` or `ft`.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Cm => "cm",
            Self::M => "m",
            Self::In => "in",
            Self::Ft => "ft",
        }
    }

    /// The unit in words, many of it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Mm => "millimetres",
            Self::Cm => "centimetres",
            Self::M => "metres",
            Self::In => "inches",
            Self::Ft => "feet",
        }
    }

    /// The unit of a symbol, exactly as [`Unit::symbol`] writes it.
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }

    /// Whether the unit is one of the metric system's.
    pub const fn is_metric(self) -> bool {
        matches!(self, Self::Mm | Self::Cm | Self::M)
    }
}
