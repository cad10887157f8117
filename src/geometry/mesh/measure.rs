//! Volume, area, bounds and centroid.

use super::Mesh;
use nalgebra::{Point3, Vector3};

impl Mesh {
    /// The corners of a triangle.
    pub fn corners(&self, triangle: [u32; 3]) -> [Point3<f64>; 3] {
        triangle.map(|i| self.vertices[i as usize])
    }

    /// Twice each triangle's area vector, seen from the mesh's first vertex so that big offsets cost no digits.
    fn edge_pairs(&self) -> impl Iterator<Item = [Vector3<f64>; 3]> + '_ {
        let origin = self.vertices.first().copied().unwrap_or_default();
        self.triangles
            .iter()
            .map(move |&t| self.corners(t).map(|corner| corner - origin))
    }

    /// Signed volume, mm³, positive when triangles are counter-clockwise seen from outside. It means
    /// something only for a closed mesh.
    pub fn volume(&self) -> f64 {
        self.edge_pairs()
            .map(|[a, b, c]| a.dot(&b.cross(&c)))
            .sum::<f64>()
            / 6.0
    }

    /// Surface area, mm².
    pub fn area(&self) -> f64 {
        self.edge_pairs()
            .map(|[a, b, c]| (b - a).cross(&(c - a)).norm())
            .sum::<f64>()
            / 2.0
    }

    /// Lowest and highest corner of the upright box; `None` without vertices.
    pub fn bounds(&self) -> Option<(Point3<f64>, Point3<f64>)> {
        let first = *self.vertices.first()?;
        Some(
            self.vertices
                .iter()
                .fold((first, first), |(low, high), v| (low.inf(v), high.sup(v))),
        )
    }

    /// Centre of the enclosed volume; `None` when there is no volume.
    pub fn centroid(&self) -> Option<Point3<f64>> {
        let origin = *self.vertices.first()?;
        let (mut volume, mut moment) = (0.0, Vector3::zeros());
        for [a, b, c] in self.edge_pairs() {
            let six = a.dot(&b.cross(&c));
            volume += six;
            moment += (a + b + c) * six;
        }
        (volume.abs() > f64::MIN_POSITIVE).then(|| origin + moment / (4.0 * volume))
    }
}
