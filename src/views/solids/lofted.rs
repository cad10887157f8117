//! Lofted bodies as closed meshes.

use std::collections::HashMap;

use nalgebra::{Point3, Vector2};

use crate::geometry::lofted::{Lofted, Slice};
use crate::geometry::mesh::{Mesh, MeshError, triangulate_ring};

/// Points nearer than this, mm, are one vertex.
const SAME: f64 = 1e-6;

/// A closed mesh of `body`: its sections' corners joined by straight generators, both ends capped. Corners that coincide
/// are one vertex, so that sides may close to an edge or a point.
pub fn lofted_solid(body: &Lofted) -> Result<Mesh, MeshError> {
    let mut builder = Builder::default();
    let rings: Vec<Vec<u32>> = body.slices.iter().map(|s| builder.ring(s)).collect();
    for w in rings.windows(2) {
        let (aft, fore) = (&w[0], &w[1]);
        for k in 0..aft.len().min(fore.len()) {
            let next = (k + 1) % aft.len();
            // Counter-clockwise seen from the nose, so that the outside is to the right of the ring.
            let (Some(&a), Some(&b)) = (aft.get(k), aft.get(next)) else {
                continue;
            };
            let (Some(&d), Some(&c)) = (fore.get(k), fore.get(next)) else {
                continue;
            };
            builder.quad([a, b, c, d]);
        }
    }
    if let (Some(first), Some(last)) = (rings.first(), rings.last()) {
        builder.cap(first, true)?;
        builder.cap(last, false)?;
    }
    Ok(Mesh {
        name: body.name.clone(),
        vertices: builder.vertices,
        triangles: builder.triangles,
    })
}

#[derive(Default)]
struct Builder {
    vertices: Vec<Point3<f64>>,
    triangles: Vec<[u32; 3]>,
    ids: HashMap<[i64; 3], u32>,
}

impl Builder {
    fn ring(&mut self, slice: &Slice) -> Vec<u32> {
        slice
            .ring
            .iter()
            .map(|p| {
                let point = Point3::new(slice.x, p.x, p.y);
                let key = [point.x, point.y, point.z].map(|c| (c / SAME).round() as i64);
                *self.ids.entry(key).or_insert_with(|| {
                    self.vertices.push(point);
                    (self.vertices.len() - 1) as u32
                })
            })
            .collect()
    }

    fn triangle(&mut self, t: [u32; 3]) {
        if t[0] != t[1] && t[1] != t[2] && t[2] != t[0] {
            self.triangles.push(t);
        }
    }

    /// Two triangles, split along the shorter diagonal.
    fn quad(&mut self, [a, b, c, d]: [u32; 4]) {
        let at = |i: u32| self.vertices.get(i as usize).copied().unwrap_or_default();
        if (at(c) - at(a)).norm_squared() <= (at(d) - at(b)).norm_squared() {
            self.triangle([a, b, c]);
            self.triangle([a, c, d]);
        } else {
            self.triangle([a, b, d]);
            self.triangle([b, c, d]);
        }
    }

    fn cap(&mut self, ring: &[u32], aft: bool) -> Result<(), MeshError> {
        let mut ring = ring.to_vec();
        ring.dedup();
        while ring.len() > 1 && ring.first() == ring.last() {
            ring.pop();
        }
        // Closed to an edge or a point: nothing to cap.
        if ring.len() < 3 {
            return Ok(());
        }
        let points: Vec<Vector2<f64>> = ring
            .iter()
            .filter_map(|i| self.vertices.get(*i as usize))
            .map(|p| Vector2::new(p.y, p.z))
            .collect();
        for t in triangulate_ring(&points)? {
            let corner = |i: u32| ring.get(i as usize).copied().unwrap_or(0);
            let [a, b, c] = t.map(corner);
            self.triangle(if aft { [a, c, b] } else { [a, b, c] });
        }
        Ok(())
    }
}
