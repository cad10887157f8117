//! The building bed: upright cradles that hold the bottom skin's outer face to rocker and bottom contour.

mod cradle;
mod edge;

pub use cradle::{BuildingBed, Cradle, bed};
