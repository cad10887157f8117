//! Laying a surface flat with the least stretch.

use super::FlattenError;
use super::conformal::conformal;
use super::elements::{Element, elements, neighbours};
use super::rigid::{energy, local_global, newton};
use crate::geometry::curve::Vector;

/// A triangulated surface laid flat.
#[derive(Debug, Clone, PartialEq)]
pub struct Flattening {
    /// Place of every vertex in the plane, mm.
    pub flat: Vec<Vector<2>>,
    /// What happened to every triangle.
    pub stretches: Vec<Stretch>,
    /// ∑ A ‖J − R‖² over the triangles, mm².
    pub energy: f64,
    /// Newton rounds taken.
    pub rounds: usize,
}

/// How a triangle of the surface maps to the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Greater singular value: flat length over length on the surface in the direction most enlarged.
    pub greater: f64,
    /// Lesser singular value; negative where the triangle lies upside down.
    pub lesser: f64,
    /// Orthonormal directions in the triangle's plane.
    frame: [Vector<3>; 2],
    /// Their images in the plane.
    map: [Vector<2>; 2],
}

impl Stretch {
    fn new(element: &Element, flat: &[Vector<2>]) -> Self {
        let map = element.map(flat);
        let [p, q] = map;
        // Singular values from the similar and the anti-similar part of the map.
        let (like, unlike) = (
            (p.x + q.y).hypot(p.y - q.x) / 2.0,
            (p.x - q.y).hypot(p.y + q.x) / 2.0,
        );
        Self {
            greater: like + unlike,
            lesser: like - unlike,
            frame: element.frame,
            map,
        }
    }

    /// Strain that the flat sheet takes on being bent back to the surface, in the direction `along` in space (its part in the
    /// triangle's plane counts): (length on the surface − flat length) / flat length. Positive is tension.
    pub fn strain(&self, along: &Vector<3>) -> f64 {
        let (x, y) = (self.frame[0].dot(along), self.frame[1].dot(along));
        let length = x.hypot(y);
        let image = (self.map[0] * x + self.map[1] * y).norm();
        length / image - 1.0
    }

    /// The strain of greatest size in any direction, with its sign.
    pub fn worst(&self) -> f64 {
        let (tension, compression) = (1.0 / self.lesser - 1.0, 1.0 / self.greater - 1.0);
        if tension.abs() >= compression.abs() {
            tension
        } else {
            compression
        }
    }

    /// Area on the surface over flat area, less 1.
    pub fn area_strain(&self) -> f64 {
        1.0 / (self.greater * self.lesser) - 1.0
    }
}

/// Rounds of the local/global scheme before Newton's method takes over.
const LOCAL_GLOBAL: usize = 3;
/// The flat vertices are at rest when Newton's last step, whose error is of the order of its square, is within this share of the extent.
const REST: f64 = 1e-7;

/// Lays a disc of triangles flat, as rigidly as possible. Places in mm.
///
/// Minimises ∑ A ‖J − R‖², with R the nearest rotation to the triangle's map J (Liu, Zhang, Xu, Gotsman & Gortler, *A
/// local/global approach to mesh parameterization*, Computer Graphics Forum 27, 2008; the weights ∫∇φᵢ·∇φⱼ are the
/// cotangents). It starts from the least-squares conformal map scaled to the surface's area, takes a few rounds of their
/// local/global scheme and ends with Newton's method, whose last step is below 1e-7 of the extent: local/global alone takes
/// hundreds of rounds over a long narrow panel. The flat image is counter-clockwise where the triangles are, with its
/// first vertex and the one farthest from it along x.
///
/// A developable surface comes out with strains of the order of the squares of its triangles' turning; any other has the strain that
/// Gauss's theorema egregium forces on it, shared out by least squares.
///
/// # Errors
///
/// [`FlattenError`] if the mesh is no disc of sound triangles, if the search does not settle, or if triangles fold over.
pub fn flatten(points: &[Vector<3>], triangles: &[[u32; 3]]) -> Result<Flattening, FlattenError> {
    lay(points, triangles, farthest(points, 0), &[])
}

/// Lays flat half of a disc that is its own mirror image, as [`flatten`] would lay the whole, in a fraction of the time.
///
/// `seam` are the vertices on the plane of symmetry from one end to the other, the first being vertex 0; they come to lie on the x
/// axis.
pub(super) fn flatten_half(
    points: &[Vector<3>],
    triangles: &[[u32; 3]],
    seam: &[usize],
) -> Result<Flattening, FlattenError> {
    let far = seam.last().copied().unwrap_or(0);
    lay(points, triangles, far, seam)
}

/// Vertex 0 comes to the origin, vertex `far` and those of `axis` onto the x axis.
fn lay(
    points: &[Vector<3>],
    triangles: &[[u32; 3]],
    far: usize,
    axis: &[usize],
) -> Result<Flattening, FlattenError> {
    let elements = elements(points, triangles)?;
    let neighbours = neighbours(points.len(), &elements);
    let start = 0;
    let reach = (points[far] - points[start]).norm();
    let held = [
        (start, Vector::<2>::zeros()),
        (far, Vector::<2>::new(reach, 0.0)),
    ];
    let mut flat = conformal(&elements, &neighbours, held, axis)?;
    to_scale(&elements, &mut flat);
    local_global(&elements, &neighbours, &mut flat, axis, LOCAL_GLOBAL);
    let rounds = newton(
        &elements,
        &neighbours,
        &mut flat,
        [start, far],
        axis,
        REST * reach,
    )?;
    let stretches: Vec<Stretch> = elements.iter().map(|e| Stretch::new(e, &flat)).collect();
    let mut folded = stretches.iter().enumerate().filter(|s| s.1.lesser <= 0.0);
    if let Some((first, _)) = folded.next() {
        return Err(FlattenError::Folded {
            count: 1 + folded.count(),
            first,
        });
    }
    Ok(Flattening {
        energy: energy(&elements, &flat),
        flat,
        stretches,
        rounds,
    })
}

fn farthest(points: &[Vector<3>], from: usize) -> usize {
    let distance = |i: usize| (points[i] - points[from]).norm_squared();
    (0..points.len())
        .max_by(|&i, &j| distance(i).total_cmp(&distance(j)))
        .unwrap_or(from)
}

/// Scales the flat image to the surface's area.
fn to_scale(elements: &[Element], flat: &mut [Vector<2>]) {
    let area: f64 = elements.iter().map(|e| e.area).sum();
    let image: f64 = elements
        .iter()
        .map(|e| {
            let [p, q] = e.map(flat);
            e.area * p.perp(&q)
        })
        .sum();
    let scale = (area / image).sqrt();
    if scale.is_finite() && scale > 0.0 {
        for p in flat.iter_mut() {
            *p *= scale;
        }
    }
}
