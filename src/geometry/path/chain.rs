//! Paths from arc chains and points.

use super::{Path, Point, Segment};
use crate::geometry::curve::{ArcPath, ArcPiece, Vector};

/// An arc chain as segments.
pub(crate) fn segments(path: &ArcPath) -> Vec<Segment> {
    let segment = |piece: &ArcPiece| {
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
