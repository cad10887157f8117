//! Neutral indexed triangle meshes, in mm.

mod check;
mod edges;
mod edit;
mod extrude;
mod measure;

pub use check::MeshReport;
pub use extrude::{MeshError, PlateFrame, Ring, extrude, extrude_with, triangulate_ring};

use nalgebra::Point3;

/// A triangle mesh; triangles are counter-clockwise seen from outside.
#[derive(Debug, Clone, PartialEq)]
pub struct Mesh {
    /// The part's name.
    pub name: String,
    /// Vertices, mm.
    pub vertices: Vec<Point3<f64>>,
    /// Vertex indices.
    pub triangles: Vec<[u32; 3]>,
}
