//! The finished shell as a closed mesh.

use std::collections::HashMap;

use nalgebra::{Point3, Vector2};

use crate::geometry::curve::Vector;
use crate::geometry::mesh::{Mesh, MeshError, triangulate_ring};
use crate::geometry::surface::{Grid, tessellate};
use crate::shape::{End, Shell};

/// Points nearer than this, mm, are one vertex.
const SAME: f64 = 1e-6;

/// A closed mesh of the whole shell, within `tolerance` mm of its patches.
///
/// Starboard and port share the vertices on the centre plane, neighbouring patches those of their border, the cleft's walls and
/// flat ends those of the lines they spring from; at a pole a whole row is one vertex and its empty triangles are left out.
pub fn shell_mesh(shell: &Shell, tolerance: f64) -> Result<Mesh, MeshError> {
    let grids = tessellate(&shell.patches, tolerance);
    let mut builder = Builder::default();
    for grid in &grids {
        builder.outer(grid);
    }
    if let (Some(_), Some(grid)) = (&shell.wall, grids.first()) {
        builder.wall(grid);
    }
    let rows = [
        grids.first().map(|g| row(g, 0)),
        grids.last().map(|g| row(g, g.u.len() - 1)),
    ];
    for ((row, end), tail) in rows.into_iter().zip(shell.ends).zip([true, false]) {
        if let (Some(row), End::Face) = (row, end) {
            builder.face(&row, tail)?;
        }
    }
    Ok(Mesh {
        name: "shell".into(),
        vertices: builder.vertices,
        triangles: builder.triangles,
    })
}

fn row(grid: &Grid, index: usize) -> Vec<Vector<3>> {
    let n = grid.v.len();
    grid.points[index * n..(index + 1) * n].to_vec()
}

#[derive(Default)]
struct Builder {
    vertices: Vec<Point3<f64>>,
    triangles: Vec<[u32; 3]>,
    ids: HashMap<[i64; 3], u32>,
}

impl Builder {
    fn vertex(&mut self, p: &Vector<3>, port: bool) -> u32 {
        let y = if p.y.abs() < SAME {
            0.0
        } else if port {
            -p.y
        } else {
            p.y
        };
        let point = Point3::new(p.x, y, p.z);
        let key = [point.x, point.y, point.z].map(|c| (c / SAME).round() as i64);
        *self.ids.entry(key).or_insert_with(|| {
            self.vertices.push(point);
            (self.vertices.len() - 1) as u32
        })
    }

    /// A starboard triangle and its mirror image.
    fn both(&mut self, corners: [&Vector<3>; 3]) {
        let [a, b, c] = corners.map(|p| self.vertex(p, false));
        self.triangle([a, b, c]);
        let [a, b, c] = corners.map(|p| self.vertex(p, true));
        self.triangle([a, c, b]);
    }

    fn triangle(&mut self, t: [u32; 3]) {
        if t[0] != t[1] && t[1] != t[2] && t[2] != t[0] {
            self.triangles.push(t);
        }
    }

    /// Two triangles a cell, split along the shorter diagonal; `dv × du` points outward.
    ///
    /// Where a stem meets the keel the diagonal that would leave a triangle in the centre plane, the same on both sides, is
    /// not taken.
    fn outer(&mut self, grid: &Grid) {
        let n = grid.v.len();
        let flat = |t: &[&Vector<3>; 3]| t.iter().all(|p| p.y.abs() < SAME);
        for i in 0..grid.u.len() - 1 {
            for j in 0..n - 1 {
                let p = |di: usize, dj: usize| &grid.points[(i + di) * n + j + dj];
                let (a, b, c, d) = (p(0, 0), p(0, 1), p(1, 1), p(1, 0));
                let (first, second) = ([[a, b, c], [a, c, d]], [[a, b, d], [b, c, d]]);
                let shorter = (c - a).norm_squared() <= (d - b).norm_squared();
                let (wanted, other) = if shorter {
                    (first, second)
                } else {
                    (second, first)
                };
                let split = if wanted.iter().any(flat) {
                    other
                } else {
                    wanted
                };
                for t in split.into_iter().filter(|t| !flat(t)) {
                    self.both(t);
                }
            }
        }
    }

    /// The cleft's wall between the first and the last line of the tail patch's grid.
    fn wall(&mut self, grid: &Grid) {
        let n = grid.v.len();
        for i in 0..grid.u.len() - 1 {
            let (bottom, deck) = (&grid.points[i * n], &grid.points[i * n + n - 1]);
            let (bottom_on, deck_on) =
                (&grid.points[(i + 1) * n], &grid.points[(i + 1) * n + n - 1]);
            self.both([bottom, bottom_on, deck_on]);
            self.both([bottom, deck_on, deck]);
        }
    }

    /// A flat end across both sides.
    fn face(&mut self, row: &[Vector<3>], tail: bool) -> Result<(), MeshError> {
        let starboard: Vec<u32> = row.iter().map(|p| self.vertex(p, false)).collect();
        let port: Vec<u32> = row.iter().rev().map(|p| self.vertex(p, true)).collect();
        let mut ring: Vec<u32> = starboard.into_iter().chain(port).collect();
        ring.dedup();
        if ring.first() == ring.last() {
            ring.pop();
        }
        let points: Vec<Vector2<f64>> = ring
            .iter()
            .map(|i| Vector2::new(self.vertices[*i as usize].y, self.vertices[*i as usize].z))
            .collect();
        for t in triangulate_ring(&points)? {
            let [a, b, c] = t.map(|i| ring[i as usize]);
            // Counter-clockwise in (y, z) looks towards the tail from outside only at the nose.
            self.triangle(if tail { [a, c, b] } else { [a, b, c] });
        }
        Ok(())
    }
}
