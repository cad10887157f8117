//! Roots of functions, and where a curve crosses a plane square to an axis.

use super::{BSpline, bernstein};

/// A root of `f` between `a` and `b`, within `epsilon` of a true change of sign.
///
/// `f` gives the value and the derivative. The values at `a` and `b` must not have the same sign, else the answer is `None`.
/// Newton's method inside a bracket that never grows, bisection where Newton leaves it or slows down (Press et al.,
/// *Numerical Recipes*, section 9.4). A wrong derivative costs time, not correctness. At most 200 evaluations; the
/// bracket also stops shrinking at the resolution of `f64`.
pub fn root(mut f: impl FnMut(f64) -> (f64, f64), a: f64, b: f64, epsilon: f64) -> Option<f64> {
    let (mut lo, mut hi) = (a.min(b), a.max(b));
    let (at_lo, at_hi) = (f(lo).0, f(hi).0);
    if at_lo == 0.0 {
        return Some(lo);
    }
    if at_hi == 0.0 {
        return Some(hi);
    }
    if at_lo.is_nan() || at_hi.is_nan() || at_lo.signum() == at_hi.signum() {
        return None;
    }
    // Secant start: exact for straight functions.
    let mut x = lo + (hi - lo) * (at_lo / (at_lo - at_hi));
    let mut width = hi - lo;
    for _ in 0..200 {
        if !(x > lo && x < hi) {
            x = 0.5 * (lo + hi);
        }
        let (value, slope) = f(x);
        if value == 0.0 {
            return Some(x);
        }
        if value.signum() == at_lo.signum() {
            lo = x;
        } else {
            hi = x;
        }
        if hi - lo <= epsilon || hi - lo <= 2.0 * f64::EPSILON * lo.abs().max(hi.abs()) {
            return Some(if (x - lo).abs() < (x - hi).abs() {
                lo
            } else {
                hi
            });
        }
        let step = -value / slope;
        // Newton comes from one side; a step a little too long closes the bracket from the other.
        let reach = step.abs().max(0.5 * epsilon);
        let next = x + step.signum()
            * if step.abs() < 4.0 * epsilon {
                reach * 1.5
            } else {
                reach
            };
        x = if next.is_finite() && step.abs() < 0.5 * width {
            next
        } else {
            0.5 * (lo + hi)
        };
        width = step.abs().min(hi - lo);
    }
    Some(0.5 * (lo + hi))
}

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
