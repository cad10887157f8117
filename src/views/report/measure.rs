//! The measures a maker asks for, named.

use crate::board::Board;
use crate::design::units::{self, Unit};

/// What kind of number a measure is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Quantity {
    /// The board's length, mm.
    Length(f64),
    /// Any other length, mm.
    Size(f64),
    /// An area, mm².
    Area(f64),
    /// A volume, mm³.
    Volume(f64),
}

impl Quantity {
    /// As a report in `unit` shows it: volumes in litres, areas in square metres or square feet.
    pub fn text(self, unit: Unit) -> String {
        match self {
            Self::Length(mm) => units::length(mm, unit),
            Self::Size(mm) => units::size(mm, unit),
            Self::Volume(cubic) => units::litres(cubic),
            Self::Area(square) if unit.is_metric() => format!("{:.4} m²", square / 1e6),
            Self::Area(square) => {
                let foot = Unit::Ft.in_mm();
                format!("{:.2} sq ft", square / (foot * foot))
            }
        }
    }

    /// The number and its unit's symbol, in millimetres throughout.
    pub fn plain(self) -> (f64, &'static str) {
        match self {
            Self::Length(mm) | Self::Size(mm) => (mm, "mm"),
            Self::Area(square) => (square, "mm²"),
            Self::Volume(cubic) => (cubic, "mm³"),
        }
    }
}

/// One measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Its name.
    pub name: &'static str,
    /// Its value.
    pub value: Quantity,
    /// Where it was taken, mm from the tail, when that is not in its name.
    pub at: Option<f64>,
}

/// The measures of `board` in the order the trade quotes them.
pub fn measure_list(board: &Board) -> Vec<Measure> {
    use Quantity::{Area, Length, Size, Volume};
    let m = &board.measures;
    let plain = |name, value| Measure {
        name,
        value,
        at: None,
    };
    let placed = |name, value, x| Measure {
        name,
        value,
        at: Some(x),
    };
    vec![
        plain("length", Length(m.length)),
        placed("width", Size(m.width), m.wide_point),
        plain("width 12 in from the nose", Size(m.nose_width)),
        plain("width 12 in from the tail", Size(m.tail_width)),
        placed("thickness", Size(m.thickness), m.thick_point),
        plain("thickness at the centre", Size(m.centre_thickness)),
        plain("thickness 12 in from the nose", Size(m.nose_thickness)),
        plain("thickness 12 in from the tail", Size(m.tail_thickness)),
        plain("nose rocker", Size(m.nose_rocker)),
        plain("tail rocker", Size(m.tail_rocker)),
        plain("volume", Volume(m.volume)),
        plain("planshape area", Area(m.planshape_area)),
        plain("surface area", Area(m.surface_area)),
        plain(
            "centre of volume, from the tail",
            Size(m.centre_of_volume[0]),
        ),
        plain("centre of volume, height", Size(m.centre_of_volume[1])),
    ]
}
