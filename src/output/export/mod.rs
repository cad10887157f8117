//! One file format each; exporters know only drawings, charts, meshes, tables and documents.
//!
//! Every writer gives the same bytes for the same value: no clock, no random ids, no locale. Coordinates
//! are rounded to [`GRAIN`](crate::geometry::path::GRAIN).

pub mod chart;
pub mod csv;
pub mod dxf;
mod error;
pub mod html;
pub mod json;
pub(crate) mod number;
pub mod stl;
pub mod svg;
pub mod svg_shading;
pub(crate) mod words;

pub use error::ExportError;
