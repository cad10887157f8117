//! Fixed points, with a report of how the iteration went.

/// What an iteration came to. A caller decides what an iteration that did not converge means; [`converged`](Self::converged) gives its value to
/// those that can do nothing with such.
#[derive(Debug, Clone, Copy, PartialEq)]
#[must_use]
#[non_exhaustive]
pub struct Iteration<T> {
    /// The last value.
    pub value: T,
    /// How often the function was evaluated.
    pub evaluations: usize,
    /// The last change, in the value's unit; for [`newton`](super::newton) the size of the residual.
    pub change: f64,
    /// Whether that is within the accuracy.
    pub is_converged: bool,
}

impl<T> Iteration<T> {
    /// The value, if the iteration converged.
    pub fn converged(self) -> Option<T> {
        self.is_converged.then_some(self.value)
    }
}

/// A fixed point of `f` near `start`, until f(x) lies within `accuracy` of x, in `most` evaluations at most.
///
/// Steffensen's method (J. F. Steffensen, *Remarks on iteration*, Skandinavisk Aktuarietidskrift 16, 1933): after every two plain steps Aitken's
/// Δ² extrapolates to where a geometric sequence would end; of second order where the slope of `f` at the fixed point is not 1, also where
/// that is beyond ±1 and plain iteration runs away. An extrapolation that is not finite, or lies farther off than 100 of the steps it comes from, is
/// left out and the plain step kept. A value that is not finite ends the iteration, not converged.
pub fn fixed_point(
    start: f64,
    accuracy: f64,
    most: usize,
    mut f: impl FnMut(f64) -> f64,
) -> Iteration<f64> {
    const FARTHEST: f64 = 100.0;
    let mut evaluations = 0;
    let mut x = start;
    let mut change = f64::INFINITY;
    // The value and the step before the last plain one.
    let mut before: Option<(f64, f64)> = None;
    while evaluations < most {
        let step = f(x) - x;
        evaluations += 1;
        change = step.abs();
        if change <= accuracy || !change.is_finite() {
            x += step;
            break;
        }
        before = match before {
            None => {
                let first = (x, step);
                x += step;
                Some(first)
            }
            Some((origin, first)) => {
                let leap = first * first / (first - step);
                let near = leap.abs() <= FARTHEST * first.abs().max(change);
                // NaN is not near.
                x = if near { origin + leap } else { x + step };
                None
            }
        };
    }
    Iteration {
        value: x,
        evaluations,
        change,
        is_converged: change <= accuracy,
    }
}

#[cfg(test)]
mod tests {
    use super::fixed_point;

    /// The Dottie number: cos x = x.
    #[test]
    fn a_fixed_point_is_found_in_few_evaluations() {
        let found = fixed_point(1.0, 1e-12, 40, f64::cos);
        assert!(found.is_converged && found.change <= 1e-12);
        assert!((found.value - 0.739_085_133_215_160_6).abs() < 1e-12);
        // Plain iteration contracts by 0.67 a step and takes 70.
        assert!(found.evaluations <= 12, "{}", found.evaluations);
    }

    /// Slope −3: plain iteration runs away.
    #[test]
    fn a_function_that_does_not_contract_has_its_fixed_point_too() {
        let found = fixed_point(0.0, 1e-12, 40, |x| 8.0 - 3.0 * x);
        assert_eq!(found.converged(), Some(2.0));
    }

    #[test]
    fn what_does_not_converge_says_so() {
        let away = fixed_point(0.0, 1e-9, 25, |x| x + 1.0);
        assert!(!away.is_converged && away.evaluations == 25 && away.change == 1.0);
        assert_eq!(away.converged(), None);
        let none = fixed_point(0.0, 1e-9, 25, |_| f64::NAN);
        assert!(!none.is_converged && none.evaluations == 1);
    }
}
