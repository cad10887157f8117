//! The three profiles a rail is laid up from, and what each gains in height.

use super::StockError;
use super::error::positive;
use crate::design::{Starter, Strip};
use serde::{Deserialize, Serialize};

/// Which moulding a strip carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Profile {
    /// Square, unmoulded.
    Starter,
    /// Flat under, rounded on top: the first course on the starters, one to each rail.
    BeadOnly,
    /// Rounded on top, hollowed under.
    BeadAndCove,
}

impl Profile {
    /// All of them, from the bottom of the rail up.
    pub const ALL: [Self; 3] = [Self::Starter, Self::BeadOnly, Self::BeadAndCove];

    /// Its name in the trade.
    pub fn name(self) -> &'static str {
        match self {
            Self::Starter => "starter",
            Self::BeadOnly => "bead-only strip",
            Self::BeadAndCove => "bead-and-cove strip",
        }
    }
}

/// Finished sizes of a rail's strips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Profiles {
    /// The moulded strips.
    pub strip: Strip,
    /// The starters.
    pub starter: Starter,
}

/// Rise of an arc of `radius` over a chord of `chord`: `r − √(r² − c²/4)`.
pub(super) fn sagitta(radius: f64, chord: f64) -> f64 {
    radius - (radius * radius - chord * chord / 4.0).max(0.0).sqrt()
}

impl Profiles {
    /// Checks that the profiles can be moulded and nest.
    ///
    /// # Errors
    ///
    /// [`StockError::Value`] for sizes no strip can have, a bead arc that does not span the thickness, a cove tighter than the bead, or
    /// one deeper than the bead is high.
    pub fn check(&self) -> Result<(), StockError> {
        let s = &self.strip;
        positive("strip thickness, mm", s.thickness, 1.0, 50.0)?;
        positive("strip width, mm", s.width, s.thickness, 100.0)?;
        positive("bead radius, mm", s.bead_radius, s.thickness / 2.0, 1000.0)?;
        positive("cove radius, mm", s.cove_radius, s.bead_radius, 1000.0)?;
        positive(
            "cove depth, mm",
            s.cove_depth,
            0.0,
            self.bead_height() + 1e-9,
        )?;
        positive("starter size, mm", self.starter.size, 1.0, 100.0)?;
        Ok(())
    }

    /// Height of the bead above its springing, mm: the sagitta of its arc across the thickness.
    pub fn bead_height(&self) -> f64 {
        sagitta(self.strip.bead_radius, self.strip.thickness)
    }

    /// Wood left on each lip of the cove, mm of thickness.
    pub fn lip(&self) -> f64 {
        let s = &self.strip;
        let half = s.cove_depth * (2.0 * s.cove_radius - s.cove_depth);
        s.thickness / 2.0 - half.max(0.0).sqrt()
    }

    /// Height a course gains, mm: a starter its own; a bead-only strip its width less the bead, to the bead's springing; a bead-and-cove
    /// strip its width less the cove's depth. The last holds for any cove no tighter and no deeper than the bead, for then the crown
    /// reaches the cove's middle before the lips meet anything.
    pub fn pitch(&self, profile: Profile) -> f64 {
        match profile {
            Profile::Starter => self.starter.size,
            Profile::BeadOnly => self.strip.width - self.bead_height(),
            Profile::BeadAndCove => self.strip.width - self.strip.cove_depth,
        }
    }

    /// Finished thickness and width, mm.
    pub fn finished(&self, profile: Profile) -> [f64; 2] {
        match profile {
            Profile::Starter => [self.starter.size; 2],
            _ => [self.strip.thickness, self.strip.width],
        }
    }

    /// Area of the finished section, mm², for mass: the rectangle less the corners beside the bead and less the cove.
    pub fn area(&self, profile: Profile) -> f64 {
        let s = &self.strip;
        let [thickness, width] = self.finished(profile);
        // Circular segment of sagitta h: r² acos(1 − h/r) − (r − h)√(2rh − h²).
        let segment = |r: f64, h: f64| {
            r * r * (1.0 - h / r).acos() - (r - h) * (2.0 * r * h - h * h).max(0.0).sqrt()
        };
        let bead = || {
            let h = self.bead_height();
            thickness * h - segment(s.bead_radius, h)
        };
        match profile {
            Profile::Starter => thickness * width,
            Profile::BeadOnly => thickness * width - bead(),
            Profile::BeadAndCove => {
                thickness * width - bead() - segment(s.cove_radius, s.cove_depth)
            }
        }
    }
}
