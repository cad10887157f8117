//! Hydrostatics: how a closed board lies in still water.
//!
//! Integrals are taken over sections in planes of constant x, each polynomial piece cut exactly at the water, and by Gauss–Legendre
//! along x. Terms follow Rawson & Tupper, *Basic Ship Theory*, 5th ed. (2001), chapters 2 and 3.

mod balance;
mod error;
mod findings;
mod float_state;
mod hull;
mod water;
mod wetted;

pub use balance::{Afloat, Load, afloat};
pub use error::AfloatError;
pub use findings::float_findings;
pub use float_state::{FloatState, float_states};
pub use hull::{Hull, Immersed, Waterline};
pub use water::{GRAVITY, Water};
