//! Stock: how planks become strips, machine by machine, and which plank yields which strips.
//!
//! Lengths are millimetres. Where a default is a fact of the trade it is common practice, with no published source.

mod cautions;
pub mod cutting;
mod error;
mod label;
pub mod lengths;
mod machine;
mod milling;
mod profile;
mod router;
mod shop;
mod totals;

pub use crate::design::{Aim, Allowances, Kerfs, Plank, Scarfing, Shop};
pub use crate::rail::CourseKind;
pub use cautions::Caution;
pub use error::StockError;
pub use label::{PieceLabel, piece_label};
pub use machine::Machine;
pub use milling::{MillingPlan, Step, Window, milling_plan, rough};
pub use profile::Profiles;
pub use router::{Cutter, RouterSetup};
pub use totals::{Totals, board_feet, board_foot_volume, totals};
