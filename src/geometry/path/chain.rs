//! Paths from segments and points.

use super::{Path, Point, Segment};

/// Joins a start and segments to a closed path, adding the last line home if needed.
pub(crate) fn close(start: Point, mut segments: Vec<Segment>) -> Path {
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
