//! One segment seen from its start point: as a primitive of `lyon_geom`, reversed, a point of it.

use super::{Point, Segment, arc};
use lyon_geom::{Angle, Arc, CubicBezierSegment, LineSegment};

/// Bulges smaller than this are straight: over 10 m the rise is below 1e-8 mm.
const STRAIGHT_BULGE: f64 = 1e-12;

/// A segment with its start, as the primitive that `lyon_geom` evaluates, splits and bounds.
///
/// Paths store end points alone, so that no gap can open between a segment and the next, and arcs by their bulge, which DXF writes and which
/// keeps both ends exact; an arc's centre form is made where it is needed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Primitive {
    /// A straight line, or an arc that rises less than 1e-8 mm over 10 m.
    Line(LineSegment<f64>),
    /// A circular arc: both radii are equal, and nothing is turned. Its ends are those of the segment within the rounding of its radius.
    Arc(Arc<f64>),
    /// A cubic Bézier.
    Cubic(CubicBezierSegment<f64>),
}

impl Segment {
    /// An arc, or a line where `bulge` is 0.
    pub fn curved(to: Point, bulge: f64) -> Self {
        if bulge == 0.0 {
            Self::Line { to }
        } else {
            Self::Arc { to, bulge }
        }
    }

    /// The end point.
    pub fn to(&self) -> Point {
        match *self {
            Self::Line { to } | Self::Arc { to, .. } | Self::Cubic { to, .. } => to,
        }
    }

    /// Moves the end point alone.
    pub(super) fn end_at(&mut self, place: Point) {
        match self {
            Self::Line { to } | Self::Arc { to, .. } | Self::Cubic { to, .. } => *to = place,
        }
    }

    /// tan of a quarter of an arc's included angle; 0 for a line and for a cubic, which have none.
    pub fn bulge(&self) -> f64 {
        match *self {
            Self::Arc { bulge, .. } => bulge,
            Self::Line { .. } | Self::Cubic { .. } => 0.0,
        }
    }

    /// The segment from `from` as a primitive of `lyon_geom`.
    pub fn primitive(&self, from: Point) -> Primitive {
        let (start, end) = (lyon(from), lyon(self.to()));
        match *self {
            Self::Arc { to, bulge } if bulge.abs() >= STRAIGHT_BULGE => {
                let d = to - from;
                let rise = (1.0 - bulge * bulge) / (4.0 * bulge);
                let center = lyon_geom::point(
                    (from.x + to.x) / 2.0 - d.y * rise,
                    (from.y + to.y) / 2.0 + d.x * rise,
                );
                let radius = d.norm() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
                Primitive::Arc(Arc {
                    center,
                    radii: lyon_geom::vector(radius, radius),
                    start_angle: Angle::radians((from.y - center.y).atan2(from.x - center.x)),
                    sweep_angle: Angle::radians(4.0 * bulge.atan()),
                    x_rotation: Angle::zero(),
                })
            }
            Self::Line { .. } | Self::Arc { .. } => Primitive::Line(LineSegment {
                from: start,
                to: end,
            }),
            Self::Cubic { c1, c2, .. } => Primitive::Cubic(CubicBezierSegment {
                from: start,
                ctrl1: lyon(c1),
                ctrl2: lyon(c2),
                to: end,
            }),
        }
    }

    /// Centre and radius of an arc from `from`; `None` for lines, cubics and arcs without length.
    pub fn circle(&self, from: Point) -> Option<(Point, f64)> {
        match *self {
            Self::Arc { to, bulge } => arc::circle(from, to, bulge),
            Self::Line { .. } | Self::Cubic { .. } => None,
        }
    }

    /// The point at a share (0 to 1) of the length of a line or an arc, or of the parameter of a cubic, from `from`.
    pub fn point(&self, from: Point, share: f64) -> Point {
        match *self {
            Self::Line { to } => from + (to - from) * share,
            Self::Arc { to, bulge } => arc::point(from, to, bulge, share),
            Self::Cubic { .. } => match self.primitive(from) {
                Primitive::Cubic(cubic) => ours(cubic.sample(share)),
                Primitive::Line(_) | Primitive::Arc(_) => self.to(),
            },
        }
    }

    /// The same segment travelled from its end back to `from`, its start.
    pub fn reversed(&self, from: Point) -> Self {
        match *self {
            Self::Line { .. } => Self::Line { to: from },
            Self::Arc { bulge, .. } => Self::Arc {
                to: from,
                bulge: -bulge,
            },
            Self::Cubic { c1, c2, .. } => Self::Cubic {
                c1: c2,
                c2: c1,
                to: from,
            },
        }
    }

    /// Whether every number in it is finite.
    pub(crate) fn is_finite(&self) -> bool {
        let finite = |p: Point| p.x.is_finite() && p.y.is_finite();
        match *self {
            Self::Line { to } => finite(to),
            Self::Arc { to, bulge } => finite(to) && bulge.is_finite(),
            Self::Cubic { c1, c2, to } => finite(c1) && finite(c2) && finite(to),
        }
    }

    /// Whether it goes nowhere: no point of it is farther than `grain` from `from`. An arc whose ends
    /// coincide has no defined centre and counts too.
    pub(crate) fn is_empty(&self, from: Point, grain: f64) -> bool {
        let near = |p: Point| (p - from).norm() < grain;
        match *self {
            Self::Line { to } | Self::Arc { to, .. } => near(to),
            Self::Cubic { c1, c2, to } => near(c1) && near(c2) && near(to),
        }
    }
}

/// A point as lyon holds it.
fn lyon(p: Point) -> lyon_geom::Point<f64> {
    lyon_geom::point(p.x, p.y)
}

/// A point of lyon's as ours.
pub(super) fn ours(p: lyon_geom::Point<f64>) -> Point {
    Point::new(p.x, p.y)
}
