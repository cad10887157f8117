//! The curvature that no flat sheet has.

use super::FlattenError;
use super::elements::{elements, neighbours};
use crate::geometry::curve::Vector;

/// Total Gauss curvature of a disc of triangles, radians: the sum over its inner vertices of 2π less the angles round them.
///
/// By Gauss–Bonnet it is ∬ K dA of the surface the triangles stand for, with an error of the order of their size (do Carmo,
/// *Differential Geometry of Curves and Surfaces*, 1976, section 4-5). Zero for anything developable; a spherical cap of
/// half-angle θ has 2π (1 − cos θ).
///
/// # Errors
///
/// [`FlattenError`] if the mesh is no disc of sound triangles.
pub fn angle_deficit(points: &[Vector<3>], triangles: &[[u32; 3]]) -> Result<f64, FlattenError> {
    let elements = elements(points, triangles)?;
    let neighbours = neighbours(points.len(), &elements);
    let mut round = vec![(0usize, 0.0); points.len()];
    for e in &elements {
        for k in 0..3 {
            let [a, b, c] = [0, 1, 2].map(|i| e.corners[(k + i) % 3]);
            let (p, q) = (points[b] - points[a], points[c] - points[a]);
            round[a].0 += 1;
            round[a].1 += p.cross(&q).norm().atan2(p.dot(&q));
        }
    }
    // An inner vertex has as many triangles as neighbours, one on the border has one fewer.
    let inner = round
        .iter()
        .zip(&neighbours)
        .filter(|(r, n)| r.0 == n.len());
    Ok(inner.map(|(r, _)| std::f64::consts::TAU - r.1).sum())
}
