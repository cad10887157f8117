//! Roots of functions that change sign.

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
