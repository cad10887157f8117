//! A solid that tells how far a point lies inside or outside it.

use std::sync::Arc;

use nalgebra::Point3;
use parry3d_f64::math::Vector;
use parry3d_f64::query::PointQuery;
use parry3d_f64::shape::{TriMesh, TriMeshFlags};

use super::FitError;
use super::heights::Heights;
use super::limits::{OVERLAP, REACH};
use crate::geometry::mesh::Mesh;

/// Samples of a surface are at most this far apart, mm.
const SAMPLE: f64 = 4.0;
/// Slivers thinner than this, mm, are not meshes' own but rounding.
const SCALE: f64 = 1e-9;

/// A closed mesh made ready for distances.
pub struct Solid {
    /// Triangles that some neighbour may reach; none where there are no such triangles.
    near: Option<TriMesh>,
    vertices: Vec<Vector>,
    triangles: Vec<[u32; 3]>,
    /// Places on its surface.
    samples: Vec<Point3<f64>>,
    /// Where it is.
    place: Arc<Place>,
}

/// Where a closed mesh is.
pub(super) struct Place {
    /// Least and greatest corner.
    bounds: [Point3<f64>; 2],
    /// For places in it.
    within: Heights,
    /// For places beside it.
    beside: Heights,
}

impl Place {
    /// Of a mesh, if it is closed.
    pub(super) fn new(mesh: &Mesh) -> Result<Self, FitError> {
        if !mesh.is_closed() {
            return Err(open(mesh, mesh.check(SCALE)));
        }
        let mut bounds = [mesh.vertices[0]; 2];
        for p in &mesh.vertices {
            for axis in 0..3 {
                bounds[0][axis] = bounds[0][axis].min(p[axis]);
                bounds[1][axis] = bounds[1][axis].max(p[axis]);
            }
        }
        Ok(Self {
            within: Heights::new(mesh, &bounds, OVERLAP),
            beside: Heights::new(mesh, &bounds, REACH),
            bounds,
        })
    }
}

fn open(mesh: &Mesh, report: impl ToString) -> FitError {
    FitError::Open {
        part: mesh.name.clone(),
        report: report.to_string(),
    }
}

impl Solid {
    /// Takes a closed mesh.
    pub fn new(mesh: &Mesh) -> Result<Self, FitError> {
        Self::of(mesh, Arc::new(Place::new(mesh)?), mesh.triangles.clone())
    }

    /// A mesh in its place, made ready for distances from its neighbours' surfaces up to [`REACH`] alone.
    pub(super) fn among(
        mesh: &Mesh,
        place: Arc<Place>,
        neighbours: &[Arc<Place>],
    ) -> Result<Self, FitError> {
        let kept = |t: &&[u32; 3]| {
            let [a, b, c] = mesh.corners(**t);
            let corners = [a.inf(&b).inf(&c), a.sup(&b).sup(&c)];
            neighbours
                .iter()
                .any(|n| n.beside.near_box(&corners, REACH))
        };
        let triangles = mesh.triangles.iter().filter(kept).copied().collect();
        Self::of(mesh, place, triangles)
    }

    /// A mesh of which these triangles are asked for distances.
    fn of(mesh: &Mesh, place: Arc<Place>, near: Vec<[u32; 3]>) -> Result<Self, FitError> {
        let vertices: Vec<Vector> = mesh
            .vertices
            .iter()
            .map(|p| Vector::new(p.x, p.y, p.z))
            .collect();
        let near = if near.is_empty() {
            None
        } else {
            let (corners, near) = compact(&vertices, near);
            let tri = TriMesh::with_flags(corners, near, TriMeshFlags::ORIENTED);
            Some(tri.map_err(|error| open(mesh, error))?)
        };
        Ok(Self {
            near,
            vertices,
            triangles: mesh.triangles.clone(),
            samples: samples(mesh),
            place,
        })
    }

    /// Places on the surface, its corners among them.
    pub fn samples(&self) -> &[Point3<f64>] {
        &self.samples
    }

    /// Least and greatest corner.
    pub fn bounds(&self) -> &[Point3<f64>; 2] {
        &self.place.bounds
    }

    /// Whether a point may be inside, or outside by `distance` at most, which is no more than the limit of overlaps.
    pub(super) fn may_hold(&self, p: &Point3<f64>, distance: f64) -> bool {
        self.place.within.near(p, distance)
    }

    /// Whether a point may be inside, or no further than `distance` outside, which is no more than the greatest gap told apart.
    pub(super) fn may_reach(&self, p: &Point3<f64>, distance: f64) -> bool {
        self.place.beside.near(p, distance)
    }

    /// Distance of a point from the surface, mm, negative inside; `None` beyond `reach`.
    ///
    /// The sign is that of the nearest feature's pseudonormal (Bærentzen & Aanæs, *Signed distance computation using the angle
    /// weighted pseudonormal*, 2005).
    pub fn distance(&self, p: &Point3<f64>, reach: f64) -> Option<f64> {
        let point = Vector::new(p.x, p.y, p.z);
        let near = self
            .near
            .as_ref()?
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
        let angle = |t: &[u32; 3]| {
            let [a, b, c] = t.map(|i| self.vertices[i as usize] - point);
            let (la, lb, lc) = (a.length(), b.length(), c.length());
            let above = a.dot(b.cross(c));
            let below = la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb;
            2.0 * above.atan2(below)
        };
        let whole: f64 = self.triangles.iter().map(angle).sum();
        whole > 2.0 * std::f64::consts::PI
    }
}

/// The vertices that triangles have, and the triangles by their new numbers.
fn compact(vertices: &[Vector], mut triangles: Vec<[u32; 3]>) -> (Vec<Vector>, Vec<[u32; 3]>) {
    let mut numbers = vec![u32::MAX; vertices.len()];
    let mut kept = Vec::new();
    for corner in triangles.iter_mut().flatten() {
        let number = &mut numbers[*corner as usize];
        if *number == u32::MAX {
            *number = kept.len() as u32;
            kept.push(vertices[*corner as usize]);
        }
        *corner = *number;
    }
    (kept, triangles)
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
        // Rows along the longest side, from `from` to `to`.
        let sides = [(a, b, c), (b, c, a), (c, a, b)];
        let length = |s: &(Point3<f64>, Point3<f64>, Point3<f64>)| (s.1 - s.0).norm();
        let [mut long, second, third] = sides;
        for side in [second, third] {
            if length(&side) > length(&long) {
                long = side;
            }
        }
        let (from, to, apex) = long;
        let longest = length(&long);
        let altitude = (to - from).cross(&(apex - from)).norm() / longest.max(1e-12);
        if altitude > SAMPLE {
            let rows = (altitude / SAMPLE).ceil() as usize;
            for row in 1..rows {
                let up = row as f64 / rows as f64;
                let count = (longest * (1.0 - up) / SAMPLE).ceil() as usize;
                let start = from + (apex - from) * up;
                let step = (to - from) * ((1.0 - up) / count as f64);
                out.extend((1..count).map(|k| start + step * k as f64));
            }
        }
    }
    out
}
