//! What several tests share.

pub mod browser;
pub mod descent;
pub mod flat;
pub mod outside;
pub mod prisms;
pub mod program;
pub mod python;
pub mod sheets3d;
pub mod solids;
pub mod wishes;
