//! The frame: ribs across, the spine fore and aft.

mod chain;
mod deepest;
mod error;
mod holes;
mod keep_out;
mod lands;
mod rib;
mod spine;

pub(crate) use chain::segments;
pub use error::FrameError;
pub use keep_out::KeepOut;
pub use lands::Lands;
pub(crate) use rib::planes;
pub use rib::{Bevels, Rib, ribs};
pub use spine::{Spine, spine};
