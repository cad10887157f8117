//! How the moulding cutters are set.

use super::profile::Profiles;
use serde::Serialize;

/// Shape of a cutter's edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cutter {
    /// Hollow edge, which leaves a bead.
    Hollow,
    /// Round edge, which leaves a cove.
    Round,
}

/// Setting of a router table: cutter upright, strip lying on its face with the edge to the fence.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RouterSetup {
    /// Shape of the edge.
    pub cutter: Cutter,
    /// Radius of its arc, mm.
    pub radius: f64,
    /// Height of the arc's middle above the table, mm: half the strip's thickness.
    pub height: f64,
    /// How far the outfeed fence stands before the infeed fence, mm: what the cutter takes off the edge's foremost point.
    pub step: f64,
    /// How far the cutter reaches past the infeed fence, mm: for a bead, at the strip's faces; for a cove, at its middle.
    pub reach: f64,
    /// Thickness of wood the arc leaves beside it on each face, mm: the cove's lips; 0 for a bead, whose arc runs face to face.
    pub lip: f64,
}

/// Setting for the bead, with `allowance` mm taken off the crown.
pub(super) fn bead_cutter(profiles: &Profiles, allowance: f64) -> RouterSetup {
    RouterSetup {
        cutter: Cutter::Hollow,
        radius: profiles.strip.bead_radius,
        height: profiles.strip.thickness / 2.0,
        step: allowance,
        reach: allowance + profiles.strip.bead_sagitta(),
        lip: 0.0,
    }
}

/// Setting for the cove, with `allowance` mm taken off the lips.
pub(super) fn cove_cutter(profiles: &Profiles, allowance: f64) -> RouterSetup {
    RouterSetup {
        cutter: Cutter::Round,
        radius: profiles.strip.cove_radius,
        height: profiles.strip.thickness / 2.0,
        step: allowance,
        reach: allowance + profiles.strip.cove_depth,
        lip: profiles.lip(),
    }
}
