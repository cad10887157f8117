//! What the strips of a kind may be asked to do, in the wood they are of and softened or not.

use crate::design::timber::{Limits, Species, TimberError};
use crate::design::{Softening, Timber};
use crate::rail::CourseKind;

impl Softening {
    /// Whether strips of `kind` are.
    pub fn takes(self, kind: CourseKind) -> bool {
        match self {
            Self::None => false,
            Self::Starters => kind == CourseKind::Starter,
            Self::Strips => kind != CourseKind::Starter,
            Self::All => true,
        }
    }

    /// The same, with strips of `kind` softened too.
    pub(super) fn and(self, kind: CourseKind) -> Self {
        match (self, kind == CourseKind::Starter) {
            (Self::None | Self::Starters, true) => Self::Starters,
            (Self::None | Self::Strips, false) => Self::Strips,
            _ => Self::All,
        }
    }
}

/// Limits of strips of `kind` of `wood`, bent as `timber` says.
///
/// # Errors
///
/// As [`Limits::of`].
pub fn limits(timber: &Timber, wood: &Species, kind: CourseKind) -> Result<Limits, TimberError> {
    let dry = Limits::of(wood, timber.working_strain)?;
    Ok(if timber.softening.takes(kind) {
        dry.softened()
    } else {
        dry
    })
}
