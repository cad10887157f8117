//! Chains of points turned into paths of lines and arcs.

use super::FrameError;
use crate::curve::{ArcPath, Vector, arcs_of_polyline};
use crate::drawing::{Path, Point, Segment};

/// Greatest distance, mm, between a part's lines and arcs and its exact contour.
pub(super) const ARC_TOLERANCE: f64 = 0.008;
/// Share of it spent on the dense polyline the arcs are fitted to.
pub(super) const LINE_TOLERANCE: f64 = 0.001;
/// A turn sharper than this, radians, between two short chords is a corner of the part.
pub(super) const CORNER: f64 = 0.12;

/// Lines and arcs along a dense polyline, corners kept.
pub(crate) fn arcs(part: &str, points: &[Vector<2>]) -> Result<Vec<Segment>, FrameError> {
    let failed = |source| FrameError::Contour {
        part: part.into(),
        source,
    };
    let fitted =
        arcs_of_polyline(points, CORNER, ARC_TOLERANCE - LINE_TOLERANCE).map_err(failed)?;
    Ok(segments(&fitted))
}

/// An arc chain as drawing segments.
pub(crate) fn segments(path: &ArcPath) -> Vec<Segment> {
    let segment = |piece: &crate::curve::ArcPiece| {
        let to = Point::new(piece.to.x, piece.to.y);
        if piece.bulge == 0.0 {
            Segment::Line { to }
        } else {
            Segment::Arc {
                to,
                bulge: piece.bulge,
            }
        }
    };
    path.pieces.iter().map(segment).collect()
}

/// Joins a start and segments to a closed path, adding the last line home if needed.
pub(crate) fn close(start: Vector<2>, mut segments: Vec<Segment>) -> Path {
    let start = Point::new(start.x, start.y);
    let home = segments
        .last()
        .is_some_and(|s| (s.to() - start).norm() < 1e-9);
    if !home {
        segments.push(Segment::Line { to: start });
    }
    Path {
        start,
        segments,
        closed: true,
    }
    .without_empty_segments()
}

/// A straight segment.
pub(crate) fn line(x: f64, y: f64) -> Segment {
    Segment::Line {
        to: Point::new(x, y),
    }
}
