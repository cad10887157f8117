//! Smooth paths over the board's length, as stiff wood runs them.

use nalgebra::{DMatrix, DVector};

use super::constants::{EDGE_ROUNDS, EDGE_STIFFNESS, FEWEST_PLANES};
use crate::geometry::curve::{BSpline, Vector, graph};

/// A smooth path outside of all `required`, and not far outside: what it is short of somewhere is added to what is required there, until
/// little is missing. `step` is the distance of the `x`, mm.
pub(super) fn outside(x: &[f64], required: &[Option<f64>], step: f64) -> Option<BSpline<1>> {
    let mut targets: Vec<Option<(f64, f64)>> =
        required.iter().map(|y| y.map(|y| (y, 1.0))).collect();
    let mut path = smooth(x, &targets, step, EDGE_STIFFNESS)?;
    for _ in 0..EDGE_ROUNDS {
        for ((x, required), target) in x.iter().zip(required).zip(&mut targets) {
            if let (Some(required), Some((y, _))) = (required, target) {
                *y += (required - path.point(*x).x).max(0.0);
            }
        }
        path = smooth(x, &targets, step, EDGE_STIFFNESS)?;
    }
    Some(path)
}

/// A spline over `x`, `step` mm apart, near the target values, each counting by its weight; `None` where there are too few.
///
/// Minimises Σ w (θ − θ*)² h + S⁴ ∫ θ″² dx, S the `stiffness` in mm, with second differences for θ″ (Whittaker, *On a new method of
/// graduation*, 1923), which goes on straight where there is no target.
pub(super) fn smooth(
    x: &[f64],
    targets: &[Option<(f64, f64)>],
    step: f64,
    stiffness: f64,
) -> Option<BSpline<1>> {
    let n = x.len();
    let weighty = targets.iter().flatten().filter(|w| w.1 > 0.0).count();
    if weighty < FEWEST_PLANES || n < 6 {
        return None;
    }
    let mut matrix = DMatrix::<f64>::zeros(n, n);
    let mut right = DVector::<f64>::zeros(n);
    for (i, (target, weight)) in targets
        .iter()
        .enumerate()
        .filter_map(|(i, w)| Some((i, (*w)?)))
    {
        matrix[(i, i)] += weight;
        right[i] += weight * target;
    }
    let stiff = (stiffness / step).powi(4);
    for i in 1..n - 1 {
        let row = [(i - 1, 1.0), (i, -2.0), (i + 1, 1.0)];
        for (a, p) in row {
            for (b, q) in row {
                matrix[(a, b)] += stiff * p * q;
            }
        }
    }
    let values = matrix.cholesky()?.solve(&right);
    let points = values.iter().map(|v| Vector::<1>::new(*v)).collect();
    graph(x, points).ok()
}
