//! The frame: ribs across, the spine fore and aft.

mod chain;
mod error;
mod rib;
mod spine;

pub use error::FrameError;
pub use rib::{Bevels, Rib, ribs};
pub use spine::{Spine, spine};
