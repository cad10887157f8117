//! Polynomials in Bernstein form on [0, 1].
//!
//! Farouki & Rajan, *Algorithms for polynomials in Bernstein form* (1988).

use crate::geometry::solve::root;

/// Value and derivative at `t`, by de Casteljau.
pub(super) fn value(coefficients: &[f64], t: f64) -> (f64, f64) {
    let mut c = coefficients.to_vec();
    let n = c.len();
    for level in 1..n.saturating_sub(1) {
        for i in 0..n - level {
            c[i] += t * (c[i + 1] - c[i]);
        }
    }
    match c[..] {
        [] => (0.0, 0.0),
        [only] => (only, 0.0),
        [a, b, ..] => (a + t * (b - a), (n - 1) as f64 * (b - a)),
    }
}

/// The two halves.
fn halve(coefficients: &[f64]) -> (Vec<f64>, Vec<f64>) {
    let mut right = coefficients.to_vec();
    let n = right.len();
    let mut left = Vec::with_capacity(n);
    for level in 0..n {
        left.push(right[0]);
        for i in 0..n - level - 1 {
            right[i] = 0.5 * (right[i] + right[i + 1]);
        }
    }
    (left, right)
}

/// The derivative.
pub(super) fn derivative(coefficients: &[f64]) -> Vec<f64> {
    let n = coefficients.len().saturating_sub(1) as f64;
    coefficients.windows(2).map(|w| n * (w[1] - w[0])).collect()
}

/// Adds `sign` times the product of two polynomials to `sum`, whose degree is the sum of theirs.
pub(super) fn add_product(sum: &mut [f64], a: &[f64], b: &[f64], sign: f64) {
    let (m, n) = (a.len() - 1, b.len() - 1);
    for (i, x) in a.iter().enumerate() {
        for (j, y) in b.iter().enumerate() {
            sum[i + j] += sign * binomial(m, i) * binomial(n, j) / binomial(m + n, i + j) * x * y;
        }
    }
}

fn binomial(n: usize, k: usize) -> f64 {
    (0..k).fold(1.0, |b, i| b * (n - i) as f64 / (i + 1) as f64)
}

/// All roots in [0, 1], rising; coefficients up to `zero` in size count as 0.
///
/// Intervals without a change of sign among their coefficients hold no root and those with one change hold exactly one
/// (Descartes' rule in Bernstein form; Lane & Riesenfeld, *Bounds on a polynomial*, 1981); the others are halved. A root of
/// even order is found as well: there the coefficients shrink to `zero` before the interval does. Roots closer than 1e-6
/// between which the polynomial stays within some `zero`s of 0 are one. Where it is 0 throughout, the ends are given.
pub(super) fn roots(coefficients: &[f64], zero: f64) -> Vec<f64> {
    if coefficients.iter().all(|c| c.abs() <= zero) {
        return vec![0.0, 1.0];
    }
    let mut found = Vec::new();
    isolate(coefficients.to_vec(), (0.0, 1.0), zero, &mut found);
    found.sort_by(f64::total_cmp);
    merge(coefficients, found, zero)
}

fn isolate(mut c: Vec<f64>, (lo, hi): (f64, f64), zero: f64, found: &mut Vec<f64>) {
    // Roots at the ends are divided out, so that they do not blur the count of sign changes.
    while c.len() > 1 && c[0].abs() <= zero {
        found.push(lo);
        let n = (c.len() - 1) as f64;
        c = (1..c.len()).map(|i| c[i] * n / i as f64).collect();
    }
    while c.len() > 1 && c[c.len() - 1].abs() <= zero {
        found.push(hi);
        let n = c.len() - 1;
        c = (0..n).map(|i| c[i] * n as f64 / (n - i) as f64).collect();
    }
    let (least, most) = changes(&c, zero);
    if most == 0 {
        return;
    }
    if least == 1 && most == 1 {
        let t = root(|t| value(&c, t), 0.0, 1.0, 1e-15).unwrap_or(0.5);
        found.push(lo + t * (hi - lo));
    } else if hi - lo < 1e-12 {
        found.push(0.5 * (lo + hi));
    } else {
        let (left, right) = halve(&c);
        let mid = 0.5 * (lo + hi);
        isolate(left, (lo, mid), zero, found);
        isolate(right, (mid, hi), zero, found);
    }
}

/// Least and greatest number of sign changes when coefficients up to `zero` may have any sign.
fn changes(c: &[f64], zero: f64) -> (usize, usize) {
    let (mut least, mut most, mut last, mut unsure) = (0, 0, 0.0, 0);
    for &value in c {
        if value.abs() <= zero {
            unsure += 1;
            continue;
        }
        let sign = value.signum();
        let change = usize::from(last != 0.0 && sign != last);
        least += change;
        // A run of k unknown signs between two known ones can add pairs of changes.
        most += change + 2 * ((unsure + 1 - change) / 2);
        (last, unsure) = (sign, 0);
    }
    (least, most + unsure)
}

/// Joins roots of one cluster, and moves the joint one to the extremum inside it.
fn merge(coefficients: &[f64], found: Vec<f64>, zero: f64) -> Vec<f64> {
    let slopes = derivative(coefficients);
    let mut out: Vec<f64> = Vec::with_capacity(found.len());
    let mut first = f64::NEG_INFINITY;
    for t in found {
        match out.last_mut() {
            Some(last)
                if t - first < 1e-6
                    && value(coefficients, 0.5 * (*last + t)).0.abs() <= 64.0 * zero =>
            {
                if t > *last {
                    let (f, df) = value(&slopes, 0.5 * (first + t));
                    let flat = 0.5 * (first + t) - f / df;
                    *last = if (first..=t).contains(&flat) { flat } else { t };
                }
            }
            _ => {
                first = t;
                out.push(t);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bernstein coefficients of the polynomial with the given roots.
    fn with_roots(roots: &[f64]) -> Vec<f64> {
        roots.iter().fold(vec![1.0], |c, r| {
            let mut product = vec![0.0; c.len() + 1];
            add_product(&mut product, &c, &[-r, 1.0 - r], 1.0);
            product
        })
    }

    #[test]
    fn simple_double_and_end_roots_are_all_found_once() {
        for wanted in [
            vec![0.2, 0.7],
            vec![0.0, 0.5, 1.0],
            vec![0.3, 0.3001, 0.9],
            vec![0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7],
        ] {
            let got = roots(&with_roots(&wanted), 1e-16);
            assert_eq!(got.len(), wanted.len(), "{wanted:?}: {got:?}");
            for (g, w) in got.iter().zip(&wanted) {
                assert!((g - w).abs() < 1e-9, "{g} against {w}");
            }
        }
        for double in [0.0, 0.123456, 0.5, 1.0] {
            let got = roots(&with_roots(&[double, double, 0.77]), 1e-16);
            let wanted = if double < 0.77 {
                [double, 0.77]
            } else {
                [0.77, double]
            };
            assert_eq!(got.len(), 2, "double at {double}: {got:?}");
            assert!((got[0] - wanted[0]).abs() < 1e-7 && (got[1] - wanted[1]).abs() < 1e-7);
        }
        assert!(
            roots(&[1.0, -0.1, 1.0], 1e-16).is_empty(),
            "close, but no root"
        );
        assert_eq!(roots(&[0.0, 0.0, 0.0], 1e-16), [0.0, 1.0]);
    }
}
