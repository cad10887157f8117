//! Exact bounding boxes: extrema of arcs and cubics included.

use super::segment::ours;
use super::{Path, Point, Primitive, Segment};

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
    /// The box of the segment that starts at `from`: its ends, exact as the path has them, and lyon's extrema between them.
    pub fn bounds(&self, from: Point) -> Bounds {
        let mut bounds = Bounds::of_point(from).including(self.to());
        match self.primitive(from) {
            Primitive::Line(_) => {}
            Primitive::Arc(arc) => {
                let mut include = |t| bounds = bounds.including(ours(arc.sample(t)));
                arc.for_each_local_x_extremum_t(&mut include);
                arc.for_each_local_y_extremum_t(&mut include);
            }
            Primitive::Cubic(cubic) => {
                let around = cubic.bounding_box();
                bounds = bounds
                    .including(ours(around.min))
                    .including(ours(around.max));
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
        close(arch.bounds(Point::zeros()).max.y, 3.0);
    }
}
