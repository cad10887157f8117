//! The distance of a point from segments and paths.

use super::{Path, Point, Segment, arc};
use crate::geometry::curve::{BSpline, KnotVector};

/// A line or an arc with its start and its circle, for the distances of many points.
pub(super) struct Placed {
    from: Point,
    to: Point,
    bulge: f64,
    circle: Option<(Point, f64)>,
}

impl Placed {
    /// Of a line or an arc; a cubic counts as its chord.
    pub fn new(from: Point, segment: &Segment) -> Self {
        let (to, bulge) = (segment.to(), segment.bulge());
        Self {
            from,
            to,
            bulge,
            circle: arc::circle(from, to, bulge),
        }
    }

    /// Distance of a point, mm.
    pub fn distance(&self, point: Point) -> f64 {
        let (start, chord) = (point - self.from, self.to - self.from);
        match self.circle {
            None => {
                let square = chord.norm_squared();
                let t = if square == 0.0 {
                    0.0
                } else {
                    start.dot(&chord) / square
                };
                (start - chord * t.clamp(0.0, 1.0)).norm()
            }
            Some((centre, radius)) => {
                // Inside the wedge when the foot on the circle sees the chord under the arc's angle, on its side.
                let ray = point - centre;
                let reach = ray.norm();
                let foot = centre + ray * (radius / reach.max(f64::MIN_POSITIVE));
                if chord.perp(&(foot - self.from)) * self.bulge <= 0.0 {
                    (reach - radius).abs()
                } else {
                    start.norm().min((point - self.to).norm())
                }
            }
        }
    }
}

impl Segment {
    /// Distance of a point from the segment that starts at `from`, mm: by closed forms for lines and arcs, from all roots for cubics
    /// (see [`BSpline::closest`]). NaN where a number of the segment is none.
    pub fn distance(&self, from: Point, point: Point) -> f64 {
        match *self {
            Self::Line { .. } | Self::Arc { .. } => Placed::new(from, self).distance(point),
            Self::Cubic { c1, c2, to } => KnotVector::clamped(3, 0.0, &[], 1.0)
                .and_then(|knots| BSpline::new(knots, vec![from, c1, c2, to]))
                .map_or(f64::NAN, |cubic| cubic.closest(point).distance),
        }
    }
}

impl Path {
    /// Distance of a point from the nearest segment, mm; infinite for a path without segments.
    pub fn distance(&self, point: Point) -> f64 {
        self.pieces()
            .map(|(from, segment)| segment.distance(from, point))
            .fold(f64::INFINITY, f64::min)
    }
}
