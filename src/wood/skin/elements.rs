//! Triangles as finite elements: linear maps from a triangle in space to the plane.

use super::FlattenError;
use crate::geometry::curve::Vector;

/// A triangle of a surface with its own frame.
#[derive(Debug, Clone, Copy)]
pub(super) struct Element {
    pub corners: [usize; 3],
    /// Area in space, mm².
    pub area: f64,
    /// Orthonormal directions in space: along the first edge, and square to it in the triangle's plane.
    pub frame: [Vector<3>; 2],
    /// Gradients of the corners' hat functions in the frame, 1/mm.
    pub gradients: [Vector<2>; 3],
}

impl Element {
    fn new(corners: [usize; 3], points: &[Vector<3>]) -> Option<Self> {
        let [a, b, c] = corners.map(|i| points[i]);
        let (p, q) = (b - a, c - a);
        let longest = p.norm().max(q.norm()).max((c - b).norm());
        let double = p.cross(&q).norm();
        // Lengths that overflow fail too.
        if double <= 1e-9 * longest * longest || !longest.is_normal() || !double.is_finite() {
            return None;
        }
        let along = p.normalize();
        let across = (q - along * along.dot(&q)).normalize();
        let (x1, x2, y2) = (p.norm(), q.dot(&along), q.dot(&across));
        // The hat of a corner falls off square to the opposite edge.
        let edge = |from: [f64; 2], to: [f64; 2]| {
            Vector::<2>::new(from[1] - to[1], to[0] - from[0]) / (x1 * y2)
        };
        let [o, u, v] = [[0.0, 0.0], [x1, 0.0], [x2, y2]];
        Some(Self {
            corners,
            area: double / 2.0,
            frame: [along, across],
            gradients: [edge(u, v), edge(v, o), edge(o, u)],
        })
    }

    /// The columns of the linear map from the frame to the plane: images of its two directions.
    pub fn map(&self, flat: &[Vector<2>]) -> [Vector<2>; 2] {
        let mut columns = [Vector::<2>::zeros(); 2];
        for (&i, g) in self.corners.iter().zip(&self.gradients) {
            columns[0] += flat[i] * g.x;
            columns[1] += flat[i] * g.y;
        }
        columns
    }
}

/// The rotation (cosine, sine) nearest to a map, and the sum of its singular values, signed as the polar decomposition
/// with a proper rotation has it.
pub(super) fn nearest_rotation(map: &[Vector<2>; 2]) -> ([f64; 2], f64) {
    let (c, s) = (map[0].x + map[1].y, map[0].y - map[1].x);
    let sum = c.hypot(s);
    if sum > 0.0 {
        ([c / sum, s / sum], sum)
    } else {
        ([1.0, 0.0], 0.0)
    }
}

/// Elements of a mesh, checked: finite, no slivers, one patch with one border, oriented alike.
pub(super) fn elements(
    points: &[Vector<3>],
    triangles: &[[u32; 3]],
) -> Result<Vec<Element>, FlattenError> {
    if let Some(i) = points.iter().position(|p| !p.iter().all(|c| c.is_finite())) {
        return Err(FlattenError::NotFinite(i));
    }
    let mut out = Vec::with_capacity(triangles.len());
    for (index, t) in triangles.iter().enumerate() {
        let corners = t.map(|i| i as usize);
        let [a, b, c] = corners;
        if a == b || b == c || c == a || corners.iter().any(|&i| i >= points.len()) {
            return Err(FlattenError::Index(index));
        }
        out.push(Element::new(corners, points).ok_or(FlattenError::Sliver(index))?);
    }
    disc(points.len(), triangles)?;
    Ok(out)
}

/// Whether every vertex is used, edges are shared by two triangles at most and in opposite directions, the border is a
/// single loop and all hangs together.
fn disc(vertices: usize, triangles: &[[u32; 3]]) -> Result<(), FlattenError> {
    let refuse = |why| Err(FlattenError::NotADisc(why));
    if triangles.is_empty() {
        return refuse("there are none");
    }
    let mut directed: Vec<(u32, u32)> = triangles
        .iter()
        .flat_map(|&[a, b, c]| [(a, b), (b, c), (c, a)])
        .collect();
    directed.sort_unstable();
    if directed.windows(2).any(|w| w[0] == w[1]) {
        return refuse("an edge has more than two triangles, or two that face opposite ways");
    }
    let mut next = vec![u32::MAX; vertices];
    let (mut border, mut start) = (0usize, u32::MAX);
    for &(a, b) in &directed {
        if directed.binary_search(&(b, a)).is_err() {
            if next[a as usize] != u32::MAX {
                return refuse("the border touches itself at a vertex");
            }
            next[a as usize] = b;
            start = a;
            border += 1;
        }
    }
    if border == 0 {
        return refuse("they have no border");
    }
    let (mut here, mut walked) = (start, 0);
    loop {
        here = next[here as usize];
        walked += 1;
        if here == start || walked > border {
            break;
        }
    }
    if walked != border {
        return refuse("they have more than one border");
    }
    let edges = (directed.len() + border) / 2;
    // Each component with one border has Euler characteristic at most 1, closed ones at most 2 were refused only if alone.
    if vertices + triangles.len() != edges + 1 || pieces(vertices, triangles) != 1 {
        return refuse("they do not hang together, leave a vertex unused, or have a handle");
    }
    Ok(())
}

/// How many connected pieces there are, unused vertices counting as pieces.
fn pieces(vertices: usize, triangles: &[[u32; 3]]) -> usize {
    let mut parent: Vec<usize> = (0..vertices).collect();
    fn find(parent: &mut [usize], mut i: usize) -> usize {
        while parent[i] != i {
            parent[i] = parent[parent[i]];
            i = parent[i];
        }
        i
    }
    let mut count = vertices;
    for t in triangles {
        for pair in [[t[0], t[1]], [t[0], t[2]]] {
            let [a, b] = pair.map(|i| find(&mut parent, i as usize));
            if a != b {
                parent[a] = b;
                count -= 1;
            }
        }
    }
    count
}

/// Neighbours of every vertex, each once, rising.
pub(super) fn neighbours(vertices: usize, elements: &[Element]) -> Vec<Vec<u32>> {
    let mut lists = vec![Vec::with_capacity(8); vertices];
    for e in elements {
        let [a, b, c] = e.corners;
        for (i, j) in [(a, b), (b, c), (c, a)] {
            lists[i].push(j as u32);
            lists[j].push(i as u32);
        }
    }
    for list in &mut lists {
        list.sort_unstable();
        list.dedup();
    }
    lists
}
