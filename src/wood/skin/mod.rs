//! Skins: bottom and deck as thin panels, laid flat.

mod conformal;
mod deficit;
mod elements;
mod error;
mod findings;
mod flatten;
mod grid;
mod height;
mod judged;
mod keyed;
mod lines;
mod panel;
mod panels;
mod plan;
mod plane_system;
mod planked;
mod planks;
mod rigid;
mod skyline;
mod strain;
mod verdict;

pub use crate::design::SkinLimits;
pub use crate::design::finding::Face;
pub use conformal::conformal_map;
pub use deficit::angle_deficit;
pub use error::{FlattenError, SkinError};
pub use flatten::{Flattening, Stretch, flatten};
pub use judged::Greatest;
pub use keyed::KeyedCut;
pub use panel::{Skin, SkinOptions, skin, skins};
pub use panels::Panels;
pub use planked::Panel;
pub use planks::{FlatPlank, PlankScarfs};
pub use strain::Strain;
pub use verdict::{Cause, Treatment, Verdict, WorstCause, verdict};
