//! Twist of a rectangular bar.

use super::TimberError;
use super::error::within;
use serde::Serialize;
use std::f64::consts::PI;

/// Coefficients of a rectangular bar in torsion, sides b ≥ t.
///
/// `J = β b t³`, and a torque T gives the greatest shear `τ = T/(α b t²)` at the middle of the long sides.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TorsionBar {
    /// α, no unit.
    pub alpha: f64,
    /// β, no unit.
    pub beta: f64,
}

/// The coefficients for a section of `first` by `second`, mm, in either order, summed from the exact series
/// (Timoshenko & Goodier, *Theory of Elasticity*, torsion of rectangular bars) to better than 1e-9.
///
/// # Errors
///
/// [`TimberError::Range`] unless both sides are positive and within a factor of 1e6 of each other.
pub fn torsion_bar(first: f64, second: f64) -> Result<TorsionBar, TimberError> {
    for side in [first, second] {
        within("side of a section, mm", side, f64::MIN_POSITIVE, f64::MAX)?;
    }
    let (t, b) = (first.min(second), first.max(second));
    let ratio = within("width over thickness", b / t, 1.0, 1e6)?;
    let mut twist = 0.0;
    let mut shear = 0.0;
    // Tails of 1/n⁵ and of 1/(n² cosh) past n = 301 are below 1e-11 for ratios of 1 and more.
    for n in (1..=301).rev().step_by(2).map(f64::from) {
        let a = n * PI * ratio / 2.0;
        twist += a.tanh() / n.powi(5);
        // cosh overflows to infinity for flat bars, and the term is then zero, as it should be.
        shear += 1.0 / (n * n * a.cosh());
    }
    let beta = (1.0 - 192.0 / PI.powi(5) / ratio * twist) / 3.0;
    // τmax = G φ' t k, with k = 1 − 8/π² Σ 1/(n² cosh(nπb/2t)); T = G φ' β b t³, so α = β/k.
    let k = 1.0 - 8.0 / (PI * PI) * shear;
    Ok(TorsionBar {
        alpha: beta / k,
        beta,
    })
}

/// Greatest engineering shear strain in a strip of `width` by `thickness` mm twisted by `rate` radians a millimetre:
/// `γ = t φ' β/α` with t the shorter side. The sign of `rate` does not matter.
///
/// # Errors
///
/// As [`torsion_bar`].
pub fn twist_strain(width: f64, thickness: f64, rate: f64) -> Result<f64, TimberError> {
    let bar = torsion_bar(width, thickness)?;
    Ok(width.min(thickness) * rate.abs() * bar.beta / bar.alpha)
}
