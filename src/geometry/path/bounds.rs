//! Exact bounding boxes: extrema of arcs and cubics included.

use super::segment::{CentreArc, lyon_cubic};
use super::{Path, Point, Segment};
use std::f64::consts::FRAC_PI_2;

/// An upright box, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Lower left corner.
    pub min: Point,
    /// Upper right corner.
    pub max: Point,
}

impl Bounds {
    /// The box of one point.
    pub fn of_point(point: Point) -> Self {
        Self {
            min: point,
            max: point,
        }
    }

    /// The smallest box that holds both.
    pub fn union(self, other: Self) -> Self {
        Self {
            min: Point::new(self.min.x.min(other.min.x), self.min.y.min(other.min.y)),
            max: Point::new(self.max.x.max(other.max.x), self.max.y.max(other.max.y)),
        }
    }

    /// The box grown to hold `point`.
    pub fn including(self, point: Point) -> Self {
        self.union(Self::of_point(point))
    }

    /// Width, mm.
    pub fn width(&self) -> f64 {
        self.max.x - self.min.x
    }

    /// Height, mm.
    pub fn height(&self) -> f64 {
        self.max.y - self.min.y
    }
}

impl Segment {
    /// The box of the segment that starts at `from`.
    pub fn bounds(&self, from: Point) -> Bounds {
        let mut bounds = Bounds::of_point(from).including(self.to());
        match *self {
            Self::Line { .. } => {}
            Self::Arc { to, bulge } => {
                if let Some(arc) = CentreArc::new(from, to, bulge) {
                    for quarter in 0..4 {
                        let angle = FRAC_PI_2 * f64::from(quarter);
                        if arc.passes(angle) {
                            bounds = bounds.including(arc.at_angle(angle));
                        }
                    }
                }
            }
            Self::Cubic { c1, c2, to } => {
                let cubic = lyon_cubic(from, c1, c2, to);
                let (x, y) = (cubic.bounding_range_x(), cubic.bounding_range_y());
                bounds = bounds
                    .including(Point::new(x.0, y.0))
                    .including(Point::new(x.1, y.1));
            }
        }
        bounds
    }
}

impl Path {
    /// The exact box of the path.
    pub fn bounds(&self) -> Bounds {
        self.pieces()
            .fold(Bounds::of_point(self.start), |bounds, (from, segment)| {
                bounds.union(segment.bounds(from))
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-9, "{a} is not {b}");
    }

    #[test]
    fn a_circle_reaches_its_radius_on_every_side() {
        let bounds = Path::circle(Point::new(3.0, -2.0), 7.0).bounds();
        close(bounds.min.x, -4.0);
        close(bounds.max.x, 10.0);
        close(bounds.min.y, -9.0);
        close(bounds.max.y, 5.0);
    }

    #[test]
    fn a_clockwise_quarter_stops_at_its_ends() {
        let arc = Segment::Arc {
            to: Point::new(1.0, 0.0),
            bulge: -(std::f64::consts::PI / 8.0).tan(),
        };
        let bounds = arc.bounds(Point::new(0.0, 1.0));
        close(bounds.max.x, 1.0);
        close(bounds.max.y, 1.0);
        close(bounds.min.x, 0.0);
        close(bounds.min.y, 0.0);
    }

    #[test]
    fn a_cubic_reaches_its_extremum_not_its_control_points() {
        let arch = Segment::Cubic {
            c1: Point::new(0.0, 4.0),
            c2: Point::new(10.0, 4.0),
            to: Point::new(10.0, 0.0),
        };
        close(arch.bounds(Point::origin()).max.y, 3.0);
    }
}
