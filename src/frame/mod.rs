//! The frame: ribs across, the spine fore and aft.

mod breathing;
mod chain;
mod deepest;
mod error;
mod holes;
mod keep_out;
mod lands;
mod lighten;
mod relief;
mod rib;
mod spine;
mod trouble;

pub use breathing::{Bay, Half, sealed_bays};
pub(crate) use chain::{arcs, close, line, segments};
pub use error::FrameError;
pub use keep_out::KeepOut;
pub use lands::Lands;
pub use lighten::lighten;
pub(crate) use rib::planes;
pub use rib::{Bevels, Rib, ribs};
pub use spine::{Spine, spine};
pub use trouble::Trouble;
