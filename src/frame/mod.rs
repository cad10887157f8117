//! The frame: ribs across, the spine fore and aft.

mod chain;
mod error;
mod rib;
mod spine;

pub(crate) use chain::{arcs, close, line, segments};
pub use error::FrameError;
pub(crate) use rib::planes;
pub use rib::{Bevels, Rib, ribs};
pub use spine::{Spine, spine};
