//! What several tests share.

pub mod any_design;
pub mod browser;
pub mod descent;
pub mod flat;
pub mod found;
pub mod imports;
pub mod outcome;
pub mod outside;
pub mod page;
pub mod prisms;
pub mod program;
pub mod python;
pub mod sheets3d;
pub mod solids;
pub mod wishes;
pub mod writer;
