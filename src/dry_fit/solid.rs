//! A solid that tells how far a point lies inside or outside it.

use nalgebra::Point3;
use parry3d_f64::math::Vector;
use parry3d_f64::query::PointQuery;
use parry3d_f64::shape::{TriMesh, TriMeshFlags};

use super::FitError;
use crate::mesh::Mesh;

/// Samples of a surface are at most this far apart, mm.
const SAMPLE: f64 = 4.0;
/// Slivers thinner than this, mm, are not meshes' own but rounding.
const SCALE: f64 = 1e-9;

/// A closed mesh made ready for distances.
pub struct Solid {
    mesh: TriMesh,
    /// Places on its surface.
    samples: Vec<Point3<f64>>,
    /// Least and greatest corner.
    bounds: [Point3<f64>; 2],
}

impl Solid {
    /// Takes a closed mesh.
    pub fn new(mesh: &Mesh) -> Result<Self, FitError> {
        let open = |report: String| FitError::Open {
            part: mesh.name.clone(),
            report,
        };
        let report = mesh.check(SCALE);
        if report.open_edges > 0 || report.volume.is_nan() || report.volume <= 0.0 {
            return Err(open(report.to_string()));
        }
        let vertices = mesh
            .vertices
            .iter()
            .map(|p| Vector::new(p.x, p.y, p.z))
            .collect();
        let tri = TriMesh::with_flags(vertices, mesh.triangles.clone(), TriMeshFlags::ORIENTED)
            .map_err(|error| open(error.to_string()))?;
        let mut bounds = [mesh.vertices[0]; 2];
        for p in &mesh.vertices {
            for axis in 0..3 {
                bounds[0][axis] = bounds[0][axis].min(p[axis]);
                bounds[1][axis] = bounds[1][axis].max(p[axis]);
            }
        }
        Ok(Self {
            mesh: tri,
            samples: samples(mesh),
            bounds,
        })
    }

    /// Places on the surface, its corners among them.
    pub fn samples(&self) -> &[Point3<f64>] {
        &self.samples
    }

    /// Least and greatest corner.
    pub fn bounds(&self) -> &[Point3<f64>; 2] {
        &self.bounds
    }

    /// Distance of a point from the surface, mm, negative inside; `None` beyond `reach`.
    ///
    /// The sign is that of the nearest feature's pseudonormal (Bærentzen & Aanæs, *Signed distance computation using the angle
    /// weighted pseudonormal*, 2005).
    pub fn distance(&self, p: &Point3<f64>, reach: f64) -> Option<f64> {
        let point = Vector::new(p.x, p.y, p.z);
        let near = self
            .mesh
            .project_local_point_with_max_dist(point, false, reach)?;
        let distance = (near.point - point).length();
        Some(if near.is_inside { -distance } else { distance })
    }
}

impl Solid {
    /// Whether a point lies inside, by the mesh's winding number about it: slow, and never mistaken on a closed mesh.
    ///
    /// Solid angles after van Oosterom & Strackee, *The solid angle of a plane triangle* (1983).
    pub fn encloses(&self, p: &Point3<f64>) -> bool {
        let point = Vector::new(p.x, p.y, p.z);
        let vertices = self.mesh.vertices();
        let angle = |t: &[u32; 3]| {
            let [a, b, c] = t.map(|i| vertices[i as usize] - point);
            let (la, lb, lc) = (a.length(), b.length(), c.length());
            let above = a.dot(b.cross(c));
            let below = la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb;
            2.0 * above.atan2(below)
        };
        let whole: f64 = self.mesh.indices().iter().map(angle).sum();
        whole > 2.0 * std::f64::consts::PI
    }
}

/// The mesh's corners, places along its long edges, and places within its large triangles.
fn samples(mesh: &Mesh) -> Vec<Point3<f64>> {
    let mut out = mesh.vertices.clone();
    for &t in &mesh.triangles {
        let [a, b, c] = mesh.corners(t);
        for (i, j, p, q) in [(t[0], t[1], a, b), (t[1], t[2], b, c), (t[2], t[0], c, a)] {
            // Each edge belongs to two triangles.
            let count = ((q - p).norm() / SAMPLE).ceil() as usize;
            if i < j {
                out.extend((1..count).map(|k| p + (q - p) * (k as f64 / count as f64)));
            }
        }
        let longest = (b - a).norm().max((c - b).norm()).max((a - c).norm());
        let altitude = (b - a).cross(&(c - a)).norm() / longest.max(1e-12);
        if altitude > SAMPLE {
            let n = (longest / SAMPLE).ceil() as usize;
            for i in 1..n {
                for j in 1..n - i {
                    let (u, v) = (i as f64 / n as f64, j as f64 / n as f64);
                    out.push(a + (b - a) * u + (c - a) * v);
                }
            }
        }
    }
    out
}
