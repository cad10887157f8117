//! Where a solid is, seen from above: a grid that says at once that a place is far from it.

use nalgebra::Point3;

use crate::geometry::mesh::Mesh;

/// Least side of a cell, mm.
const CELL: f64 = 8.0;
/// Most cells along a side, so that no mesh, however long, takes much room.
const MOST: f64 = 512.0;

/// The heights between which a mesh lies, cell by cell of its plan.
#[derive(Debug, Clone)]
pub(super) struct Heights {
    low: [f64; 2],
    side: [f64; 2],
    cells: [usize; 2],
    /// Lowest and highest of all that lies in a cell or within the reach of it, row after row.
    spans: Vec<[f64; 2]>,
    reach: f64,
}

impl Heights {
    /// The grid of a mesh for places up to `reach` mm from it.
    pub(super) fn new(mesh: &Mesh, bounds: &[Point3<f64>; 2], reach: f64) -> Self {
        let low = [0, 1].map(|i| bounds[0][i] - reach);
        let size = [0, 1].map(|i| bounds[1][i] + reach - low[i]);
        let cells = size.map(|s| (s / CELL).ceil().clamp(1.0, MOST) as usize);
        let side = [0, 1].map(|i| size[i] / cells[i] as f64);
        let mut grid = Self {
            low,
            side,
            cells,
            spans: vec![[f64::INFINITY, f64::NEG_INFINITY]; cells[0] * cells[1]],
            reach,
        };
        for &triangle in &mesh.triangles {
            let corners = mesh.corners(triangle);
            let range = |i: usize| {
                let of = corners.map(|c| c[i]);
                [of[0].min(of[1]).min(of[2]), of[0].max(of[1]).max(of[2])]
            };
            let [x, y] = [0, 1].map(|i| range(i).map(|at| grid.cell(i, at)));
            let height = range(2);
            for row in x[0]..=x[1] {
                for span in &mut grid.spans[row * cells[1]..][y[0]..=y[1]] {
                    *span = union(*span, height);
                }
            }
        }
        grid.widen();
        grid
    }

    /// Gives every cell what lies in those within the grid's reach of it, along one axis after the other.
    fn widen(&mut self) {
        for axis in 0..2 {
            let (step, count) = ([self.cells[1], 1][axis], self.cells[axis]);
            let reach = (self.reach / self.side[axis]).ceil() as usize;
            let before = self.spans.clone();
            for (index, span) in self.spans.iter_mut().enumerate() {
                let at = index / step % count;
                let line = index - at * step;
                for other in at.saturating_sub(reach)..=(at + reach).min(count - 1) {
                    *span = union(*span, before[line + other * step]);
                }
            }
        }
    }

    /// The cell along an axis that a coordinate lies in, or the nearest.
    fn cell(&self, axis: usize, at: f64) -> usize {
        let index = ((at - self.low[axis]) / self.side[axis]).max(0.0) as usize;
        index.min(self.cells[axis] - 1)
    }

    /// Whether a place may be within `distance` of the mesh, at most the grid's reach; where it is inside, it always may.
    pub(super) fn near(&self, p: &Point3<f64>, distance: f64) -> bool {
        self.near_box(&[*p, *p], distance)
    }

    /// As [`near`](Self::near), for some place of an upright box, its least and its greatest corner given.
    pub(super) fn near_box(&self, [from, to]: &[Point3<f64>; 2], distance: f64) -> bool {
        let beyond = (0..2).any(|i| {
            let far = self.low[i] + self.side[i] * self.cells[i] as f64;
            to[i] < self.low[i] || from[i] > far
        });
        if beyond || distance > self.reach {
            return !beyond;
        }
        let [x, y] = [0, 1].map(|i| self.cell(i, from[i])..=self.cell(i, to[i]));
        x.into_iter().any(|row| {
            let spans = &self.spans[row * self.cells[1]..][y.clone()];
            spans
                .iter()
                .any(|[low, high]| to.z >= low - distance && from.z <= high + distance)
        })
    }
}

/// The least span that holds both.
fn union(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0].min(b[0]), a[1].max(b[1])]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A slanted tetrahedron: from every place within reach of a corner the grid must not call it far.
    #[test]
    fn nothing_near_is_called_far() {
        let mesh = Mesh {
            name: "t".into(),
            vertices: [
                [0.0, 0.0, 0.0],
                [90.0, 0.0, 5.0],
                [0.0, 70.0, 9.0],
                [0.0, 0.0, 60.0],
            ]
            .map(Point3::from)
            .to_vec(),
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
        };
        let bounds = [Point3::origin(), Point3::new(90.0, 70.0, 60.0)];
        let grid = Heights::new(&mesh, &bounds, 10.0);
        for i in 0..=20 {
            for j in 0..=(20 - i) {
                let (u, v) = (f64::from(i) / 20.0, f64::from(j) / 20.0);
                for &t in &mesh.triangles {
                    let [a, b, c] = mesh.corners(t);
                    let on = a + (b - a) * u + (c - a) * v;
                    for (axis, off) in [
                        (0, 9.9),
                        (0, -9.9),
                        (1, 9.9),
                        (1, -9.9),
                        (2, 9.9),
                        (2, -9.9),
                    ] {
                        let mut p = on;
                        p[axis] += off;
                        assert!(grid.near(&p, 10.0), "{p}");
                    }
                }
            }
        }
        assert!(!grid.near(&Point3::new(80.0, 60.0, 80.0), 10.0));
        assert!(!grid.near(&Point3::new(40.0, 30.0, 95.0), 10.0));
    }
}
