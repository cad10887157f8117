//! Matching each triangle's edges with those of its neighbours.

/// Directed edges by their start vertex: for each vertex the heads of the edges that leave it and the
/// triangles they belong to. Linear in time and memory.
pub(crate) struct EdgeTable {
    starts: Vec<u32>,
    /// (head vertex, triangle).
    out: Vec<(u32, u32)>,
}

/// What the table says about a mesh.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct EdgeFaults {
    /// Directed edges without exactly one opposite. With none of these, no edge is used twice either: its
    /// opposite would see two.
    pub unmatched: usize,
    /// Triangles whose three neighbours are one triangle: the same one turned over.
    pub folded: usize,
}

impl EdgeTable {
    /// The table of `triangles`, whose indices must be below `vertices`.
    pub fn new(vertices: usize, triangles: &[[u32; 3]]) -> Self {
        let mut starts = vec![0u32; vertices + 1];
        for triangle in triangles {
            for &tail in triangle {
                starts[tail as usize + 1] += 1;
            }
        }
        for i in 1..starts.len() {
            starts[i] += starts[i - 1];
        }
        let mut next = starts.clone();
        let mut out = vec![(0u32, 0u32); triangles.len() * 3];
        for (index, &[a, b, c]) in triangles.iter().enumerate() {
            for (tail, head) in [(a, b), (b, c), (c, a)] {
                let slot = &mut next[tail as usize];
                out[*slot as usize] = (head, index as u32);
                *slot += 1;
            }
        }
        Self { starts, out }
    }

    fn leaving(&self, tail: u32) -> &[(u32, u32)] {
        let tail = tail as usize;
        &self.out[self.starts[tail] as usize..self.starts[tail + 1] as usize]
    }

    /// How many edges run from `tail` to `head`, and the triangle of the last.
    fn find(&self, tail: u32, head: u32) -> (usize, u32) {
        let mut found = (0, u32::MAX);
        for &(to, triangle) in self.leaving(tail) {
            if to == head {
                found = (found.0 + 1, triangle);
            }
        }
        found
    }

    /// Checks the edges of `triangles`, which may be a part of those the table was made of.
    pub fn faults(&self, triangles: &[[u32; 3]]) -> EdgeFaults {
        let mut faults = EdgeFaults::default();
        for &[a, b, c] in triangles {
            let mut neighbours = [u32::MAX; 3];
            for (slot, (tail, head)) in [(a, b), (b, c), (c, a)].into_iter().enumerate() {
                let (count, triangle) = self.find(head, tail);
                neighbours[slot] = triangle;
                faults.unmatched += usize::from(count != 1);
            }
            let [p, q, r] = neighbours;
            faults.folded += usize::from(p != u32::MAX && p == q && q == r);
        }
        faults
    }
}
