//! The plane square to a strip, seen from a plane of constant x.

use crate::geometry::curve::Vector;

/// A strip's own axes where it passes a plane of constant x.
///
/// Lengths across a strip are true in the plane square to it. Points of the plane x = c are carried there along the
/// strip, so a strip of thickness t that crosses the plane at an angle α looks t / cos α thick in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SquareFrame {
    /// Where the axes meet, (y, z) in the plane of constant x, mm.
    pub origin: Vector<2>,
    /// Along the strip, unit, towards the nose.
    pub along: Vector<3>,
    /// Up the strip's width, unit, square to `along`.
    pub up: Vector<3>,
    /// Out through the strip's thickness, unit: `up × along`.
    pub out: Vector<3>,
}

impl SquareFrame {
    /// The frame at `origin` of a strip running `along`, whose width points to `towards` in the plane of constant x.
    pub fn new(origin: Vector<2>, towards: Vector<2>, along: Vector<3>) -> Self {
        let up = square(towards - origin, &along).normalize();
        Self {
            origin,
            along,
            up,
            out: up.cross(&along),
        }
    }

    /// Coordinates (out, up) in mm of a point (y, z) of the plane of constant x.
    pub fn local(&self, point: Vector<2>) -> Vector<2> {
        let d = point - self.origin;
        Vector::<2>::new(
            d.x * self.out.y + d.y * self.out.z,
            d.x * self.up.y + d.y * self.up.z,
        )
    }

    /// The point (y, z) of the plane of constant x at local (out, up).
    pub fn plane(&self, local: Vector<2>) -> Vector<2> {
        let w = self.out * local.x + self.up * local.y;
        let w = w - self.along * (w.x / self.along.x);
        self.origin + Vector::<2>::new(w.y, w.z)
    }
}

/// The part square to `along` of an offset (y, z) in a plane of constant x.
pub(super) fn square(d: Vector<2>, along: &Vector<3>) -> Vector<3> {
    let d = Vector::<3>::new(0.0, d.x, d.y);
    d - along * d.dot(along)
}

/// Length of [`square`].
pub(super) fn square_distance(d: Vector<2>, along: &Vector<3>) -> f64 {
    square(d, along).norm()
}
