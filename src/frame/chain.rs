//! Chains of points turned into paths of lines and arcs.

use super::FrameError;
use crate::geometry::path::{Point, Segment, arcs_of_polyline};

/// Greatest distance, mm, between a part's lines and arcs and its exact contour.
pub(super) const ARC_TOLERANCE: f64 = 0.008;
/// Share of it spent on the dense polyline the arcs are fitted to.
pub(super) const LINE_TOLERANCE: f64 = 0.001;
/// A turn sharper than this, radians, between two short chords is a corner of the part.
pub(super) const CORNER: f64 = 0.12;

/// Lines and arcs along a dense polyline, corners kept.
pub(crate) fn arcs(part: &str, points: &[Point]) -> Result<Vec<Segment>, FrameError> {
    let failed = |source| FrameError::Contour {
        part: part.into(),
        source,
    };
    let fitted =
        arcs_of_polyline(points, CORNER, ARC_TOLERANCE - LINE_TOLERANCE).map_err(failed)?;
    Ok(fitted.segments)
}
