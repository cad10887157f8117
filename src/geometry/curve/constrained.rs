//! Quadratic forms under linear equalities, by the null-space method.

use nalgebra::{Cholesky, ColPivQR, DMatrix, DVector};

/// Relative size below which a condition counts as a combination of the others.
const RANK: f64 = 1e-9;

/// All solutions `x = x0 + Z y` of the linear conditions `A x = b`, with orthonormal columns in `Z`.
///
/// Golub & Van Loan, *Matrix Computations*, 4th ed., section 6.2; rows are scaled to unit length and `Aᵀ` is factored with
/// column pivoting, so repeated conditions that agree do no harm.
pub(super) struct Affine {
    origin: DVector<f64>,
    basis: DMatrix<f64>,
}

impl Affine {
    /// Solves `rows · x = values`. `Err(i)` names a condition at odds with the others.
    pub(super) fn new(mut rows: DMatrix<f64>, mut values: DVector<f64>) -> Result<Self, usize> {
        let (m, n) = rows.shape();
        for i in 0..m {
            let norm = rows.row(i).norm();
            if norm > 0.0 {
                rows.row_mut(i).unscale_mut(norm);
                values[i] /= norm;
            } else if values[i] != 0.0 {
                return Err(i);
            }
        }
        if m == 0 {
            return Ok(Self {
                origin: DVector::zeros(n),
                basis: DMatrix::identity(n, n),
            });
        }
        let qr = ColPivQR::new(rows.transpose());
        let r = qr.r();
        let mut order = DVector::from_fn(m, |i, _| i);
        qr.p().permute_rows(&mut order);
        let pivot = |i: usize| r[(i, i)].abs();
        let rank = (0..m.min(n))
            .find(|&i| pivot(i) <= RANK * pivot(0))
            .unwrap_or(m.min(n));
        // Row i of the permuted system reads Σₖ r[k, i] yₖ = value.
        let mut y = DVector::zeros(rank);
        let scale = values.amax();
        for i in 0..m {
            let known = i.min(rank);
            let sum: f64 = (0..known).map(|k| r[(k, i)] * y[k]).sum();
            let rest = values[order[i]] - sum;
            if i < rank {
                y[i] = rest / r[(i, i)];
            } else if rest.abs() > RANK * scale {
                return Err(order[i]);
            }
        }
        let mut q_transposed = DMatrix::identity(n, n);
        qr.q_tr_mul(&mut q_transposed);
        Ok(Self {
            origin: q_transposed.rows(0, rank).tr_mul(&y),
            basis: q_transposed.rows(rank, n - rank).transpose(),
        })
    }

    /// The reduced form of `xᵀ H x`, where `apply` multiplies the columns of a matrix by `H`.
    pub(super) fn reduce(&self, apply: impl Fn(&DMatrix<f64>) -> DMatrix<f64>) -> Reduced {
        let n = self.origin.len();
        let origin = DMatrix::from_column_slice(n, 1, self.origin.as_slice());
        Reduced {
            matrix: self.basis.tr_mul(&apply(&self.basis)),
            gradient: self.basis.tr_mul(&apply(&origin)).column(0).into_owned(),
        }
    }

    /// The rows of a linear map of `x`, seen from `y`, and their values at `y = 0`.
    pub(super) fn restrict(&self, rows: &DMatrix<f64>) -> (DMatrix<f64>, DVector<f64>) {
        (rows * &self.basis, rows * &self.origin)
    }

    /// `x` of `y`.
    pub(super) fn lift(&self, y: &DVector<f64>) -> DVector<f64> {
        &self.origin + &self.basis * y
    }
}

/// The quadratic `½ yᵀ M y + gᵀ y` that `½ xᵀ H x` becomes on an [`Affine`] set, constants left out.
pub(super) struct Reduced {
    pub(super) matrix: DMatrix<f64>,
    pub(super) gradient: DVector<f64>,
}

impl Reduced {
    /// The `y` at the minimum; `None` if the form is not positive definite to rounding.
    pub(super) fn minimum(self) -> Option<DVector<f64>> {
        if self.gradient.is_empty() {
            return Some(self.gradient);
        }
        let factor = Cholesky::new(self.matrix)?;
        Some(-factor.solve(&self.gradient))
    }
}
