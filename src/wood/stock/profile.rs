//! The three profiles a rail is laid up from, and what each gains in height.

use super::StockError;
use super::error::positive;
use crate::design::{Starter, Strip};
use crate::rail::CourseKind;

impl CourseKind {
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
            self.strip.bead_sagitta() + 1e-9,
        )?;
        positive("starter size, mm", self.starter.size, 1.0, 100.0)?;
        positive("lamination, mm", self.starter.lamination(), 0.5, 100.0)?;
        Ok(())
    }

    /// Wood left on each lip of the cove, mm of thickness.
    pub fn lip(&self) -> f64 {
        self.strip.thickness / 2.0 - self.strip.cove_half_chord()
    }

    /// Height a course gains, mm: a starter its own; a bead-only strip its width less the bead, to the bead's springing; a bead-and-cove
    /// strip its width less the cove's depth. The last holds for any cove no tighter and no deeper than the bead, for then the crown
    /// reaches the cove's middle before the lips meet anything.
    pub fn pitch(&self, profile: CourseKind) -> f64 {
        match profile {
            CourseKind::Starter => self.starter.size,
            CourseKind::BeadOnly => self.strip.width - self.strip.bead_sagitta(),
            CourseKind::BeadAndCove => self.strip.pitch(),
        }
    }

    /// How many laminations a strip is bent as; 1 where it is solid.
    pub fn laminations(&self, profile: CourseKind) -> usize {
        match profile {
            CourseKind::Starter => self.starter.laminations,
            _ => 1,
        }
    }

    /// Finished thickness and width, mm, of what is milled: of a starter one lamination.
    pub fn finished(&self, profile: CourseKind) -> [f64; 2] {
        match profile {
            CourseKind::Starter => [self.starter.lamination(), self.starter.size],
            _ => [self.strip.thickness, self.strip.width],
        }
    }

    /// Finished thickness across the rail and width up it, mm, of what is bent at once: of a starter one lamination.
    pub fn bent(&self, profile: CourseKind) -> [f64; 2] {
        match profile {
            CourseKind::Starter => self.starter.bent(),
            _ => self.finished(profile),
        }
    }

    /// Area of the finished section, mm², for mass: the rectangle less the corners beside the bead and less the cove.
    pub fn area(&self, profile: CourseKind) -> f64 {
        let s = &self.strip;
        let [thickness, width] = self.finished(profile);
        // Circular segment of sagitta h: r² acos(1 − h/r) − (r − h)√(2rh − h²).
        let segment = |r: f64, h: f64| {
            r * r * (1.0 - h / r).acos() - (r - h) * (2.0 * r * h - h * h).max(0.0).sqrt()
        };
        let bead = || {
            let h = self.strip.bead_sagitta();
            thickness * h - segment(s.bead_radius, h)
        };
        match profile {
            CourseKind::Starter => thickness * width,
            CourseKind::BeadOnly => thickness * width - bead(),
            CourseKind::BeadAndCove => {
                thickness * width - bead() - segment(s.cove_radius, s.cove_depth)
            }
        }
    }
}
