//! The corner that a few points of a contour stand for, between the edges on either side of them.

use crate::geometry::curve::Vector;

/// How much wood, mm, a corner may add where its points have none, which may be another part's: less than the dense lines of the contour are off
/// themselves.
pub(super) const ADDED: f64 = 5e-4;

/// Where two edges of a contour meet, prolonged; the part lies to their left.
pub(super) struct Corner {
    ends: [Vector<2>; 2],
    /// Directions of the edge to it and of the one from it, unit.
    pub edges: [Vector<2>; 2],
    /// Where they meet.
    pub at: Vector<2>,
}

impl Corner {
    /// Of the edge from `a` to the first of the points and of the one from the last of them to `b`; `None` where an edge has no length.
    pub fn new(a: Vector<2>, points: &[Vector<2>], b: Vector<2>) -> Option<Self> {
        let (&p, &q) = (points.first()?, points.last()?);
        let (d, e) = ((p - a).try_normalize(0.0)?, (b - q).try_normalize(0.0)?);
        Some(Self {
            ends: [a, q],
            edges: [d, e],
            at: a + d * ((q - a).perp(&e) / d.perp(&e)),
        })
    }

    /// How far a point lies to the left of either edge, mm.
    fn sides(&self, point: &Vector<2>) -> [f64; 2] {
        [0, 1].map(|i| self.edges[i].perp(&(point - self.ends[i])))
    }

    /// Distance, mm, of a point from the nearer of the edges' lines.
    pub fn off(&self, point: &Vector<2>) -> f64 {
        let [first, second] = self.sides(point);
        first.abs().min(second.abs())
    }

    /// How far a point lies in the corner's wood, mm, negative outside: inside both edges at an outside corner, inside one at an inside corner.
    pub fn inside(&self, point: &Vector<2>) -> f64 {
        let [first, second] = self.sides(point);
        let [d, e] = &self.edges;
        if d.perp(e) < 0.0 {
            first.max(second)
        } else {
            first.min(second)
        }
    }
}
