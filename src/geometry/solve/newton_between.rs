//! Newton's method for a function that rises between two places.

use super::Iteration;

/// The root of an `f` that rises from below zero at `a` to above at `b`, to rounding.
///
/// `f` gives the value and the derivative. Newton's method from the middle inside a bracket that shrinks with every value, bisection where it would leave
/// that (Press et al., *Numerical Recipes*, section 9.4), until a step is below 1e-15 of the place, 100 evaluations at most. It ends on a step, not on a
/// bracket, and so takes fewer evaluations than [`root`](super::root), which holds the root within a distance that is asked for.
pub fn newton_between(a: f64, b: f64, mut f: impl FnMut(f64) -> (f64, f64)) -> Iteration<f64> {
    const MOST: usize = 100;
    let [mut a, mut b] = [a, b];
    let mut found = Iteration {
        value: (a + b) / 2.0,
        evaluations: 0,
        change: f64::INFINITY,
        is_converged: false,
    };
    while found.evaluations < MOST && !found.is_converged {
        let at = found.value;
        let (value, slope) = f(at);
        if value > 0.0 {
            b = at;
        } else {
            a = at;
        }
        let step = at - value / slope;
        // At the root itself the step ends on the bracket's own end.
        found.value = if step >= a && step <= b {
            step
        } else {
            (a + b) / 2.0
        };
        found.change = (found.value - at).abs();
        found.is_converged = found.change <= 1e-15 * (1.0 + at.abs());
        found.evaluations += 1;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::newton_between;

    #[test]
    fn a_cube_root_is_found_to_rounding_in_few_evaluations() {
        let found = newton_between(0.0, 10.0, |x| (x * x * x - 20.0, 3.0 * x * x));
        assert!(found.is_converged && (found.value - 20.0_f64.cbrt()).abs() < 4e-15);
        assert!(found.evaluations <= 9, "{}", found.evaluations);
    }

    /// A slope that lies sends every step out of the bracket: halving takes over.
    #[test]
    fn a_wrong_slope_costs_time_alone() {
        let found = newton_between(0.0, 8.0, |x| (x - 0.3, 1e-3));
        assert!(found.is_converged && (found.value - 0.3).abs() < 1e-14);
    }
}
