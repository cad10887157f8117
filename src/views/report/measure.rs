//! The measures a maker asks for, named.

use crate::board::Board;
use crate::views::table::Quantity;

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
        plain("outline area", Area(m.planshape_area)),
        plain("surface area", Area(m.surface_area)),
        plain("volume centre, from the tail", Size(m.centre_of_volume[0])),
        plain("volume centre, height", Size(m.centre_of_volume[1])),
    ]
}
