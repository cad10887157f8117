//! The checked design: everything the maker decided, in millimetres and radians.
//!
//! In: the text of a design file, or a [`Draft`] whose fields anyone may set. Out: a [`Design`], or everything that is wrong in one run:
//! with its place in the file ([`Faults`]), or with its key ([`BrokenRules`]), each with a remedy.
//! Lengths as makers write them are in [`units`], the woods that can be named in [`timber`], what can be wrong with a board in [`finding`].
//!
//! A [`Design`] cannot lie: its only ways in are [`parse`], [`Draft::check`] and [`Design::with`], which hold every value to its key's
//! range ([`tables`]) and every rule between keys ([`rules`](fn@rules)); later stages take its values as sound.
//!
//! Start with [`parse`] or [`Draft::new`]; the starter file ([`starter`]) and the key reference ([`reference`](fn@reference)) are printed
//! from the same two tables.

mod build;
mod checked;
mod columns;
mod fault;
mod fields;
pub mod finding;
mod fittings;
mod frame;
mod hint;
mod key;
mod keys;
mod keys_fittings;
mod keys_frame;
mod keys_skins;
mod keys_weight;
mod keys_wood;
mod list;
mod manual;
mod model;
mod parse;
mod place;
mod polyline;
mod ranges;
mod raw;
mod read;
mod renamed;
mod rule_break;
mod rules;
mod scalar;
mod schema;
mod schema_length;
mod shop;
mod skins;
mod source;
mod syntax;
mod table;
pub mod timber;
pub mod units;
mod weight;

pub use checked::Design;
pub use fault::{Fault, Faults};
pub use fittings::{Bed, Blocks, Fin, FinCut, FinOffset, FinSet, Fins, Hole, Through};
pub use frame::{FrameCut, Holes, Pattern, Relief, SheetSize, SpineJoint};
pub use key::{Fallback, Key, KeyKind, Narrowed, TableKeys, Usual};
pub use keys::{key, key_range, tables};
pub use manual::{reference, starter};
pub use model::{
    Arrangement, Construction, Contour, Draft, Foil, LaminationPlane, Nose, Outline, OutlineBody,
    Rocker, Section, Softening, Starter, Strip, Tail, Timber,
};
pub use parse::{parse, place_breaks};
pub use place::KeyPlace;
pub use rule_break::{BrokenRules, RuleBreak};
pub use rules::{Rule, rules};
pub use schema::schema;
pub use shop::{Aim, Allowances, Kerfs, Plank, Scarfing, Shop};
pub use skins::{PanelCentre, PanelJoint, SkinLimits, Skins};
pub use weight::{Finish, FinishKind, Fitting, Rider};
