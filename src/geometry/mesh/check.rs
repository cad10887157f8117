//! Whether a mesh bounds a solid.

use super::edges::EdgeTable;
use super::{Mesh, MeshError};
use nalgebra::Point3;
use std::fmt;

/// What [`Mesh::check`] found; every count is zero and the volume positive for a sound mesh.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct MeshReport {
    /// Number of triangles.
    pub triangles: usize,
    /// Vertices with a coordinate that is not finite.
    pub not_finite: usize,
    /// Triangles with an index beyond the vertices; when there are any, nothing below is counted.
    pub bad_indices: usize,
    /// Directed edges that are not met by exactly one opposite edge: holes, fins, turned triangles.
    pub open_edges: usize,
    /// Triangles with a repeated corner or an altitude below the scale asked for.
    pub degenerate: usize,
    /// Triangles on the same three corners as another.
    pub duplicate: usize,
    /// Signed volume, mm³.
    pub volume: f64,
}

impl MeshReport {
    /// Whether the mesh is a closed, outward, clean solid.
    pub fn is_sound(&self) -> bool {
        self.triangles > 0
            && self.not_finite == 0
            && self.bad_indices == 0
            && self.open_edges == 0
            && self.degenerate == 0
            && self.duplicate == 0
            && self.volume > 0.0
    }
}

impl fmt::Display for MeshReport {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_sound() {
            return write!(f, "sound, {} triangles", self.triangles);
        }
        let counts = [
            (self.not_finite, "vertices that are not finite"),
            (self.bad_indices, "triangles with an index out of range"),
            (self.open_edges, "edges without exactly one opposite"),
            (self.degenerate, "triangles without area"),
            (self.duplicate, "repeated triangles"),
        ];
        let mut first = true;
        let mut part = |f: &mut fmt::Formatter<'_>, text: fmt::Arguments<'_>| {
            let lead = if first { "" } else { ", " };
            first = false;
            write!(f, "{lead}{text}")
        };
        if self.triangles == 0 {
            part(f, format_args!("no triangles"))?;
        }
        for (count, what) in counts {
            if count > 0 {
                part(f, format_args!("{count} {what}"))?;
            }
        }
        if self.triangles > 0 && self.bad_indices == 0 && self.not_finite == 0 && self.volume <= 0.0
        {
            part(
                f,
                format_args!("volume {} mm³ is not positive (inside out?)", self.volume),
            )?;
        }
        Ok(())
    }
}

impl Mesh {
    /// Refuses a corner outside the upright box from `low` to `high` grown by `margin` mm on every side, or one that is not finite.
    pub fn within(&self, [low, high]: &[Point3<f64>; 2], margin: f64) -> Result<(), MeshError> {
        let inside = |p: &Point3<f64>| {
            // NaN has no order and so lies outside.
            (0..3).all(|i| p[i] >= low[i] - margin && p[i] <= high[i] + margin)
        };
        match self.vertices.iter().find(|p| !inside(p)) {
            None => Ok(()),
            Some(p) => Err(MeshError::Far {
                part: self.name.clone(),
                at: [p.x, p.y, p.z],
            }),
        }
    }

    /// Checks that the mesh is a closed 2-manifold by edges (each directed edge matched once by its
    /// opposite), outward, finite, and without repeated triangles or ones whose smallest altitude is not
    /// above `scale` mm. It does not look for triangles that cross each other.
    pub fn check(&self, scale: f64) -> MeshReport {
        let count = self.vertices.len();
        let not_finite = self
            .vertices
            .iter()
            .filter(|v| !v.iter().all(|n| n.is_finite()))
            .count();
        let in_range = |t: &&[u32; 3]| t.iter().all(|&i| (i as usize) < count);
        let bad_indices = self.triangles.len() - self.triangles.iter().filter(in_range).count();
        let mut report = MeshReport {
            triangles: self.triangles.len(),
            not_finite,
            bad_indices,
            open_edges: 0,
            degenerate: 0,
            duplicate: 0,
            volume: 0.0,
        };
        if bad_indices > 0 {
            return report;
        }
        let edges = EdgeTable::new(count, &self.triangles).faults(&self.triangles);
        report.open_edges = edges.unmatched;
        report.degenerate = self
            .triangles
            .iter()
            .filter(|&&t| self.is_degenerate(t, scale))
            .count();
        report.duplicate = self.duplicates();
        report.volume = self.volume();
        report
    }

    /// Whether the mesh bounds a solid: every edge met by its opposite once, and a volume above zero. Thin triangles are no matter.
    pub fn is_closed(&self) -> bool {
        let count = self.vertices.len();
        let known = self
            .triangles
            .iter()
            .flatten()
            .all(|&i| (i as usize) < count);
        known
            && EdgeTable::new(count, &self.triangles)
                .faults(&self.triangles)
                .unmatched
                == 0
            && self.volume() > 0.0
    }

    /// Whether a triangle repeats a corner or its smallest altitude is not above `scale`.
    fn is_degenerate(&self, triangle: [u32; 3], scale: f64) -> bool {
        let [a, b, c] = self.corners(triangle);
        let longest = (b - a).norm().max((c - b).norm()).max((a - c).norm());
        let twice_area = (b - a).cross(&(c - a)).norm();
        // NaN has no order and so counts as degenerate.
        twice_area.partial_cmp(&(scale * longest)) != Some(std::cmp::Ordering::Greater)
    }

    fn duplicates(&self) -> usize {
        let mut sorted: Vec<[u32; 3]> = self
            .triangles
            .iter()
            .map(|t| {
                let mut t = *t;
                t.sort_unstable();
                t
            })
            .collect();
        sorted.sort_unstable();
        sorted.windows(2).filter(|pair| pair[0] == pair[1]).count()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tetrahedron() -> Mesh {
        Mesh {
            name: "t".into(),
            vertices: [
                [0.0, 0.0, 0.0],
                [1.0, 0.0, 0.0],
                [0.0, 1.0, 0.0],
                [0.0, 0.0, 1.0],
            ]
            .map(Point3::from)
            .to_vec(),
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
        }
    }

    #[test]
    fn a_tetrahedron_is_sound() {
        let mesh = tetrahedron();
        let report = mesh.check(1e-9);
        assert!(report.is_sound(), "{report}");
        assert!((report.volume - 1.0 / 6.0).abs() < 1e-15);
        assert!((mesh.area() - (1.5 + 3f64.sqrt() / 2.0)).abs() < 1e-15);
        assert!(mesh.centroid().is_some_and(|c| (c.x - 0.25).abs() < 1e-15));
    }

    #[test]
    fn each_defect_is_counted() {
        let mut open = tetrahedron();
        open.triangles.pop();
        assert_eq!(open.check(1e-9).open_edges, 3);

        let mut turned = tetrahedron();
        turned.triangles[0].swap(0, 1);
        // Its own three edges and the three of its neighbours along them.
        assert_eq!(turned.check(1e-9).open_edges, 6);

        let mut inside_out = tetrahedron();
        inside_out.triangles.iter_mut().for_each(|t| t.swap(0, 1));
        let report = inside_out.check(1e-9);
        assert!(report.open_edges == 0 && !report.is_sound(), "{report}");

        let mut doubled = tetrahedron();
        let all = doubled.triangles.clone();
        doubled.triangles.extend(all);
        assert_eq!(doubled.check(1e-9).duplicate, 4);
        assert_eq!(doubled.check(1e-9).open_edges, 24);

        let mut flat = tetrahedron();
        flat.vertices[3].z = 0.0;
        assert!(flat.check(1e-9).degenerate >= 2);

        let mut lost = tetrahedron();
        lost.vertices[0].x = f64::NAN;
        assert_eq!(lost.check(1e-9).not_finite, 1);
        assert!(!lost.check(1e-9).is_sound());

        let mut beyond = tetrahedron();
        beyond.triangles[0][0] = 9;
        assert_eq!(beyond.check(1e-9).bad_indices, 1);
        assert!(!tetrahedron().check(10.0).is_sound(), "scale is not heeded");
    }

    #[test]
    fn a_corner_outside_the_box_is_refused() {
        let cube = [Point3::origin(), Point3::new(1.0, 1.0, 1.0)];
        assert_eq!(tetrahedron().within(&cube, 0.0), Ok(()));
        for (axis, to) in [
            (0, 1.6),
            (1, -0.6),
            (2, 9e9),
            (2, f64::NAN),
            (0, f64::INFINITY),
        ] {
            let mut far = tetrahedron();
            far.vertices[1][axis] = to;
            let refused = far.within(&cube, 0.5);
            assert!(
                matches!(&refused, Err(MeshError::Far { part, .. }) if part == "t"),
                "{to}: {refused:?}"
            );
        }
        let mut near = tetrahedron();
        near.vertices[1].x = 1.4;
        assert_eq!(near.within(&cube, 0.5), Ok(()));
    }
}
