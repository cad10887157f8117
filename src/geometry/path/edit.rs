//! Building and editing paths.

use super::{GRAIN, Path, Point, Segment};

impl Path {
    /// A chain of straight lines through `points`. A closed one gets the line back to its start unless the
    /// last point already lies there. No points give an empty path at the origin, which
    /// the check of drawings reports.
    pub fn polyline(points: &[Point], closed: bool) -> Self {
        let start = points.first().copied().unwrap_or_else(Point::zeros);
        let mut segments: Vec<Segment> = points
            .iter()
            .skip(1)
            .map(|&to| Segment::Line { to })
            .collect();
        if let (true, Some(last)) = (closed, segments.last().map(Segment::to)) {
            if (last - start).norm() < GRAIN {
                segments.pop();
            }
            segments.push(Segment::Line { to: start });
        }
        Self {
            start,
            segments,
            closed,
        }
    }

    /// An upright rectangle between two opposite corners; counter-clockwise when `a` is the lower left one.
    pub fn rectangle(a: Point, b: Point) -> Self {
        Self::polyline(&[a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)], true)
    }

    /// A circle of two half arcs, counter-clockwise, starting at its rightmost point.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let right = Point::new(centre.x + radius, centre.y);
        let left = Point::new(centre.x - radius, centre.y);
        Self {
            start: right,
            segments: vec![
                Segment::Arc {
                    to: left,
                    bulge: 1.0,
                },
                Segment::Arc {
                    to: right,
                    bulge: 1.0,
                },
            ],
            closed: true,
        }
    }

    /// Centre and radius, if this is a full circle of two half arcs that turn the same way.
    pub fn as_circle(&self) -> Option<(Point, f64)> {
        let [
            Segment::Arc { to, bulge },
            Segment::Arc {
                to: home,
                bulge: back,
            },
        ] = self.segments[..]
        else {
            return None;
        };
        let half = (bulge.abs() - 1.0).abs() < 1e-9 && bulge == back;
        let round = self.closed && half && (home - self.start).norm() < GRAIN;
        round.then(|| {
            let across = to - self.start;
            (self.start + across / 2.0, across.norm() / 2.0)
        })
    }

    /// The last point.
    pub fn end(&self) -> Point {
        self.segments.last().map_or(self.start, Segment::to)
    }

    /// Whether any segment is a cubic.
    pub fn has_cubics(&self) -> bool {
        let mut segments = self.segments.iter();
        segments.any(|segment| matches!(segment, Segment::Cubic { .. }))
    }

    /// Each segment with the point it starts from.
    pub fn pieces(&self) -> impl Iterator<Item = (Point, &Segment)> + '_ {
        let starts =
            std::iter::once(self.start).chain(self.segments.iter().map(|segment| segment.to()));
        starts.zip(&self.segments)
    }

    /// The same path travelled the other way.
    pub fn reversed(&self) -> Self {
        let mut segments: Vec<Segment> = self
            .pieces()
            .map(|(from, segment)| segment.reversed(from))
            .collect();
        segments.reverse();
        Self {
            start: self.end(),
            segments,
            closed: self.closed,
        }
    }

    /// The path without the segments that go nowhere (every point nearer than [`GRAIN`] to their start).
    /// A closed path still ends exactly on its start.
    pub fn without_empty_segments(&self) -> Self {
        let mut from = self.start;
        let mut segments = Vec::with_capacity(self.segments.len());
        for segment in &self.segments {
            if !segment.is_empty(from, GRAIN) {
                segments.push(*segment);
                from = segment.to();
            }
        }
        if let (true, Some(last)) = (self.closed, segments.last_mut())
            && (last.to() - self.start).norm() < GRAIN
        {
            last.end_at(self.start);
        }
        Self {
            start: self.start,
            segments,
            closed: self.closed,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_closed_polyline_returns_to_its_start_once() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)].map(|(x, y)| Point::new(x, y));
        let open_ended = Path::polyline(&corners, true);
        let mut explicit = corners.to_vec();
        explicit.push(corners[0]);
        assert_eq!(open_ended, Path::polyline(&explicit, true));
        assert_eq!(open_ended.segments.len(), 3);
    }

    #[test]
    fn reversing_twice_gives_the_path_back() {
        let mut path = Path::circle(Point::new(3.0, -2.0), 7.0);
        path.segments.insert(
            1,
            Segment::Cubic {
                c1: Point::new(0.0, 1.0),
                c2: Point::new(2.0, 5.0),
                to: Point::new(-4.0, -2.0),
            },
        );
        assert_eq!(path.reversed().reversed(), path);
        assert_ne!(path.reversed(), path);
    }

    #[test]
    fn empty_segments_go_and_the_rest_stays() {
        let mut path = Path::rectangle(Point::zeros(), Point::new(10.0, 5.0));
        let whole = path.clone();
        path.segments.insert(
            1,
            Segment::Line {
                to: Point::new(10.0, 1e-6),
            },
        );
        path.segments.insert(0, Segment::Line { to: path.start });
        assert_eq!(path.without_empty_segments(), whole);
    }
}
