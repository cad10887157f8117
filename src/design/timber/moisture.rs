//! Moisture that wood takes from the air.

use super::TimberError;
use super::error::within;
use serde::{Deserialize, Serialize};

/// Air that wood has come to rest in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Air {
    /// Degrees Celsius.
    pub temperature: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

/// Equilibrium moisture content, percent of ovendry mass, of wood left in `air`.
///
/// Handbook equation 4-5 (numbered alike in GTR-190 and GTR-282) with the coefficients for °C; read in a fact sheet that quotes it.
/// It reproduces every cell of Table 4-2 (30 to 200 °F, 5 to 95 %) within 0.06 percentage points.
///
/// # Errors
///
/// [`TimberError::Range`] outside −1.2 to 93.4 °C, where the table ends, or a humidity outside 0 to 1.
///
/// ```
/// # use boardwright::design::timber::{Air, equilibrium_moisture};
/// let shop = equilibrium_moisture(Air { temperature: 20.0, humidity: 0.65 })?;
/// assert!((shop - 11.996).abs() < 1e-3);
/// # Ok::<(), boardwright::design::timber::TimberError>(())
/// ```
pub fn equilibrium_moisture(air: Air) -> Result<f64, TimberError> {
    let t = within("temperature, °C", air.temperature, -1.2, 93.4)?;
    let h = within("relative humidity", air.humidity, 0.0, 1.0)?;
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
    let k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
    let kh = k * h;
    let poly = k1 * kh;
    let square = k1 * k2 * kh * kh;
    Ok(1800.0 / w * (kh / (1.0 - kh) + (poly + 2.0 * square) / (1.0 + poly + square)))
}
