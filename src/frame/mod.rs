//! The frame: ribs across, the spine fore and aft.

pub mod bed;
mod bevels;
pub mod blocks;
mod breathing;
mod chain;
mod deepest;
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
mod trouble;

pub use bevels::{Bevels, Facet};
pub use breathing::{Bay, Half, sealed_bays};
pub(crate) use chain::arcs;
pub use error::FrameError;
pub use joint::{Joint, Key};
pub use keep_out::KeepOut;
pub use lands::Lands;
pub use lighten::{lighten, slot_bite};
pub use pieces::SpinePiece;
pub(crate) use rib::planes;
pub use rib::{Rib, ribs};
pub use spine::{Spine, spine};
pub use trouble::Trouble;
