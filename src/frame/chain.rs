//! Chains of points turned into paths of lines and arcs.

use super::FrameError;
use crate::curve::{ArcPath, Vector, arcs_of_polyline};
use crate::drawing::{Path, Point, Segment};

/// Greatest distance, mm, between a part's lines and arcs and its exact contour.
pub(super) const ARC_TOLERANCE: f64 = 0.008;
/// Share of it spent on the dense polyline the arcs are fitted to.
pub(super) const LINE_TOLERANCE: f64 = 0.001;
/// A turn sharper than this, radians, between two short chords is a corner of the part.
const CORNER: f64 = 0.12;

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

/// A closed path of lines and arcs round a polygon whose arcs are dense polylines.
pub(super) fn closed_arcs(part: &str, polygon: &[Vector<2>]) -> Result<Path, FrameError> {
    // Clipping leaves corners a hair apart whose edges point anywhere.
    const HAIR: f64 = 2e-3;
    let mut points: Vec<Vector<2>> = Vec::with_capacity(polygon.len() + 1);
    for p in polygon {
        if points.last().is_none_or(|q| (p - q).norm() > HAIR) {
            points.push(*p);
        }
    }
    while points.len() > 3 && (points[0] - points[points.len() - 1]).norm() <= HAIR {
        points.pop();
    }
    points.extend(points.first().copied());
    let points = eased(&points);
    let segments = arcs(part, &points)?;
    let start = points.first().copied().unwrap_or_default();
    Ok(close(start, segments))
}

/// A closed polyline with a vertex more where a long edge meets a chord of an arc, as far from their corner as the chord is long, so
/// that the tangent there is not taken for the chord's.
fn eased(points: &[Vector<2>]) -> Vec<Vector<2>> {
    let n = points.len().saturating_sub(1);
    let length = |i: usize| (points[(i + 1) % n] - points[i % n]).norm();
    let mut out = Vec::with_capacity(2 * n + 1);
    for i in 0..n {
        let (a, b) = (points[i], points[i + 1]);
        out.push(a);
        let (before, here, after) = (length(i + n - 1), length(i), length(i + 1));
        let along = |distance: f64| a + (b - a) * (distance / here);
        if here > 3.0 * before {
            out.push(along(before));
        }
        if here > 3.0 * after {
            out.push(along(here - after));
        }
    }
    out.extend(points.last().copied());
    out
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
