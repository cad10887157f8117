//! boardwright: a parametric CAD kernel for hollow wooden surfboards.
//!
//! Data flows one way: design file → [`design::Design`] → shell → frame, rail → drawings, meshes, tables → files.
//! Lengths are millimetres and angles radians everywhere inside the library.

pub mod afloat;
pub mod bed;
pub mod blocks;
pub mod board;
pub mod chart;
pub mod cli;
pub mod curve;
pub mod design;
pub mod drawing;
pub mod dry_fit;
pub mod export;
pub mod frame;
pub mod lofted;
pub mod mass;
pub mod mesh;
pub mod output;
pub mod pads;
mod parallel;
pub mod polygon;
pub mod rail;
pub mod report;
pub mod sheets;
pub mod shell;
pub mod skin;
pub mod solids;
pub mod stock;
pub mod surface;
pub mod table;
pub mod timber;
pub mod units;
pub mod yard;
