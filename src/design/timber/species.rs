//! A species as the kernel knows it, the table's or the maker's own.

use super::error::within;
use super::{TimberError, green_to_moisture};
use serde::{Deserialize, Serialize};

/// What volume a specific gravity is reckoned on; the mass is always ovendry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Volume when green (basic specific gravity, as in Handbook Tables 5-4 and 5-5).
    Green,
    /// Volume at 12 % moisture content (as in the 12 % rows of Handbook Table 5-3).
    TwelvePercent,
}

/// Softwood or hardwood, as the glulam bending limits divide them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wood {
    /// A conifer other than the southern pines.
    Softwood,
    /// A broad-leaved tree; the southern pines count with these for bending.
    Hardwood,
}

/// How a value came here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Provenance {
    /// Read in the source, or in a faithful transcription of it.
    Read,
    /// Remembered, not confirmed against a printed page.
    Memory,
    /// The maker's own figure.
    Maker,
}

/// Shrinkage from green to ovendry, percent of the green size (Handbook Tables 4-3 and 4-4).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Shrinkage {
    /// Across the growth rings, percent.
    pub radial: f64,
    /// Along the growth rings, percent.
    pub tangential: f64,
    /// Of the volume, percent, where a source gives it.
    pub volumetric: Option<f64>,
    /// Fibre saturation point, percent moisture content, at which shrinking begins.
    pub fibre_saturation: f64,
}

/// A species of wood: mean properties of clear, straight-grained wood, at 12 % moisture content unless said.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Species {
    /// Name in the trade, lower case.
    pub name: String,
    /// For the bending limit of glulam.
    pub wood: Wood,
    /// Specific gravity on `basis`.
    pub specific_gravity: f64,
    /// Volume that `specific_gravity` is reckoned on.
    pub basis: Basis,
    /// Modulus of elasticity as tested, MPa; see [`Species::true_modulus`].
    pub modulus: f64,
    /// Whether `modulus` was measured by a centre load on a span of 14 depths, so that shear deflection is in it and the true
    /// modulus is about 10 % more (footnote of Handbook Tables 5-3 to 5-5).
    pub centre_loaded: bool,
    /// Modulus of rupture, MPa.
    pub rupture: f64,
    /// Shear strength parallel to the grain, MPa, where a source gives it.
    pub shear: Option<f64>,
    /// Shear modulus over true modulus of elasticity, `G/E` (the smaller of G_LR/E_L and G_LT/E_L), where a source gives it.
    pub shear_ratio: Option<f64>,
    /// Shrinkage, where a source gives it.
    pub shrinkage: Option<Shrinkage>,
    /// Tables, edition and standing of the values.
    pub source: String,
    /// The weakest standing of any value here.
    pub provenance: Provenance,
}

/// `G/E` when a species has none of its own: about 1/16 is the usual figure for wood (common practice, no published source read).
const SHEAR_RATIO: f64 = 1.0 / 16.0;

impl Species {
    /// Checks a species of the maker's own.
    ///
    /// # Errors
    ///
    /// [`TimberError::Range`] naming the first property that no wood can have.
    pub fn check(&self) -> Result<(), TimberError> {
        within("specific gravity", self.specific_gravity, 0.05, 1.4)?;
        within("modulus of elasticity, MPa", self.modulus, 100.0, 40_000.0)?;
        within("modulus of rupture, MPa", self.rupture, 1.0, 400.0)?;
        if let Some(shear) = self.shear {
            within("shear strength, MPa", shear, 0.1, 60.0)?;
        }
        if let Some(ratio) = self.shear_ratio {
            within("shear modulus over modulus", ratio, 0.005, 0.5)?;
        }
        if let Some(s) = self.shrinkage {
            within("radial shrinkage, %", s.radial, 0.0, 20.0)?;
            within("tangential shrinkage, %", s.tangential, 0.0, 25.0)?;
            within(
                "volumetric shrinkage, %",
                s.volumetric.unwrap_or(0.0),
                0.0,
                40.0,
            )?;
            within("fibre saturation point, %", s.fibre_saturation, 15.0, 40.0)?;
        }
        Ok(())
    }

    /// True modulus of elasticity in bending, MPa: 1.1 times the tabulated one where that is centre-loaded.
    pub fn true_modulus(&self) -> f64 {
        if self.centre_loaded {
            1.1 * self.modulus
        } else {
            self.modulus
        }
    }

    /// Shear modulus, MPa, from the species' ratio or else 1/16 of the true modulus.
    pub fn shear_modulus(&self) -> f64 {
        self.shear_ratio.unwrap_or(SHEAR_RATIO) * self.true_modulus()
    }

    /// Specific gravity on the volume at 12 % moisture content.
    pub fn gravity_at_twelve(&self) -> f64 {
        match self.basis {
            Basis::TwelvePercent => self.specific_gravity,
            Basis::Green => green_to_moisture(self.specific_gravity, 12.0),
        }
    }

    /// Density of wood at `moisture` percent, kg/m³, water included, from 0 to 30 %.
    ///
    /// A 12 % gravity is first taken to green volume by inverting [`green_to_moisture`], then to `moisture`, so that swelling is
    /// counted; at 12 % itself this is exactly `1000 G (1 + 12/100)`.
    ///
    /// # Errors
    ///
    /// [`TimberError::Range`] if `moisture` is outside 0 to 30 %.
    pub fn density(&self, moisture: f64) -> Result<f64, TimberError> {
        within("moisture content, %", moisture, 0.0, 30.0)?;
        let green = match self.basis {
            Basis::Green => self.specific_gravity,
            // G12 = Gb / (1 − 0.265·0.6·Gb)  ⇔  Gb = G12 / (1 + 0.159·G12)
            Basis::TwelvePercent => {
                self.specific_gravity / (1.0 + 0.265 * 0.6 * self.specific_gravity)
            }
        };
        Ok(super::board_density(
            green_to_moisture(green, moisture),
            moisture,
        ))
    }
}
