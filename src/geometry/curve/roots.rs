//! Where a curve crosses a plane square to an axis.

use super::{BSpline, bernstein};

impl<const D: usize> BSpline<D> {
    /// All parameters, rising, at which a coordinate takes the value `c` (mm).
    ///
    /// Every crossing and every touch is found, from the sign changes of the spans' Bernstein coefficients. The error of a
    /// crossing is that of rounding: about 1e-14 times the largest coordinate, divided by the coordinate's slope. Two
    /// crossings less than 1e-6 of a span apart with nothing but rounding between count as one touch. Where the coordinate
    /// rests at `c`, the two ends of every resting span are given. An axis that does not exist gives nothing.
    pub fn crossings(&self, axis: usize, c: f64) -> Vec<f64> {
        if axis >= D {
            return Vec::new();
        }
        let size = self
            .points()
            .iter()
            .fold(c.abs(), |m, p| m.max(p[axis].abs()));
        self.span_roots(4.0 * f64::EPSILON * size, |points| {
            points.iter().map(|p| p[axis] - c).collect()
        })
    }

    /// Roots over all spans of the polynomial that `build` makes of a span's Bézier points.
    pub(super) fn span_roots(
        &self,
        zero: f64,
        build: impl Fn(&[super::Vector<D>]) -> Vec<f64>,
    ) -> Vec<f64> {
        let mut found: Vec<f64> = Vec::new();
        for piece in self.beziers() {
            let (start, end) = (piece.start, piece.end);
            for t in bernstein::roots(&build(&piece.points), zero) {
                let u = if t == 1.0 {
                    end
                } else {
                    start + t * (end - start)
                };
                // A root at a knot belongs to both spans.
                if found
                    .last()
                    .is_none_or(|&last| u - last > 1e-9 * (end - start))
                {
                    found.push(u);
                }
            }
        }
        found
    }

    /// As [`span_roots`](Self::span_roots), counting as 0 what is below 1e-12 of a span's largest coefficient.
    pub(super) fn span_roots_scaled(
        &self,
        build: impl Fn(&[super::Vector<D>]) -> Vec<f64>,
    ) -> Vec<f64> {
        self.span_roots(0.0, |points| {
            let mut c = build(points);
            let largest = c.iter().fold(0.0, |m: f64, v| m.max(v.abs()));
            for v in c.iter_mut().filter(|v| v.abs() <= 1e-12 * largest) {
                *v = 0.0;
            }
            c
        })
    }
}
