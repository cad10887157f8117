//! What holds the skins apart: ribs across, the spine fore and aft, and what stands between them.
//!
//! In: the shell and the solved rail. Out: [`Rib`]s and the [`Spine`] with slots and holes, end [`blocks`], [`pads`] under fins, plug and vent,
//! and the [`bed`] to build on.
//!
//! Start with [`ribs`]: a rib clears bottom, deck and rail over its whole thickness.

pub mod bed;
mod bevels;
pub mod blocks;
mod breathing;
mod chain;
mod corner;
mod deepest;
mod edges;
mod error;
mod holes;
mod joint;
mod keep_out;
mod lands;
mod lighten;
pub mod pads;
mod pieces;
mod relief;
mod rib;
mod rounded;
mod spine;
mod stairs;

pub use crate::design::finding::Half;
pub use bevels::{Bevels, Facet};
pub use breathing::{Bay, sealed_bays};
pub(crate) use chain::arcs;
pub use error::FrameError;
pub use joint::{PieceJoint, SpineKey};
pub use keep_out::KeepOut;
pub use lands::Lands;
pub use lighten::lighten;
pub use pieces::SpinePiece;
pub use relief::slot_bite;
pub(crate) use rib::planes;
pub use rib::{Rib, ribs};
pub use spine::{Spine, spine};
