//! Patches as triangles.

use super::{Patch, tessellate};
use crate::geometry::mesh::Mesh;
use nalgebra::Point3;

/// Points nearer than this, mm, are one vertex.
const SAME: f64 = 1e-6;

/// Triangles within `tolerance` mm of the patches, looking outward where `dv × du` does; borders stay open.
///
/// The patches share their v knots, as in [`tessellate`]. Joined to its mirror image by [`Mesh::append`] and [`Mesh::weld`], half a body whose ends are
/// points becomes a solid that passes [`Mesh::check`]; two halves want flat faces where the ends are not.
pub fn patch_mesh(name: &str, patches: &[Patch], tolerance: f64) -> Mesh {
    let mut mesh = Mesh {
        name: name.to_owned(),
        vertices: Vec::new(),
        triangles: Vec::new(),
    };
    for grid in tessellate(patches, tolerance) {
        let first = mesh.vertices.len();
        let columns = grid.v.len();
        mesh.vertices
            .extend(grid.points.iter().map(|p| Point3::from(*p)));
        for i in 0..grid.u.len() - 1 {
            for j in 0..columns - 1 {
                let corner = |di, dj| (first + (i + di) * columns + j + dj) as u32;
                let (a, b, c, d) = (corner(0, 0), corner(0, 1), corner(1, 1), corner(1, 0));
                let length = |p: u32, q: u32| {
                    (mesh.vertices[p as usize] - mesh.vertices[q as usize]).norm_squared()
                };
                let pair = if length(a, c) <= length(b, d) {
                    [[a, b, c], [a, c, d]]
                } else {
                    [[a, b, d], [b, c, d]]
                };
                mesh.triangles.extend(pair);
            }
        }
    }
    mesh.weld(SAME)
}
