//! Geometry that knows no surfboard.
//!
//! In: points, numbers, tolerances. Out: B-splines ([`curve`]) and patches ([`surface`]), polygons, bodies through sections ([`lofted`]), paths
//! of lines and arcs ([`path`]), triangles ([`mesh`]).
//!
//! Start with [`curve`], whose splines everything else is drawn with; [`mesh`] has the gate that every solid passes.

pub mod curve;
pub mod lofted;
pub mod mesh;
pub(crate) mod parallel;
pub mod path;
pub mod polygon;
pub mod solve;
pub mod surface;
