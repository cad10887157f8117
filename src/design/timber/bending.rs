//! How far a strip may be bent and twisted.

use super::{Species, TimberError, Utilisation, Wood, twist_strain};
use serde::Serialize;

/// Strain in the outer fibre, no unit, of wood `depth` mm deep in the plane of the bend, bent to `curvature` per mm: `d·κ/2`.
pub fn strain(depth: f64, curvature: f64) -> f64 {
    depth * curvature.abs() / 2.0
}

/// Curvature factor of glulam, `C_c = 1 − 2000 (t/R)²`: the share of bending strength left in a lamination bent to `ratio = t/R`
/// (formula read in published calculators; the 2001 glulam supplement, 4.10, names it). Never below 0.
pub fn curvature_factor(ratio: f64) -> f64 {
    (1.0 - 2000.0 * ratio * ratio).max(0.0)
}

/// Which way a strip is bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BendKind {
    /// Across its thickness.
    EasyWay,
    /// Across its width: edge-set.
    HardWay,
}

/// Bending strains and ratios a species is held to, for wood bent dry and cold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BendLimits {
    /// Strain at which clear wood breaks if it stays elastic, `MOR/E` with the true E.
    pub clear_wood: f64,
    /// Depth over radius by the glulam rule: 1/100 for hardwoods and southern pine, 1/125 for other softwoods
    /// (NDS 5.3.8, from memory). Thin clear strips are bent well past it (common practice).
    pub glulam_ratio: f64,
}

/// Strain softened wood takes on its stretched side, 1.5 to 2 % for most species (bending handbooks, from memory); the lower is taken.
pub const SOFTENED: f64 = 0.015;

/// What strips of a species may be asked to do.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Limits {
    /// Limits of bending, alike for the easy and the hard way.
    pub bend: BendLimits,
    /// Strain allowed the easy way, `working` of the clear-wood limit.
    pub easy_way: f64,
    /// Strain allowed the hard way, `working` of the clear-wood limit.
    pub hard_way: f64,
    /// Engineering shear strain allowed in twist, `working` of strength over modulus; `None` without a shear strength.
    pub twist: Option<f64>,
}

impl Limits {
    /// Limits of `species` at the share `working` (0 to 1) of clear wood's breaking strain; 0.75 leaves a quarter for short grain and
    /// scatter (common practice, no published source; the scatter of MOR in the Handbook is about 16 %).
    ///
    /// # Errors
    ///
    /// [`TimberError::Range`] if `working` is not within 0.05 to 1, or if the species fails [`Species::check`].
    pub fn of(species: &Species, working: f64) -> Result<Self, TimberError> {
        super::error::within("working share of the breaking strain", working, 0.05, 1.0)?;
        species.check()?;
        let clear_wood = species.rupture / species.true_modulus();
        let bend = BendLimits {
            clear_wood,
            glulam_ratio: match species.wood {
                Wood::Hardwood => 1.0 / 100.0,
                Wood::Softwood => 1.0 / 125.0,
            },
        };
        Ok(Self {
            bend,
            easy_way: working * clear_wood,
            hard_way: working * clear_wood,
            twist: species.shear.map(|s| working * s / species.shear_modulus()),
        })
    }

    /// The limits once the wood is soaked or steamed: it bends to [`SOFTENED`], twist is left as it is, for want of a source that it gains.
    pub fn softened(self) -> Self {
        Self {
            easy_way: self.easy_way.max(SOFTENED),
            hard_way: self.hard_way.max(SOFTENED),
            ..self
        }
    }

    /// Bending strain of a strip `depth` mm deep in the plane of the bend, against the limit for that way of bending.
    pub fn bending(&self, kind: BendKind, depth: f64, curvature: f64) -> Utilisation {
        let limit = match kind {
            BendKind::EasyWay => self.easy_way,
            BendKind::HardWay => self.hard_way,
        };
        Utilisation::new(strain(depth, curvature), limit)
    }

    /// Depth over radius against the glulam rule, to be reported beside [`Limits::bending`].
    pub fn glulam(&self, depth: f64, curvature: f64) -> Utilisation {
        Utilisation::new(depth * curvature, self.bend.glulam_ratio)
    }

    /// Twist of a strip of `width` by `thickness` mm at `rate` radians a millimetre, against the shear limit; `None` without one.
    ///
    /// # Errors
    ///
    /// [`TimberError::Range`] if the section is none.
    pub fn twisting(
        &self,
        width: f64,
        thickness: f64,
        rate: f64,
    ) -> Result<Option<Utilisation>, TimberError> {
        let strain = twist_strain(width, thickness, rate)?;
        Ok(self.twist.map(|limit| Utilisation::new(strain, limit)))
    }

    /// Deepest strip, mm, that passes the easy way at `curvature` per mm; infinite for a straight strip.
    pub fn greatest_depth(&self, curvature: f64) -> f64 {
        2.0 * self.easy_way / curvature.abs()
    }
}

/// Species of the table that take `strain` in bending at the share `working` of their breaking strain, the most at ease first: what to
/// offer a maker whose strip is bent too far. Each comes with its utilisation.
///
/// # Errors
///
/// As [`Limits::of`].
///
/// ```
/// # use boardwright::design::timber::passing;
/// // 6 mm bent to 700 mm: strain 0.43 %.
/// let able = passing(0.0043, 0.75)?;
/// assert!(able.windows(2).all(|w| w[0].1.ratio <= w[1].1.ratio));
/// # Ok::<(), boardwright::design::timber::TimberError>(())
/// ```
pub fn passing(
    strain: f64,
    working: f64,
) -> Result<Vec<(&'static Species, Utilisation)>, TimberError> {
    let mut able = Vec::new();
    for species in super::table() {
        let use_of = Utilisation::new(strain, Limits::of(species, working)?.easy_way);
        if use_of.passes() {
            able.push((species, use_of));
        }
    }
    able.sort_by(|a, b| {
        a.1.ratio
            .total_cmp(&b.1.ratio)
            .then(a.0.name.cmp(&b.0.name))
    });
    Ok(able)
}
