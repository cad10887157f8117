//! Newton's method for systems, and the step lengths it is safeguarded by.

use super::Iteration;
use nalgebra::SVector;

/// The first of the shares 1, ½, ¼ … of a step that `accepts`, `most` tried; `None` if none serves (backtracking: Armijo, *Minimization of functions
/// having Lipschitz continuous first partial derivatives*, Pacific J. Math. 16, 1966).
pub fn backtrack(most: usize, mut accepts: impl FnMut(f64) -> bool) -> Option<f64> {
    let mut share = 1.0;
    for _ in 0..most {
        if accepts(share) {
            return Some(share);
        }
        share /= 2.0;
    }
    None
}

/// Halvings of a step that gains nothing.
const HALVINGS: usize = 30;

/// A root of a system near `start`, until the residual's length is below `accuracy`, in `most` steps at most.
///
/// `f` gives the residual's length and Newton's step at a value, or `None` where there is no step to take, which ends the iteration without convergence; `size` the residual's length at a value that is tried, infinite
/// where that is not allowed. Damped Newton: a step is halved until the residual gets shorter (Dennis & Schnabel, *Numerical Methods for
/// Unconstrained Optimization and Nonlinear Equations*, 1983, section 6.3). Where rounding leaves nothing to gain the iteration ends; its `change` is
/// the residual's length there, and whether that will do is for the caller to say.
pub fn newton<const N: usize>(
    start: SVector<f64, N>,
    accuracy: f64,
    most: usize,
    mut f: impl FnMut(&SVector<f64, N>) -> Option<(f64, SVector<f64, N>)>,
    mut size: impl FnMut(&SVector<f64, N>) -> f64,
) -> Iteration<SVector<f64, N>> {
    let mut value = start;
    let mut evaluations = 0;
    let mut length = f64::INFINITY;
    while evaluations < most {
        let Some((residual, step)) = f(&value) else {
            length = f64::INFINITY;
            break;
        };
        evaluations += 1;
        length = residual;
        if length < accuracy {
            break;
        }
        let shorter = |share: f64| size(&(value + step * share)) < length;
        let Some(share) = backtrack(HALVINGS, shorter) else {
            break;
        };
        value += step * share;
    }
    Iteration {
        value,
        evaluations,
        change: length,
        is_converged: length < accuracy,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{Matrix2, Vector2};

    /// Where a circle and a hyperbola meet: x² + y² = 4, x y = 1, so x = √(2 + √3).
    #[test]
    fn a_circle_meets_a_hyperbola() {
        let residual =
            |p: &Vector2<f64>| Vector2::new(p.x * p.x + p.y * p.y - 4.0, p.x * p.y - 1.0);
        let f = |p: &Vector2<f64>| {
            let slope = Matrix2::new(2.0 * p.x, 2.0 * p.y, p.y, p.x);
            let r = residual(p);
            Some((r.norm(), -(slope.try_inverse()? * r)))
        };
        let found = newton(Vector2::new(3.0, 0.1), 1e-13, 40, f, |p| residual(p).norm());
        assert!(found.is_converged, "{found:?}");
        let x = (2.0 + 3.0_f64.sqrt()).sqrt();
        assert!((found.value - Vector2::new(x, 1.0 / x)).norm() < 1e-12);
    }

    /// atan from afar: undamped steps run away, damped ones do not. Without a root the report says so.
    #[test]
    fn a_step_too_long_is_shortened_and_no_root_is_no_convergence() {
        type One = SVector<f64, 1>;
        let f = |p: &One| Some((p.x.atan().abs(), One::new(-p.x.atan() * (1.0 + p.x * p.x))));
        let found = newton(One::new(20.0), 1e-14, 60, f, |p| p.x.atan().abs());
        assert!(found.is_converged && found.value.x.abs() < 1e-14);
        let f = |p: &One| Some((p.x * p.x + 1.0, One::new(-(p.x * p.x + 1.0) / (2.0 * p.x))));
        let none = newton(One::new(1.0), 1e-9, 60, f, |p| p.x * p.x + 1.0);
        assert!(!none.is_converged && none.change >= 1.0);
    }
}
