//! Quick plans: stock filled one length after another.

use super::price::{Kinds, Table};
use super::problem::Stock;

/// A plan as the search keeps it: stock kind and counts by distinct length.
pub(super) type Bins = Vec<(usize, Vec<u32>)>;

/// How a length is filled.
#[derive(Clone, Copy)]
pub(super) enum Way {
    /// Longest piece that still fits, again and again.
    LongestFirst,
    /// The longest piece, then whatever fills the rest best.
    Fullest,
}

/// Cuts all of `left` from `stock`, of which `available` remain; `None` if that runs out. Adds the cells looked at to `effort`.
pub(super) fn fill(
    kinds: &Kinds,
    stock: &[Stock],
    left: &[u32],
    available: &[Option<u32>],
    way: Way,
    effort: &mut u64,
) -> Option<(u64, Bins)> {
    let mut left = left.to_vec();
    let mut available = available.to_vec();
    let mut bins = Vec::new();
    let mut cost = 0;
    let one = match way {
        Way::LongestFirst => kinds.lengths.len() as u64,
        Way::Fullest => Table::cells(kinds),
    };
    while let Some(first) = left.iter().position(|&n| n > 0) {
        *effort += stock.len() as u64 * one;
        let (j, counts) = (0..stock.len())
            .filter(|&j| available[j] != Some(0) && kinds.lengths[first] <= stock[j].length)
            .map(|j| {
                let counts = match way {
                    Way::LongestFirst => greedy(kinds, &left, stock[j].length),
                    Way::Fullest => fullest(kinds, &left, first, stock[j].length),
                };
                (j, counts)
            })
            // Most length for the cost; the earlier stock where two are equal.
            .min_by(|(a, x), (b, y)| {
                let value = |j: usize, c: &[u32]| {
                    u128::from(cut(kinds, c))
                        * u128::from(stock[if j == *a { *b } else { *a }].cost)
                };
                value(*b, y).cmp(&value(*a, x)).then(a.cmp(b))
            })?;
        for (l, c) in left.iter_mut().zip(&counts) {
            *l -= c;
        }
        if let Some(n) = available[j].as_mut() {
            *n -= 1;
        }
        cost += stock[j].cost;
        bins.push((j, counts));
    }
    Some((cost, bins))
}

fn cut(kinds: &Kinds, counts: &[u32]) -> u64 {
    kinds
        .lengths
        .iter()
        .zip(counts)
        .map(|(&l, &c)| u64::from(l) * u64::from(c))
        .sum()
}

fn greedy(kinds: &Kinds, left: &[u32], capacity: u32) -> Vec<u32> {
    let mut room = capacity;
    kinds
        .lengths
        .iter()
        .zip(left)
        .map(|(&length, &n)| {
            let k = n.min(room / length);
            room -= k * length;
            k
        })
        .collect()
}

/// One piece of `first`, and the subset of the rest with the greatest sum: a table of reachable sums remembering the last kind used.
fn fullest(kinds: &Kinds, left: &[u32], first: usize, capacity: u32) -> Vec<u32> {
    let room = (capacity - kinds.lengths[first]) as usize;
    const FREE: u32 = u32::MAX;
    // For each sum: the kind whose pieces reached it last and how many of them.
    let mut reached = vec![(FREE, 0u32); room + 1];
    reached[0] = (FREE - 1, 0);
    for (i, &length) in kinds.lengths.iter().enumerate() {
        let most = left[i] - u32::from(i == first);
        let size = length as usize;
        if most == 0 || size > room {
            continue;
        }
        for sum in size..=room {
            if reached[sum].0 != FREE {
                continue;
            }
            let (kind, run) = reached[sum - size];
            let run = if kind == i as u32 { run + 1 } else { 1 };
            if kind != FREE && run <= most {
                reached[sum] = (i as u32, run);
            }
        }
    }
    let mut counts = vec![0; kinds.lengths.len()];
    counts[first] = 1;
    let mut sum = (0..=room)
        .rev()
        .find(|&s| reached[s].0 != FREE)
        .unwrap_or(0);
    while sum > 0 {
        let kind = reached[sum].0 as usize;
        counts[kind] += 1;
        sum -= kinds.lengths[kind] as usize;
    }
    counts
}
