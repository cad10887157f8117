//! The checked design: everything the maker decided, in millimetres and radians.
//!
//! In: the text of a design file. Out: a [`Design`], or every fault that can be found in one run, each with its place and a remedy ([`Faults`]).
//! Lengths as makers write them are in [`units`], the woods that can be named in [`timber`],
//! what can be wrong with a board in [`finding`].
//!
//! A [`Design`] is only made by the parser, which fills what the file leaves silent with a good board's defaults
//! and refuses contradictions; later stages take its values as sound.
//!
//! Start with [`parse`], which reads a file against one table of keys ([`tables`]); the starter file
//! ([`starter`]) and the key reference ([`reference`](fn@reference)) are printed from that table too.

mod build;
mod columns;
mod fault;
pub mod finding;
mod fittings;
mod frame;
mod hint;
mod key;
mod key_fault;
mod keys;
mod keys_fittings;
mod keys_frame;
mod keys_skins;
mod keys_weight;
mod keys_yard;
mod list;
mod manual;
mod model;
mod parse;
mod raw;
mod read;
mod scalar;
mod shop;
mod skins;
mod source;
mod syntax;
mod table;
pub mod timber;
pub mod units;
mod weight;

pub use fault::{Fault, Faults};
pub use fittings::{Aside, Bed, Blocks, Fin, FinCut, FinSet, Fins, Hole, Through};
pub use frame::{FrameCut, Holes, Pattern, Relief, SheetSize, SpineJoint};
pub use key::{Fallback, Key, Kind, TableKeys, Usual};
pub use key_fault::{KeyFault, place_faults};
pub use keys::tables;
pub use manual::{reference, starter};
pub use model::{
    Construction, Contour, Design, Foil, Laid, Lie, Nose, Outline, OutlineBody, Rocker, Section,
    Softened, Starter, Strip, Tail, Timber,
};
pub use parse::parse;
pub use shop::{Aim, Allowances, Kerfs, Plank, Scarfing, Shop};
pub use skins::{PanelCentre, PanelJoint, SkinLimits, Skins};
pub use weight::{Finish, FinishKind, Fitting, Rider};
