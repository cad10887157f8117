//! The bounded knapsack: the worthiest cutting pattern at given prices, and all patterns nearly as worthy.

/// Pieces as the search keeps them: distinct lengths, longest first.
#[derive(Debug, Clone)]
pub(super) struct Kinds {
    /// Lengths, falling.
    pub lengths: Vec<u32>,
    /// Longest stock.
    pub capacity: u32,
}

/// Best values of the kinds from `i` on within `c`, for all `i` and `c`.
pub(super) struct Table {
    values: Vec<f64>,
    width: usize,
}

impl Table {
    /// Fills the table for `prices` with at most `left` of each kind.
    pub fn new(kinds: &Kinds, left: &[u32], prices: &[f64]) -> Self {
        let width = kinds.capacity as usize + 1;
        let n = kinds.lengths.len();
        let mut values = vec![0.0; (n + 1) * width];
        for i in (0..n).rev() {
            let (head, tail) = values.split_at_mut((i + 1) * width);
            let row = &mut head[i * width..];
            let below = &tail[..width];
            row.copy_from_slice(below);
            let size = kinds.lengths[i] as usize;
            if prices[i] <= 0.0 {
                continue;
            }
            for k in 1..=(left[i] as usize).min((width - 1) / size) {
                let worth = k as f64 * prices[i];
                for (best, &rest) in row[k * size..].iter_mut().zip(below) {
                    let value = rest + worth;
                    if value > *best {
                        *best = value;
                    }
                }
            }
        }
        Self { values, width }
    }

    /// Cells a table of `kinds` has: the measure of effort.
    pub fn cells(kinds: &Kinds) -> u64 {
        (kinds.lengths.len() as u64 + 1) * (u64::from(kinds.capacity) + 1)
    }

    fn at(&self, i: usize, capacity: u32) -> f64 {
        self.values[i * self.width + capacity as usize]
    }

    /// Greatest worth of a pattern within `capacity`.
    pub fn best(&self, capacity: u32) -> f64 {
        self.at(0, capacity)
    }

    /// A pattern of greatest worth within `capacity`.
    pub fn pattern(&self, kinds: &Kinds, left: &[u32], prices: &[f64], capacity: u32) -> Vec<u32> {
        let mut room = capacity;
        let n = kinds.lengths.len();
        (0..n)
            .map(|i| {
                let target = self.at(i, room);
                let most = left[i].min(room / kinds.lengths[i]);
                // The greatest count that attains the value: the sums are those of the filling, so they agree to the last bit.
                let count = (0..=most)
                    .rev()
                    .find(|&k| {
                        let rest = self.at(i + 1, room - k * kinds.lengths[i]);
                        rest + f64::from(k) * prices[i] >= target
                    })
                    .unwrap_or(0);
                room -= count * kinds.lengths[i];
                count
            })
            .collect()
    }
}

/// Patterns to branch on.
pub(super) struct Listing<'a> {
    pub kinds: &'a Kinds,
    pub left: &'a [u32],
    pub prices: &'a [f64],
    pub table: &'a Table,
    /// Least worth of a pattern to be listed.
    pub least: f64,
    /// Most patterns to list.
    pub most: usize,
}

impl Listing<'_> {
    /// Every pattern within `capacity` that holds one of kind `first` at least, to which no piece left could be added, and whose
    /// worth is `least` at least. The flag is false if the list was cut off at `most`.
    pub fn patterns(&self, first: usize, capacity: u32) -> (Vec<(f64, Vec<u32>)>, bool) {
        let mut found = Vec::new();
        if self.kinds.lengths[first] > capacity {
            return (found, true);
        }
        let mut counts = vec![0; self.kinds.lengths.len()];
        let complete = self.extend(first, first, capacity, 0.0, &mut counts, &mut found);
        (found, complete)
    }

    fn extend(
        &self,
        first: usize,
        i: usize,
        room: u32,
        worth: f64,
        counts: &mut Vec<u32>,
        found: &mut Vec<(f64, Vec<u32>)>,
    ) -> bool {
        if i == counts.len() {
            let full = (0..i).all(|k| counts[k] == self.left[k] || self.kinds.lengths[k] > room);
            if full {
                if found.len() == self.most {
                    return false;
                }
                found.push((worth, counts.clone()));
            }
            return true;
        }
        let size = self.kinds.lengths[i];
        let most = self.left[i].min(room / size);
        let fewest = u32::from(i == first);
        for k in (fewest..=most).rev() {
            let rest = room - k * size;
            let now = worth + f64::from(k) * self.prices[i];
            if now + self.table.at(i + 1, rest) < self.least {
                continue;
            }
            counts[i] = k;
            if !self.extend(first, i + 1, rest, now, counts, found) {
                counts[i] = 0;
                return false;
            }
        }
        counts[i] = 0;
        true
    }
}
