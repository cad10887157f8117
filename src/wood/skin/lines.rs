//! Lines of the board drawn on the flat skin.

use super::Skin;
use crate::geometry::curve::{Vector, polyline};

/// Steps, mm, of lines mapped to the flat.
const STEP: f64 = 6.0;

impl Skin {
    /// The starboard half of the flat panel's contour, overhang included, from the tail's centreline to the nose's, mm. It spans a
    /// cleft, which is cut when the board is together.
    pub fn contour(&self) -> Vec<Vector<2>> {
        self.map(&self.plan.contour(self.ends[0], self.ends[1], STEP))
    }

    /// The finished outline, to which the panel is trimmed once it is on; starboard, tail to nose, mm.
    pub fn trim_line(&self) -> Vec<Vector<2>> {
        self.map(&self.plan.outline)
    }

    /// The cleft's edge from its tip to its root; empty without a cleft.
    pub fn cleft_line(&self) -> Vec<Vector<2>> {
        self.map(&self.plan.cleft)
    }

    /// The starboard land line, where the skin stops following the surface, from tail to nose, mm; only where the skin reaches past it
    /// and follows the surface.
    pub fn land_line(&self) -> Vec<Vector<2>> {
        let inside = |(x, y): (&f64, &f64)| {
            let followed = *x >= self.follows[0] && *x <= self.follows[1];
            (followed && *y > 0.0 && *y < self.plan.half_width(*x))
                .then(|| Vector::<2>::new(*x, *y))
        };
        let plan: Vec<Vector<2>> = self
            .rows
            .iter()
            .zip(&self.lands)
            .filter_map(inside)
            .collect();
        self.map(&plan)
    }

    /// The line in the plane of constant `x` across the finished panel from port to starboard, mm; empty past its ends.
    pub fn station_line(&self, x: f64) -> Vec<Vector<2>> {
        let half = self.plan.finished(x);
        if half <= 0.0 {
            return Vec::new();
        }
        let count = (2.0 * half / STEP).ceil().max(2.0) as usize;
        let plan: Vec<Vector<2>> = (0..=count)
            .map(|k| Vector::<2>::new(x, half * (2.0 * k as f64 / count as f64 - 1.0)))
            .collect();
        self.map(&plan)
    }

    /// The centreline's ends in the flat, mm along it.
    pub fn centre_line(&self) -> [f64; 2] {
        let middle = self.columns / 2;
        let last = self.flat.len().saturating_sub(self.columns);
        [self.flat[middle].x, self.flat[last + middle].x]
    }

    fn map(&self, plan: &[Vector<2>]) -> Vec<Vector<2>> {
        plan.iter().filter_map(|p| self.flat_of(p.x, p.y)).collect()
    }
}

/// Half-width of a half contour, given tail to nose, at `x`.
pub(super) fn half_width_at(contour: &[Vector<2>], x: f64) -> f64 {
    polyline::heights(contour, x).fold(0.0, f64::max)
}
