//! Skins: bottom and deck as thin panels, laid flat.

mod conformal;
mod deficit;
mod elements;
mod error;
mod flatten;
mod height;
mod lines;
mod panel;
mod plan;
mod plane_system;
mod planks;
mod rigid;
mod skyline;
mod strain;
mod verdict;

pub use conformal::conformal_map;
pub use deficit::angle_deficit;
pub use error::{FlattenError, SkinError};
pub use flatten::{Flattening, Stretch, flatten};
pub use panel::{Face, Skin, SkinOptions, skin, skins};
pub use planks::Plank;
pub use strain::{Greatest, Strain};
pub use verdict::{Cause, Finding, SkinLimits, Treatment, Verdict, verdict};
