//! Plates: a flat outline with holes given a thickness.

use super::Mesh;
use nalgebra::{Point3, Vector2, Vector3};
use spade::{ConstrainedDelaunayTriangulation, Triangulation};
use std::collections::VecDeque;

/// Why a plate could not be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MeshError {
    /// A number is not finite.
    #[error(
        "{ring}: a coordinate is not a finite number; look for a division by zero in the part that drew it"
    )]
    NotFinite {
        /// The ring.
        ring: Ring,
    },
    /// A ring has fewer than three points.
    #[error("{ring} has {count} points; a ring needs at least three")]
    TooFewPoints {
        /// The ring.
        ring: Ring,
        /// Its points.
        count: usize,
    },
    /// Two ring points coincide.
    #[error("{ring}: point {point} lies on an earlier point; drop it or pull the rings apart")]
    Coincident {
        /// The ring.
        ring: Ring,
        /// Index of the point in its ring.
        point: usize,
    },
    /// A ring crosses or touches itself or another.
    #[error(
        "{ring}: the edge from point {point} crosses or touches another edge; make the rings simple and apart"
    )]
    Crossing {
        /// The ring.
        ring: Ring,
        /// Index of the edge's first point.
        point: usize,
    },
    /// A hole lies outside the outline or inside another hole.
    #[error(
        "the holes do not all lie inside the outline, apart from each other; move or drop the stray one"
    )]
    StrayHole,
    /// A corner lies where nothing of the board can be.
    #[error(
        "{part} has a corner far outside the board, at ({:.0}, {:.0}, {:.0}) mm; make the starters smaller or fewer, or lay them abreast, and report the \
         design file to boardwright's makers",
        at[0], at[1], at[2]
    )]
    Far {
        /// The part.
        part: String,
        /// The corner, mm.
        at: [f64; 3],
    },
    /// The thickness or the frame leaves no volume.
    #[error(
        "the plate has no volume; give it a thickness above zero and a frame with independent axes"
    )]
    NoVolume,
}

/// A ring of a plate, for messages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ring {
    /// The outline.
    Outline,
    /// A hole, by index.
    Hole(usize),
}

impl std::fmt::Display for Ring {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Outline => f.write_str("outline"),
            Self::Hole(index) => write!(f, "hole {index}"),
        }
    }
}

/// Where a plate stands in space: plane point (x, y) at height t is `origin + x·across + y·up + t·through`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateFrame {
    /// Where the plane's origin lies, mm.
    pub origin: Point3<f64>,
    /// The plane's x axis.
    pub across: Vector3<f64>,
    /// The plane's y axis.
    pub up: Vector3<f64>,
    /// Direction of the thickness, of unit length for a true thickness.
    pub through: Vector3<f64>,
}

impl PlateFrame {
    /// The plane z = 0, thickness upward.
    pub fn flat() -> Self {
        Self {
            origin: Point3::origin(),
            across: Vector3::x(),
            up: Vector3::y(),
            through: Vector3::z(),
        }
    }

    /// Where a plane point at height `t` lies.
    pub fn place(&self, point: Vector2<f64>, t: f64) -> Point3<f64> {
        self.origin + self.across * point.x + self.up * point.y + self.through * t
    }
}

/// A watertight plate from an outline and holes, standing in `frame` and `thickness` mm thick along its
/// `through`. Rings may run either way round; every ring point becomes a corner of both caps, collinear
/// ones too, so there are no T-junctions.
pub fn extrude(
    name: &str,
    outline: &[Vector2<f64>],
    holes: &[Vec<Vector2<f64>>],
    frame: &PlateFrame,
    thickness: f64,
) -> Result<Mesh, MeshError> {
    extrude_with(name, outline, holes, |point, top| {
        frame.place(point, if top { thickness } else { 0.0 })
    })
}

/// Like [`extrude`], with the two caps placed by `place(point, top)`: for bevelled or bent plates.
/// The result is turned outward whichever way `place` maps; it fails when it encloses nothing.
pub fn extrude_with(
    name: &str,
    outline: &[Vector2<f64>],
    holes: &[Vec<Vector2<f64>>],
    place: impl Fn(Vector2<f64>, bool) -> Point3<f64>,
) -> Result<Mesh, MeshError> {
    let rings = oriented_rings(outline, holes)?;
    let points: Vec<Vector2<f64>> = rings.iter().flat_map(|(_, ring)| ring.clone()).collect();
    let caps = triangulate(&rings, &points)?;

    let count = points.len() as u32;
    let bottom = points.iter().map(|&p| place(p, false));
    let vertices: Vec<Point3<f64>> = bottom
        .chain(points.iter().map(|&p| place(p, true)))
        .collect();
    if vertices.iter().any(|v| !v.iter().all(|n| n.is_finite())) {
        return Err(MeshError::NotFinite {
            ring: Ring::Outline,
        });
    }
    let mut triangles = Vec::with_capacity(caps.len() * 2 + points.len() * 2);
    for &[a, b, c] in &caps {
        triangles.push([a, c, b]);
        triangles.push([a + count, b + count, c + count]);
    }
    let mut first = 0u32;
    for (_, ring) in &rings {
        let length = ring.len() as u32;
        for i in 0..length {
            let (a, b) = (first + i, first + (i + 1) % length);
            triangles.push([a, b, b + count]);
            triangles.push([a, b + count, a + count]);
        }
        first += length;
    }
    let mut mesh = Mesh {
        name: name.to_owned(),
        vertices,
        triangles,
    };
    let volume = mesh.volume();
    if volume < 0.0 {
        mesh.triangles.iter_mut().for_each(|t| t.swap(1, 2));
    }
    let span = mesh.bounds().map_or(0.0, |(low, high)| (high - low).norm());
    if volume.abs() > 1e-12 * span.powi(3) {
        Ok(mesh)
    } else {
        Err(MeshError::NoVolume)
    }
}

/// Counter-clockwise triangles inside a simple counter-clockwise ring, using its corners only.
pub fn triangulate_ring(ring: &[Vector2<f64>]) -> Result<Vec<[u32; 3]>, MeshError> {
    triangulate(&[(Ring::Outline, ring.to_vec())], ring)
}

type NamedRing = (Ring, Vec<Vector2<f64>>);

/// The outline counter-clockwise and the holes clockwise, their points checked.
fn oriented_rings(
    outline: &[Vector2<f64>],
    holes: &[Vec<Vector2<f64>>],
) -> Result<Vec<NamedRing>, MeshError> {
    let named = holes
        .iter()
        .enumerate()
        .map(|(i, hole)| (Ring::Hole(i), hole.as_slice()));
    std::iter::once((Ring::Outline, outline))
        .chain(named)
        .map(|(ring, points)| {
            if points.len() < 3 {
                let count = points.len();
                return Err(MeshError::TooFewPoints { ring, count });
            }
            if points.iter().any(|p| !(p.x.is_finite() && p.y.is_finite())) {
                return Err(MeshError::NotFinite { ring });
            }
            let mut points = points.to_vec();
            if (ring_area(&points) > 0.0) != (ring == Ring::Outline) {
                points.reverse();
            }
            Ok((ring, points))
        })
        .collect()
}

/// Signed area, counter-clockwise positive.
fn ring_area(points: &[Vector2<f64>]) -> f64 {
    let Some(&origin) = points.first() else {
        return 0.0;
    };
    let pairs = points.iter().zip(points.iter().cycle().skip(1));
    pairs
        .map(|(&a, &b)| (a - origin).perp(&(b - origin)))
        .sum::<f64>()
        / 2.0
}

/// Counter-clockwise triangles between the rings, whose every edge is an edge of the triangulation.
fn triangulate(rings: &[NamedRing], points: &[Vector2<f64>]) -> Result<Vec<[u32; 3]>, MeshError> {
    let mut cdt = ConstrainedDelaunayTriangulation::<spade::Point2<f64>>::new();
    // Spade refuses numbers below 1.8e-43 but for zero.
    let settle = |v: f64| if v.abs() < 1e-30 { 0.0 } else { v };
    let mut handles = Vec::with_capacity(points.len());
    for &(ring, ref points) in rings {
        for (point, p) in points.iter().enumerate() {
            let handle = cdt
                .insert(spade::Point2::new(settle(p.x), settle(p.y)))
                .map_err(|_| MeshError::NotFinite { ring })?;
            if handle.index() < handles.len() {
                return Err(MeshError::Coincident { ring, point });
            }
            handles.push(handle);
        }
    }
    let mut first = 0;
    for &(ring, ref points) in rings {
        for point in 0..points.len() {
            let from = handles[first + point];
            let to = handles[first + (point + 1) % points.len()];
            let crossing = MeshError::Crossing { ring, point };
            if !cdt.can_add_constraint(from, to) {
                return Err(crossing);
            }
            cdt.add_constraint(from, to);
            // A constraint through another point is split there: the rings touch.
            if !cdt.exists_constraint(from, to) {
                return Err(crossing);
            }
        }
        first += points.len();
    }
    let triangles = inner_triangles(&cdt);
    let covered: f64 = triangles
        .iter()
        .map(|t| {
            let [a, b, c] = t.map(|i| points[i as usize]);
            (b - a).perp(&(c - a)) / 2.0
        })
        .sum();
    // Holes count negative; a stray one would add what it should take away.
    let expected: f64 = rings.iter().map(|(_, ring)| ring_area(ring)).sum();
    let scale = ring_area(&rings[0].1).abs();
    if (covered - expected).abs() > 1e-9 * scale {
        return Err(MeshError::StrayHole);
    }
    Ok(triangles)
}

/// Faces an odd number of constraint edges away from the outside.
fn inner_triangles(cdt: &ConstrainedDelaunayTriangulation<spade::Point2<f64>>) -> Vec<[u32; 3]> {
    let mut inside: Vec<Option<bool>> = vec![None; cdt.num_all_faces()];
    let mut queue = VecDeque::new();
    let outer = cdt.outer_face();
    inside[outer.fix().index()] = Some(false);
    for edge in cdt.convex_hull() {
        let face = edge.rev().face().fix();
        if inside[face.index()].is_none() {
            inside[face.index()] = Some(edge.is_constraint_edge());
            queue.push_back(face);
        }
    }
    while let Some(face) = queue.pop_front() {
        let here = inside[face.index()].unwrap_or(false);
        let Some(face) = cdt.face(face).as_inner() else {
            continue;
        };
        for edge in face.adjacent_edges() {
            let next = edge.rev().face().fix();
            if inside[next.index()].is_none() {
                inside[next.index()] = Some(here != edge.is_constraint_edge());
                queue.push_back(next);
            }
        }
    }
    cdt.inner_faces()
        .filter(|face| inside[face.fix().index()] == Some(true))
        .map(|face| face.vertices().map(|v| v.fix().index() as u32))
        .collect()
}
