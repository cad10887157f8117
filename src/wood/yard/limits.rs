//! What the strips of a kind may be asked to do, in the wood they are of and softened or not.

use crate::design::timber::{Limits, Species, TimberError};
use crate::design::{Softening, Timber};
use crate::rail::Kind;

impl Softening {
    /// Whether strips of `kind` are.
    pub fn takes(self, kind: Kind) -> bool {
        match self {
            Self::None => false,
            Self::Starters => kind == Kind::Starter,
            Self::Strips => kind != Kind::Starter,
            Self::All => true,
        }
    }

    /// The same, with those of `kind` among them.
    pub(super) fn and(self, kind: Kind) -> Self {
        match (self, kind == Kind::Starter) {
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
pub fn limits(timber: &Timber, wood: &Species, kind: Kind) -> Result<Limits, TimberError> {
    let dry = Limits::of(wood, timber.working_strain)?;
    Ok(if timber.softening.takes(kind) {
        dry.softened()
    } else {
        dry
    })
}
