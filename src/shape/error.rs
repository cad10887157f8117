//! What can stop a shell from being lofted.

use crate::geometry::curve::CurveError;

/// Why no shell could be made of a design.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ShellError {
    /// A curve of the design could not be solved.
    #[error("the {what} could not be drawn: {source}")]
    Curve {
        /// Outline, rocker or foil.
        what: &'static str,
        /// Why.
        source: CurveError,
    },
    /// The outline turns back or crosses the centreline.
    #[error("the outline {fault} near x = {x:.0} mm; move, add or remove an outline point there")]
    Outline {
        /// What it does.
        fault: &'static str,
        /// Where, mm from the tail.
        x: f64,
    },
    /// A thickness is not positive.
    #[error("the foil comes to {thickness:.1} mm near x = {x:.0} mm; give more thickness there")]
    Foil {
        /// Thickness found, mm.
        thickness: f64,
        /// Where, mm from the tail.
        x: f64,
    },
    /// A section folds or leaves its frame.
    #[error("the section at x = {x:.0} mm cannot be drawn: {fault}; {remedy}")]
    Section {
        /// Where, mm from the tail.
        x: f64,
        /// What is wrong.
        fault: String,
        /// What to change.
        remedy: String,
    },
    /// The loft did not reach its tolerance.
    #[error(
        "the loft misses its sections by {reached:.4} mm at u = {u:.6}, more than {tolerance} mm; the shape changes too fast there"
    )]
    Loft {
        /// What was asked, mm.
        tolerance: f64,
        /// What was reached, mm.
        reached: f64,
        /// Where along the board, 0 at the tail, 1 at the nose.
        u: f64,
    },
}

impl ShellError {
    /// A converter for curve errors of the named curve.
    pub(crate) fn curve(what: &'static str) -> impl FnOnce(CurveError) -> Self {
        move |source| Self::Curve { what, source }
    }
}
