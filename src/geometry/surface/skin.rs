//! Skinning: a patch through rows of points at shared parameters.

use super::Patch;
use crate::geometry::curve::{Collocation, CurveError, KnotVector, Vector};

/// A patch whose across-curves at `rows[i].0` have the control points `rows[i].1` over `v`.
///
/// Every control column is interpolated over one shared knot vector (*The NURBS Book*, section 10.3, with compatible
/// sections by construction): cubic, knots at the rows, not-a-knot ends (de Boor, *A Practical Guide to Splines*,
/// ch. IV). Three rows give degree 2, two degree 1. The rows are met to rounding; between them the error falls with
/// the fourth power of their spacing where the family is smooth.
pub fn skin(v: &KnotVector, rows: &[(f64, Vec<Vector<3>>)]) -> Result<Patch, CurveError> {
    let n = rows.len();
    if n < 2 {
        return Err(CurveError::TooFew { got: n, need: 2 });
    }
    if let Some(index) = rows.windows(2).position(|w| w[1].0 <= w[0].0) {
        return Err(CurveError::Coincident(index + 1));
    }
    let degree = 3.min(n - 1);
    let t: Vec<f64> = rows.iter().map(|r| r.0).collect();
    let inner = if n > 4 { &t[2..n - 2] } else { &[] };
    let knots = KnotVector::clamped(degree, t[0], inner, t[n - 1])?;
    let sites: Vec<(f64, usize)> = t.iter().map(|&t| (t, 0)).collect();
    let conditions = Collocation::new(knots.clone(), &sites)?;
    let columns = v.count();
    let mut net = vec![Vector::zeros(); n * columns];
    for j in 0..columns {
        let values: Result<Vec<_>, _> = rows
            .iter()
            .map(|(_, row)| {
                row.get(j).copied().ok_or(CurveError::TooFew {
                    got: row.len(),
                    need: columns,
                })
            })
            .collect();
        let column = conditions.solve::<3>(values?)?;
        for (i, p) in column.points().iter().enumerate() {
            net[i * columns + j] = *p;
        }
    }
    Patch::new(knots, v.clone(), net)
}
