//! Neutral indexed triangle meshes, in mm.

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
