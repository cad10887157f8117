//! One segment seen from its start point: reversal and the circle behind a bulge.

use super::{Point, Segment};
use std::f64::consts::TAU;

/// Bulges smaller than this are straight: over 10 m the rise is below 1e-8 mm.
pub(crate) const STRAIGHT_BULGE: f64 = 1e-12;

/// A circular arc in centre form.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CentreArc {
    pub centre: Point,
    pub radius: f64,
    pub start_angle: f64,
    /// Signed, counter-clockwise positive.
    pub sweep: f64,
}

impl CentreArc {
    /// The centre form of the arc from `from` to `to`; `None` when it is straight.
    pub fn new(from: Point, to: Point, bulge: f64) -> Option<Self> {
        if bulge.abs() < STRAIGHT_BULGE {
            return None;
        }
        let d = to - from;
        let rise = (1.0 - bulge * bulge) / (4.0 * bulge);
        let centre = Point::new(
            (from.x + to.x) / 2.0 - d.y * rise,
            (from.y + to.y) / 2.0 + d.x * rise,
        );
        Some(Self {
            centre,
            radius: d.norm() * (1.0 + bulge * bulge) / (4.0 * bulge.abs()),
            start_angle: (from.y - centre.y).atan2(from.x - centre.x),
            sweep: 4.0 * bulge.atan(),
        })
    }

    /// The point at a fraction of the sweep.
    pub fn at(&self, fraction: f64) -> Point {
        self.at_angle(self.start_angle + self.sweep * fraction)
    }

    pub fn at_angle(&self, angle: f64) -> Point {
        let (sin, cos) = angle.sin_cos();
        Point::new(
            self.centre.x + self.radius * cos,
            self.centre.y + self.radius * sin,
        )
    }

    /// Whether the sweep passes `angle`.
    pub fn passes(&self, angle: f64) -> bool {
        let turn = if self.sweep >= 0.0 {
            (angle - self.start_angle).rem_euclid(TAU)
        } else {
            (self.start_angle - angle).rem_euclid(TAU)
        };
        turn <= self.sweep.abs()
    }
}

impl Segment {
    /// The end point.
    pub fn to(&self) -> Point {
        match *self {
            Self::Line { to } | Self::Arc { to, .. } | Self::Cubic { to, .. } => to,
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

/// The cubic as lyon holds it.
pub(crate) fn lyon_cubic(
    from: Point,
    c1: Point,
    c2: Point,
    to: Point,
) -> lyon_geom::CubicBezierSegment<f64> {
    let point = |p: Point| lyon_geom::point(p.x, p.y);
    lyon_geom::CubicBezierSegment {
        from: point(from),
        ctrl1: point(c1),
        ctrl2: point(c2),
        to: point(to),
    }
}
