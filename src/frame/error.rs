//! What can stop a frame from being drawn.

use crate::design::finding::RibFault;
use crate::geometry::curve::CurveError;
use crate::shape::ShellError;

/// Why a part of the frame could not be drawn.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FrameError {
    /// The hollow is too low or too narrow for a rib.
    #[error(
        "rib {number} at x = {x:.0} mm: {fault}; move the rib, lengthen the end block, or make the board thicker there"
    )]
    Rib {
        /// Its number from the tail, starting with 1.
        number: usize,
        /// Its place, mm from the tail.
        x: f64,
        /// What is wrong.
        fault: RibFault,
    },
    /// The spine has no room.
    #[error(
        "the spine at x = {x:.0} mm: the hollow is only {height:.1} mm high; lengthen the end block or make the board thicker there"
    )]
    Spine {
        /// Where, mm from the tail.
        x: f64,
        /// Height found, mm.
        height: f64,
    },
    /// The shell refused.
    #[error(transparent)]
    Shell(#[from] ShellError),
    /// A contour could not be fitted with lines and arcs.
    #[error("the contour of {part} could not be drawn: {source}")]
    Contour {
        /// The part.
        part: String,
        /// Why.
        source: CurveError,
    },
}
