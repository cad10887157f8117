//! What of the finished shape is not what the design says, in words.

use crate::board::Board;
use crate::design::units;
use crate::shape::{ShapeMeasure, ShapeTrouble};

/// A measure that is not what was entered, in the maker's units.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ShapeFinding {
    /// The measure with its values, mm.
    pub trouble: ShapeTrouble,
    /// What is wrong.
    pub headline: String,
    /// Where, what was entered and what is measured.
    pub extent: String,
    /// What to change.
    pub remedy: &'static str,
}

/// The board's shape findings.
pub(super) fn shape_findings(board: &Board) -> Vec<ShapeFinding> {
    board
        .shape_troubles
        .iter()
        .map(|t| {
            let [measured, entered, place] =
                [t.measured, t.entered, t.x].map(|mm| units::size(mm, board.design.report));
            let (headline, remedy) = match t.measure {
                ShapeMeasure::Width => (
                    "the board is not as wide as entered",
                    "give a lesser `nose_width` or `tail_width`, or outline `points`",
                ),
                ShapeMeasure::WidePoint => (
                    "the board is widest elsewhere than entered",
                    "give a lesser `nose_width` or `tail_width`, or move `wide_point`",
                ),
                ShapeMeasure::Thickness => (
                    "the board is thicker than entered anywhere",
                    "give less rocker, or foil `points` with more thicknesses along the board",
                ),
                ShapeMeasure::FoilPoint => (
                    "the board is not as thick as entered",
                    "give less rocker, or foil `points` farther apart",
                ),
                ShapeMeasure::Rocker => (
                    "the bottom is not as high as entered",
                    "give rocker `points` between which the bottom does not dip below the base plane",
                ),
            };
            let extent = if t.measure == ShapeMeasure::WidePoint {
                format!("measured at {measured} from the tail, entered {entered}")
            } else {
                format!("measured {measured} at {place} from the tail, entered {entered}")
            };
            ShapeFinding {
                trouble: *t,
                headline: headline.to_owned(),
                extent,
                remedy,
            }
        })
        .collect()
}
