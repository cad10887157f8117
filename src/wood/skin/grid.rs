//! A skin's grid and its starboard half, whose mirror image the port half is.

/// Rows from tail to nose, each of `half` cells to either side of the centreline.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grid {
    pub rows: usize,
    pub half: usize,
}

impl Grid {
    /// Vertices in a row; odd, the middle one on the centreline.
    pub fn columns(&self) -> usize {
        2 * self.half + 1
    }

    /// The whole grid's triangles, counter-clockwise in (x, y); diagonals run in chevrons, mirrored on the centreline.
    pub fn triangles(&self) -> Vec<[u32; 3]> {
        let port = |j: usize| j < self.half;
        cells(self.rows, self.columns(), |i, j| (i % 2 == 0) == port(j))
    }

    /// The starboard half's triangles, its vertices counted for themselves: in every row from the centreline out.
    pub fn starboard(&self) -> Vec<[u32; 3]> {
        cells(self.rows, self.half + 1, |i, _| i % 2 != 0)
    }

    /// The starboard half's vertices on the centreline.
    pub fn seam(&self) -> Vec<usize> {
        (0..self.rows).map(|i| i * (self.half + 1)).collect()
    }

    /// Values at the whole grid's vertices from those of the starboard half.
    pub fn at_vertices<T: Copy>(&self, starboard: &[T], mirror: impl Fn(T) -> T) -> Vec<T> {
        both(starboard, self.half + 1, 1, mirror)
    }

    /// Values on the whole grid's triangles from those of the starboard half.
    pub fn on_triangles<T: Copy>(&self, starboard: &[T], mirror: impl Fn(T) -> T) -> Vec<T> {
        both(starboard, 2 * self.half, 0, mirror)
    }
}

/// Rows of `width` values, each after its mirror image, with which it shares its first `shared`.
fn both<T: Copy>(starboard: &[T], width: usize, shared: usize, mirror: impl Fn(T) -> T) -> Vec<T> {
    let mut out = Vec::with_capacity(2 * starboard.len());
    for row in starboard.chunks_exact(width) {
        out.extend(row[shared..].iter().rev().map(|&value| mirror(value)));
        out.extend_from_slice(row);
    }
    out
}

/// Two triangles a cell; `forward` says whether its diagonal leaves the corner of least row and column.
fn cells(rows: usize, columns: usize, forward: impl Fn(usize, usize) -> bool) -> Vec<[u32; 3]> {
    let mut out = Vec::with_capacity(2 * rows * columns);
    for i in 0..rows - 1 {
        for j in 0..columns - 1 {
            let a = (i * columns + j) as u32;
            let (b, d) = (a + 1, a + columns as u32);
            let c = d + 1;
            if forward(i, j) {
                out.extend([[a, d, c], [a, c, b]]);
            } else {
                out.extend([[a, d, b], [b, d, c]]);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The mirror image of the half's triangles, in the order of their values, are the whole's.
    #[test]
    fn a_triangle_s_mirror_image_stands_where_its_value_goes() {
        for (rows, half) in [(2, 1), (3, 2), (6, 4)] {
            let grid = Grid { rows, half };
            let columns = grid.columns();
            let whole = |k: u32| {
                let (i, j) = (k as usize / (half + 1), k as usize % (half + 1));
                i * columns + half + j
            };
            let across = |k: usize| k - k % columns + columns - 1 - k % columns;
            let starboard: Vec<[usize; 3]> =
                grid.starboard().iter().map(|t| t.map(whole)).collect();
            let sorted = |mut t: [usize; 3]| {
                t.sort_unstable();
                t
            };
            let built: Vec<_> = grid
                .on_triangles(&starboard, |t| t.map(across))
                .into_iter()
                .map(sorted)
                .collect();
            let all = grid.triangles();
            let all: Vec<_> = all.iter().map(|t| sorted(t.map(|i| i as usize))).collect();
            assert_eq!(built, all);
            let seam: Vec<usize> = grid.seam().iter().map(|&k| whole(k as u32)).collect();
            assert!(seam.iter().all(|&k| across(k) == k));
        }
    }
}
