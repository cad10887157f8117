//! Banded linear systems without pivoting, as spline collocation gives them.

/// LU factors of a square banded matrix.
///
/// Spline collocation matrices are totally positive, so elimination without pivoting is stable
/// (de Boor & Pinkus, *Backward error analysis for totally positive linear systems*, 1977).
pub(super) struct Banded {
    n: usize,
    band: usize,
    /// Row `i`, columns `i - band ..= i + band`.
    rows: Vec<f64>,
}

impl Banded {
    /// Factors the matrix whose row `i` is given as first column and entries. `Err(i)` names a row without a pivot.
    pub(super) fn factor(rows: &[(usize, Vec<f64>)]) -> Result<Self, usize> {
        let n = rows.len();
        let band = rows
            .iter()
            .enumerate()
            .map(|(i, (first, entries))| {
                i.saturating_sub(*first)
                    .max((first + entries.len()).saturating_sub(i + 1))
            })
            .max()
            .unwrap_or(0);
        let width = 2 * band + 1;
        let mut a = vec![0.0; n * width];
        for (i, (first, entries)) in rows.iter().enumerate() {
            for (k, &value) in entries.iter().enumerate() {
                if first + k < n {
                    a[i * width + first + k + band - i] = value;
                }
            }
        }
        for k in 0..n {
            let pivot = a[k * width + band];
            let scale = a[k * width..(k + 1) * width]
                .iter()
                .fold(0.0_f64, |m, v| m.max(v.abs()));
            if pivot.abs() <= 1e-13 * scale || pivot.is_nan() {
                return Err(k);
            }
            for i in k + 1..(k + band + 1).min(n) {
                let factor = a[i * width + k + band - i] / pivot;
                if factor != 0.0 {
                    a[i * width + k + band - i] = factor;
                    for j in k + 1..(k + band + 1).min(n) {
                        a[i * width + j + band - i] -= factor * a[k * width + j + band - k];
                    }
                }
            }
        }
        Ok(Self { n, band, rows: a })
    }

    /// Solves in place for one right-hand side of any vector type.
    pub(super) fn solve<V>(&self, b: &mut [V])
    where
        V: Copy + std::ops::SubAssign + std::ops::DivAssign<f64> + std::ops::Mul<f64, Output = V>,
    {
        let (n, band, width) = (self.n, self.band, 2 * self.band + 1);
        for i in 0..n {
            for j in i.saturating_sub(band)..i {
                let term = b[j] * self.rows[i * width + j + band - i];
                b[i] -= term;
            }
        }
        for i in (0..n).rev() {
            for j in i + 1..(i + band + 1).min(n) {
                let term = b[j] * self.rows[i * width + j + band - i];
                b[i] -= term;
            }
            b[i] /= self.rows[i * width + band];
        }
    }
}
