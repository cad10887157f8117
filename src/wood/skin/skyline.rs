//! Envelope Cholesky: symmetric positive definite systems whose rows are short left of the diagonal.

/// A symmetric matrix by rows, each from its first non-zero to the diagonal.
///
/// Elimination fills only the envelope (George & Liu, *Computer Solution of Large Sparse Positive Definite Systems*, 1981,
/// ch. 4), so with rows of length b it costs n b² / 2 multiplications and a solution 2 n b.
#[derive(Debug, Clone)]
pub(super) struct Skyline {
    /// First column of each row.
    first: Vec<usize>,
    /// Where each row starts in `values`; one more at the end.
    start: Vec<usize>,
    values: Vec<f64>,
}

impl Skyline {
    /// A zero matrix whose row i reaches from column `first[i]` to the diagonal.
    pub fn new(first: Vec<usize>) -> Self {
        let mut start = Vec::with_capacity(first.len() + 1);
        let mut total = 0;
        for (i, &f) in first.iter().enumerate() {
            start.push(total);
            total += i + 1 - f.min(i);
        }
        start.push(total);
        Self {
            first,
            start,
            values: vec![0.0; total],
        }
    }

    /// Sets every entry to zero.
    pub fn clear(&mut self) {
        self.values.fill(0.0);
    }

    /// Adds to the entry (i, j) and its mirror image; both must lie in the envelope.
    pub fn add(&mut self, i: usize, j: usize, value: f64) {
        let (i, j) = (i.max(j), i.min(j));
        self.values[self.start[i] + j - self.first[i]] += value;
    }

    fn row(&self, i: usize) -> &[f64] {
        &self.values[self.start[i]..self.start[i + 1]]
    }

    /// Replaces the matrix by its Cholesky factor; `false`, with the matrix spoilt, unless it is positive definite beyond
    /// rounding (a pivot of at least 1e-13 of its diagonal entry).
    pub fn factor(&mut self) -> bool {
        for i in 0..self.first.len() {
            let begin = self.first[i];
            let (done, rest) = self.values.split_at_mut(self.start[i]);
            let row = &mut rest[..i + 1 - begin];
            for j in begin..i {
                let from = begin.max(self.first[j]);
                let other = &done[self.start[j]..self.start[j + 1]];
                let (there, here) = (from - self.first[j], from - begin);
                let length = j - from;
                let sum = dot(&other[there..there + length], &row[here..here + length]);
                let pivot = other[other.len() - 1];
                row[j - begin] = (row[j - begin] - sum) / pivot;
            }
            let (left, diagonal) = row.split_at_mut(i - begin);
            let pivot = diagonal[0] - dot(left, left);
            // NaN fails too.
            if !(pivot > 1e-13 * diagonal[0] && pivot > 0.0) {
                return false;
            }
            diagonal[0] = pivot.sqrt();
        }
        true
    }

    /// Solves with the factor in place.
    pub fn solve(&self, b: &mut [f64]) {
        for i in 0..b.len() {
            let row = self.row(i);
            let n = row.len() - 1;
            let sum = dot(&row[..n], &b[self.first[i]..i]);
            b[i] = (b[i] - sum) / row[n];
        }
        for i in (0..b.len()).rev() {
            let row = self.row(i);
            let n = row.len() - 1;
            let x = b[i] / row[n];
            b[i] = x;
            for (b, l) in b[self.first[i]..i].iter_mut().zip(row) {
                *b -= x * l;
            }
        }
    }
}

/// Dot product in eight running sums, which the compiler can keep in vector registers.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 8];
    let (a8, b8) = (a.chunks_exact(8), b.chunks_exact(8));
    let (a1, b1) = (a8.remainder(), b8.remainder());
    for (a, b) in a8.zip(b8) {
        for ((s, a), b) in sums.iter_mut().zip(a).zip(b) {
            *s += a * b;
        }
    }
    let rest: f64 = a1.iter().zip(b1).map(|(a, b)| a * b).sum();
    sums.iter().sum::<f64>() + rest
}

/// Places of the vertices in an order with a short envelope: the given order or reverse Cuthill–McKee from a
/// pseudo-peripheral vertex (George & Liu, section 4.3), whichever has the shorter one.
pub(super) fn order(neighbours: &[Vec<u32>]) -> Vec<usize> {
    let natural: Vec<usize> = (0..neighbours.len()).collect();
    let mut start = 0;
    let mut depth = 0;
    // Move to the far end of the graph until it gets no deeper.
    let mut sequence = breadth_first(neighbours, start);
    for _ in 0..8 {
        let (far, deeper) = (sequence.1, sequence.2);
        if deeper <= depth {
            break;
        }
        (start, depth) = (far, deeper);
        sequence = breadth_first(neighbours, start);
    }
    let mut places = vec![0; neighbours.len()];
    for (place, &v) in sequence.0.iter().rev().enumerate() {
        places[v] = place;
    }
    if sequence.0.len() == neighbours.len()
        && length(neighbours, &places) < length(neighbours, &natural)
    {
        places
    } else {
        natural
    }
}

/// Vertices by breadth, neighbours of low degree first; the last one, and how many levels there are.
fn breadth_first(neighbours: &[Vec<u32>], start: usize) -> (Vec<usize>, usize, usize) {
    let mut level = vec![usize::MAX; neighbours.len()];
    let mut sequence = Vec::with_capacity(neighbours.len());
    if start < neighbours.len() {
        level[start] = 0;
        sequence.push(start);
    }
    let mut head = 0;
    while head < sequence.len() {
        let v = sequence[head];
        head += 1;
        let mut next: Vec<usize> = neighbours[v]
            .iter()
            .map(|&n| n as usize)
            .filter(|&n| level[n] == usize::MAX)
            .collect();
        next.sort_by_key(|&n| (neighbours[n].len(), n));
        for n in next {
            level[n] = level[v] + 1;
            sequence.push(n);
        }
    }
    let last = sequence.last().copied().unwrap_or(0);
    let levels = level.get(last).map_or(0, |l| l.saturating_add(1));
    (sequence, last, levels)
}

/// Entries of the envelope under an order.
fn length(neighbours: &[Vec<u32>], places: &[usize]) -> usize {
    let reach = |(v, list): (usize, &Vec<u32>)| {
        let least = list.iter().map(|&n| places[n as usize]).min();
        places[v] - least.map_or(places[v], |l| l.min(places[v]))
    };
    neighbours.iter().enumerate().map(reach).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A random sparse diagonally dominant matrix is solved to rounding, whatever the rows' reach.
    #[test]
    fn solves_what_it_factors() {
        let n = 60;
        let mut state = 7u64;
        let mut next = || {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (state >> 33) as f64 / f64::from(1u32 << 31)
        };
        let first: Vec<usize> = (0..n)
            .map(|i: usize| i.saturating_sub(i * 7 % 23))
            .collect();
        let mut matrix = Skyline::new(first.clone());
        let mut dense = vec![vec![0.0; n]; n];
        for (i, &f) in first.iter().enumerate() {
            (f..i).for_each(|j| {
                let v = next() - 0.5;
                matrix.add(j, i, v);
                dense[i][j] = v;
                dense[j][i] = v;
            });
            matrix.add(i, i, 30.0);
            dense[i][i] = 30.0;
        }
        let x: Vec<f64> = (0..n).map(|_| next()).collect();
        let mut b: Vec<f64> = dense
            .iter()
            .map(|r| r.iter().zip(&x).map(|(a, x)| a * x).sum())
            .collect();
        assert!(matrix.factor());
        matrix.solve(&mut b);
        for (got, want) in b.iter().zip(&x) {
            assert!((got - want).abs() < 1e-13, "{got} {want}");
        }
    }

    #[test]
    fn an_indefinite_matrix_is_refused() {
        let mut matrix = Skyline::new(vec![0, 0]);
        for (i, j, v) in [(0, 0, 1.0), (1, 0, 2.0), (1, 1, 1.0)] {
            matrix.add(i, j, v);
        }
        assert!(!matrix.factor());
    }

    /// A ladder numbered at random gets rows no longer than a few.
    #[test]
    fn a_shuffled_ladder_is_put_in_order() {
        let n = 40;
        let label = |i: usize| (i * 37 % (2 * n)) as u32;
        let mut neighbours = vec![Vec::new(); 2 * n];
        let mut join = |a: usize, b: usize| {
            neighbours[label(a) as usize].push(label(b));
            neighbours[label(b) as usize].push(label(a));
        };
        for i in 0..n {
            join(2 * i, 2 * i + 1);
            if i + 1 < n {
                join(2 * i, 2 * i + 2);
                join(2 * i + 1, 2 * i + 3);
            }
        }
        let places = order(&neighbours);
        assert!(length(&neighbours, &places) <= 3 * 2 * n);
    }
}
