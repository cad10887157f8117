//! Skins: bottom and deck as thin panels, laid flat.

mod conformal;
mod deficit;
mod elements;
mod error;
mod flatten;
mod grid;
mod height;
mod keyed;
mod lines;
mod panel;
mod panels;
mod plan;
mod plane_system;
mod planks;
mod rigid;
mod skyline;
mod strain;
mod trouble;
mod verdict;

pub use crate::design::SkinLimits;
pub use conformal::conformal_map;
pub use deficit::angle_deficit;
pub use error::{FlattenError, SkinError};
pub use flatten::{Flattening, Stretch, flatten};
pub use keyed::KeyedCut;
pub use panel::{Face, Skin, SkinOptions, skin, skins};
pub use panels::{Panel, Panels};
pub use planks::{Plank, Scarfed};
pub use strain::{Greatest, Strain};
pub use trouble::PanelTrouble;
pub use verdict::{Cause, Finding, Treatment, Verdict, verdict};
