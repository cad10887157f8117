//! Welding, moving and joining meshes.

use super::Mesh;
use nalgebra::{Isometry3, Point3};
use std::collections::HashMap;

impl Mesh {
    /// Joins vertices nearer than `tolerance` mm (each to the first kept one it finds) and drops the
    /// triangles that lose a corner by it. Vertices no triangle uses go too.
    pub fn weld(&self, tolerance: f64) -> Self {
        let cell = tolerance.max(1e-12) * 2.0;
        let key = |p: &Point3<f64>, d: [i64; 3]| {
            [0, 1, 2].map(|i| ((p[i] / cell).floor() as i64).saturating_add(d[i]))
        };
        let mut grid: HashMap<[i64; 3], Vec<u32>> = HashMap::new();
        let mut kept: Vec<Point3<f64>> = Vec::new();
        let target: Vec<u32> = self
            .vertices
            .iter()
            .map(|vertex| {
                let near = neighbours().find_map(|d| {
                    grid.get(&key(vertex, d))?
                        .iter()
                        .copied()
                        .find(|&i| (kept[i as usize] - vertex).norm() <= tolerance)
                });
                near.unwrap_or_else(|| {
                    let index = kept.len() as u32;
                    kept.push(*vertex);
                    grid.entry(key(vertex, [0; 3])).or_default().push(index);
                    index
                })
            })
            .collect();
        let triangles = self
            .triangles
            .iter()
            .map(|t| t.map(|i| target[i as usize]))
            .filter(|[a, b, c]| a != b && b != c && c != a)
            .collect();
        Self {
            name: self.name.clone(),
            vertices: kept,
            triangles,
        }
        .without_loose_vertices()
    }

    fn without_loose_vertices(mut self) -> Self {
        let mut place = vec![u32::MAX; self.vertices.len()];
        let mut used = Vec::with_capacity(self.vertices.len());
        for corner in self.triangles.iter_mut().flatten() {
            let old = *corner as usize;
            if place[old] == u32::MAX {
                place[old] = used.len() as u32;
                used.push(self.vertices[old]);
            }
            *corner = place[old];
        }
        self.vertices = used;
        self
    }

    /// The mesh moved rigidly.
    pub fn transform(&self, motion: &Isometry3<f64>) -> Self {
        Self {
            name: self.name.clone(),
            vertices: self.vertices.iter().map(|v| motion * v).collect(),
            triangles: self.triangles.clone(),
        }
    }

    /// The mesh mirrored in the centre plane y = 0, still oriented outward.
    pub fn mirror(&self) -> Self {
        Self {
            name: self.name.clone(),
            vertices: self
                .vertices
                .iter()
                .map(|v| Point3::new(v.x, -v.y, v.z))
                .collect(),
            triangles: self.triangles.iter().map(|&[a, b, c]| [a, c, b]).collect(),
        }
    }

    /// Adds the triangles of `other`; vertices are not joined.
    pub fn append(&mut self, other: &Self) {
        let offset = self.vertices.len() as u32;
        self.vertices.extend_from_slice(&other.vertices);
        let moved = other.triangles.iter().map(|t| t.map(|i| i + offset));
        self.triangles.extend(moved);
    }
}

/// The 27 steps to a cell and its neighbours, the cell itself first.
fn neighbours() -> impl Iterator<Item = [i64; 3]> {
    let steps = [0i64, -1, 1];
    steps
        .into_iter()
        .flat_map(move |x| steps.into_iter().map(move |y| [x, y]))
        .flat_map(move |[x, y]| steps.into_iter().map(move |z| [x, y, z]))
}

#[cfg(test)]
mod tests {
    use super::super::{PlateFrame, extrude};
    use super::*;

    fn block() -> Mesh {
        let ring = [(0.0, 1.0), (4.0, 1.0), (4.0, 4.0), (0.0, 4.0)]
            .map(|(x, y)| nalgebra::Vector2::new(x, y));
        extrude("block", &ring, &[], &PlateFrame::flat(), 2.0).expect("a rectangle is simple")
    }

    #[test]
    fn welding_a_triangle_soup_closes_it() {
        let block = block();
        let mut soup = Mesh {
            name: "soup".into(),
            vertices: vec![],
            triangles: vec![],
        };
        for (n, &triangle) in block.triangles.iter().enumerate() {
            let base = soup.vertices.len() as u32;
            let jitter = 1e-6 * n as f64;
            soup.vertices.extend(
                block
                    .corners(triangle)
                    .map(|c| c + nalgebra::Vector3::repeat(jitter)),
            );
            soup.triangles.push([base, base + 1, base + 2]);
        }
        assert!(!soup.check(1e-9).is_sound());
        let welded = soup.weld(1e-4);
        assert_eq!(welded.vertices.len(), 8);
        assert!(welded.check(1e-9).is_sound(), "{}", welded.check(1e-9));
    }

    #[test]
    fn motions_keep_the_mesh_sound() {
        let block = block();
        let mirrored = block.mirror();
        assert!(mirrored.check(1e-9).is_sound());
        assert!((mirrored.volume() - 24.0).abs() < 1e-12);
        let motion = Isometry3::new(
            nalgebra::Vector3::new(1000.0, 50.0, -3.0),
            nalgebra::Vector3::new(0.3, 1.0, -0.4),
        );
        let moved = block.transform(&motion);
        assert!((moved.volume() - 24.0).abs() < 1e-9);
        let centre = block.centroid().map(|c| motion * c);
        let gap = centre.zip(moved.centroid()).map(|(a, b)| (a - b).norm());
        assert!(gap.is_some_and(|gap| gap < 1e-9));
        let mut pair = block;
        pair.append(&mirrored);
        assert!(pair.check(1e-9).is_sound());
        assert!((pair.volume() - 48.0).abs() < 1e-9);
    }
}
