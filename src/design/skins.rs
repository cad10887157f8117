//! What the maker decided about the skins.

use serde::Serialize;

/// How skins are made, beside their thickness.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Skins {
    /// Greatest width of a plank, mm.
    pub plank_width: f64,
    /// Longest plank or sheet to be had, mm; `None` for as long as it takes.
    pub plank_length: Option<f64>,
    /// How a panel is made longer than its planks.
    pub joint: PanelJoint,
    /// What lies on the centreline.
    pub centre: PanelCentre,
    /// How far a panel reaches past the finished outline, mm.
    pub overhang: f64,
    /// What the wood is trusted to take.
    pub limits: SkinLimits,
}

/// How a panel is made longer than the planks to be had.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PanelJoint {
    /// Each plank is scarfed, neighbours staggered; the panel stays one.
    Scarf,
    /// The panel is cut across into pieces that key into each other.
    Key,
}

/// What lies on a panel's centreline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PanelCentre {
    /// A seam.
    Seam,
    /// The middle of a plank.
    Plank,
}

/// Limits of what a thin plank panel takes; above each the next treatment is called for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SkinLimits {
    /// Strain along the grain: dry up to the first, soaked up to the second, split beyond.
    pub strain_along: [f64; 2],
    /// Strain across the grain, likewise.
    pub strain_across: [f64; 2],
    /// Thickness over radius along the grain: dry up to the first, soaked up to the second, relieved beyond.
    pub bend_along: [f64; 2],
    /// Thickness over radius across the grain, likewise.
    pub bend_across: [f64; 2],
}

impl Default for SkinLimits {
    /// In the sheet: 0.1 % and 0.3 % along the grain, 0.3 % and 1 % across it, where wood is some twenty times as soft
    /// (common practice, no published source). Bending: t/R 1/125 dry, the glulam limit for softwoods (NDS 5.3.8), and 1/75 soaked,
    /// about where clear dry wood breaks, E / 2 MOR being 67 to 84 for the Wood Handbook's light species; the same both ways
    /// (across the grain: common practice, no published source).
    fn default() -> Self {
        Self {
            strain_along: [0.001, 0.003],
            strain_across: [0.003, 0.01],
            bend_along: [1.0 / 125.0, 1.0 / 75.0],
            bend_across: [1.0 / 125.0, 1.0 / 75.0],
        }
    }
}
