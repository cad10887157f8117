//! Least-squares conformal map.

use super::FlattenError;
use super::elements::{Element, elements, neighbours};
use super::plane_system::PlaneSystem;
use crate::geometry::curve::Vector;

/// The least-squares conformal map of a disc of triangles with two vertices held at given places.
///
/// Minimises ∑ A ‖J − cof J‖² / 2 over the triangles, the departure from angle keeping (Lévy, Petitjean, Ray & Maillot,
/// *Least squares conformal maps for automatic texture atlas generation*, ACM Trans. Graph. 21, 2002). Lengths in mm.
///
/// # Errors
///
/// [`FlattenError`] where the mesh is no disc of sound triangles, or where the two held vertices coincide.
pub fn conformal_map(
    points: &[Vector<3>],
    triangles: &[[u32; 3]],
    held: [(usize, Vector<2>); 2],
) -> Result<Vec<Vector<2>>, FlattenError> {
    let elements = elements(points, triangles)?;
    let bad = held[0].0 == held[1].0 || held.iter().any(|h| h.0 >= points.len());
    if bad || !held.iter().all(|h| h.1.iter().all(|c| c.is_finite())) {
        return Err(FlattenError::NotADisc("the two held vertices are one"));
    }
    conformal(&elements, &neighbours(points.len(), &elements), held, &[])
}

/// As [`conformal_map`], the vertices of `axis` being held to the x axis besides.
pub(super) fn conformal(
    elements: &[Element],
    neighbours: &[Vec<u32>],
    held: [(usize, Vector<2>); 2],
    axis: &[usize],
) -> Result<Vec<Vector<2>>, FlattenError> {
    let mut pins: Vec<(usize, usize)> = held.iter().flat_map(|h| [(h.0, 0), (h.0, 1)]).collect();
    pins.extend(axis.iter().map(|&v| (v, 1)));
    let place = |v: usize| {
        held.iter()
            .find(|h| h.0 == v)
            .map_or(Vector::<2>::zeros(), |h| h.1)
    };
    let mut system = PlaneSystem::new(neighbours, &pins);
    system.clear(1.0);
    for e in elements {
        for (&v, g) in e.corners.iter().zip(&e.gradients) {
            for (&w, h) in e.corners.iter().zip(&e.gradients) {
                let (same, turn) = (e.area * g.dot(h), e.area * g.perp(h));
                system.block(v, w, [[same, -turn], [turn, same]], &place(w));
            }
        }
    }
    if !system.factor() {
        return Err(FlattenError::NotADisc(
            "the conformal map is not determined",
        ));
    }
    let mut flat = system.solve();
    for (v, p) in held {
        flat[v] = p;
    }
    Ok(flat)
}
