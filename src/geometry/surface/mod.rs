//! Tensor-product B-spline patches.
//!
//! Notation follows Piegl & Tiller, *The NURBS Book*, 2nd ed. (1997); differential geometry follows
//! do Carmo, *Differential Geometry of Curves and Surfaces* (1976), chapter 3.

mod contour;
mod integrals;
mod jet;
mod loft_points;
mod mesh;
mod patch;
mod skin;
mod tessellate;

pub use contour::{ContourLine, offset_section, section};
pub use integrals::{Integrals, integrals};
pub use jet::{Curvatures, Jet};
pub use loft_points::{LoftError, loft_points};
pub use mesh::patch_mesh;
pub use patch::Patch;
pub use skin::skin;
pub use tessellate::{Grid, tessellate};
