//! Branch and bound over the pattern that holds the longest piece left.

use super::bound::{Plane, Prices, Rest};
use super::fill::{Bins, Way, fill};
use super::price::{Kinds, Listing, Table};
use super::problem::{Outcome, Problem, Used};

/// Most patterns listed at a branch.
const PATTERNS: usize = 20_000;
/// Reduced costs closer than one part in this of the stock's cost count as equal when patterns are put in order.
const GRAIN: f64 = 1e4;
/// Deepest branch: more lengths of stock than this are left to the quick fillings.
const DEPTH: usize = 1_000;
/// Slack granted to the linear programme's rounding, relative to a unit of cost.
const ROUNDING: f64 = 1e-6;

pub(super) struct Search<'a> {
    problem: &'a Problem,
    kinds: Kinds,
    /// Which pieces share each distinct length.
    members: Vec<Vec<usize>>,
    wanted: Vec<u32>,
    /// All costs are multiples of this.
    unit: u64,
    best: Option<(u64, Bins)>,
    pool: Vec<Plane>,
    effort: u64,
    /// The effort allowed, and that of the quick fillings, which is not taken from it.
    allowed: u64,
    filling: u64,
    nodes: u64,
    /// Whether no branch was left unseen.
    complete: bool,
}

impl<'a> Search<'a> {
    pub fn new(problem: &'a Problem, effort: u64) -> Self {
        let mut order: Vec<usize> = (0..problem.pieces.len())
            .filter(|&i| problem.pieces[i].count > 0)
            .collect();
        order.sort_by_key(|&i| (std::cmp::Reverse(problem.pieces[i].length), i));
        let mut lengths: Vec<u32> = Vec::new();
        let mut members: Vec<Vec<usize>> = Vec::new();
        let mut wanted: Vec<u32> = Vec::new();
        for i in order {
            let piece = problem.pieces[i];
            match (lengths.last(), members.last_mut(), wanted.last_mut()) {
                (Some(&l), Some(m), Some(w)) if l == piece.length => {
                    m.push(i);
                    *w = w.saturating_add(piece.count);
                }
                _ => {
                    lengths.push(piece.length);
                    members.push(vec![i]);
                    wanted.push(piece.count);
                }
            }
        }
        let capacity = problem.stock.iter().map(|s| s.length).max().unwrap_or(0);
        let unit = problem.stock.iter().fold(0, |g, s| gcd(g, s.cost)).max(1);
        Self {
            problem,
            kinds: Kinds { lengths, capacity },
            members,
            wanted,
            unit,
            best: None,
            pool: Vec::new(),
            effort,
            allowed: effort,
            filling: 0,
            nodes: 0,
            complete: true,
        }
    }

    pub fn run(mut self) -> Outcome {
        let left = self.wanted.clone();
        let available: Vec<Option<u32>> = self.problem.stock.iter().map(|s| s.count).collect();
        let mut bins = Bins::new();
        let root = self.branch(&left, &available, 0, &mut bins);
        let (cost, plan) = match self.best.take() {
            Some((cost, bins)) => (cost, Some(self.named(&bins))),
            None => (0, None),
        };
        let optimal = self.complete || (plan.is_some() && root >= cost);
        Outcome {
            plan,
            cost,
            bound: if optimal { cost.max(root) } else { root },
            optimal,
            nodes: self.nodes,
            effort: self.filling + (self.allowed - self.effort),
        }
    }

    /// Looks for a better way to cut `left`, and gives the least cost in whole units that this branch could have.
    fn branch(
        &mut self,
        left: &[u32],
        available: &[Option<u32>],
        spent: u64,
        bins: &mut Bins,
    ) -> u64 {
        self.nodes += 1;
        let Some(first) = left.iter().position(|&n| n > 0) else {
            self.offer(spent, bins.clone());
            return spent;
        };
        let stock = &self.problem.stock;
        for way in [Way::LongestFirst, Way::Fullest] {
            let filled = fill(&self.kinds, stock, left, available, way, &mut self.filling);
            if let Some((cost, more)) = filled {
                self.offer(spent + cost, bins.iter().cloned().chain(more).collect());
            }
        }
        let enough = self.ceiling(spent, available);
        let rest = Rest {
            kinds: &self.kinds,
            stock,
            left,
            available,
        };
        let target = if enough.is_finite() {
            enough + 0.5 * ROUNDING
        } else {
            enough
        };
        let prices = rest.prices(&mut self.pool, target, &mut self.effort);
        let least = spent + self.whole(prices.bound);
        if prices.bound > enough || self.best.as_ref().is_some_and(|(cost, _)| least >= *cost) {
            return least;
        }
        if self.effort == 0 || bins.len() == DEPTH {
            self.complete = false;
            return least;
        }
        for (j, counts) in self.choices(first, left, available, &prices, enough) {
            // A plan found meanwhile may have lowered the ceiling.
            let stock = &self.problem.stock[j];
            let worth: f64 = counts
                .iter()
                .zip(&prices.pieces)
                .map(|(&c, p)| f64::from(c) * p)
                .sum();
            let over = stock.cost as f64 + prices.stock[j] - worth;
            if prices.bound + over > self.ceiling(spent, available) {
                continue;
            }
            let next: Vec<u32> = left.iter().zip(&counts).map(|(l, c)| l - c).collect();
            let mut remaining = available.to_vec();
            if let Some(n) = remaining[j].as_mut() {
                *n -= 1;
            }
            bins.push((j, counts));
            self.branch(&next, &remaining, spent + stock.cost, bins);
            bins.pop();
            if self.effort == 0 {
                self.complete = false;
                break;
            }
            if self.best.as_ref().is_some_and(|(cost, _)| least >= *cost) {
                break;
            }
        }
        least
    }

    /// Patterns that could lead to a better plan, the likeliest first.
    fn choices(
        &mut self,
        first: usize,
        left: &[u32],
        available: &[Option<u32>],
        prices: &Prices,
        enough: f64,
    ) -> Vec<(usize, Vec<u32>)> {
        let table = Table::new(&self.kinds, left, &prices.pieces);
        self.effort = self.effort.saturating_sub(Table::cells(&self.kinds));
        let mut found: Vec<(f64, u32, usize, Vec<u32>)> = Vec::new();
        for (j, stock) in self.problem.stock.iter().enumerate() {
            if available[j] == Some(0) {
                continue;
            }
            let full = stock.cost as f64 + prices.stock[j];
            let listing = Listing {
                kinds: &self.kinds,
                left,
                prices: &prices.pieces,
                table: &table,
                least: full + prices.bound - enough,
                most: PATTERNS,
            };
            let (patterns, complete) = listing.patterns(first, stock.length);
            self.complete &= complete;
            self.effort = self
                .effort
                .saturating_sub(patterns.len() as u64 * left.len() as u64);
            found.extend(patterns.into_iter().map(|(worth, counts)| {
                let cut: u32 = counts
                    .iter()
                    .zip(&self.kinds.lengths)
                    .map(|(c, l)| c * l)
                    .sum();
                // Reduced costs equal but for rounding must not decide the order.
                (
                    ((full - worth) / full * GRAIN).round(),
                    stock.length - cut,
                    j,
                    counts,
                )
            }));
        }
        found.sort_by(|a, b| {
            a.0.total_cmp(&b.0)
                .then(a.1.cmp(&b.1))
                .then(a.2.cmp(&b.2))
                .then(b.3.cmp(&a.3))
        });
        found
            .into_iter()
            .map(|(_, _, j, counts)| (j, counts))
            .collect()
    }

    /// Greatest cost the rest may have if the whole is to better the best plan; without a plan, if it can be met at all.
    fn ceiling(&self, spent: u64, available: &[Option<u32>]) -> f64 {
        let slack = ROUNDING * self.unit as f64;
        match &self.best {
            // An earlier plan may already be better than what is spent; the ceiling is then below zero.
            Some((cost, _)) => cost.saturating_sub(self.unit) as f64 - spent as f64 + slack,
            None => {
                let all: Option<u64> = self
                    .problem
                    .stock
                    .iter()
                    .zip(available)
                    .map(|(s, n)| n.map(|n| s.cost * u64::from(n)))
                    .sum();
                all.map_or(f64::INFINITY, |all| all as f64 + slack)
            }
        }
    }

    fn whole(&self, bound: f64) -> u64 {
        let units = (bound / self.unit as f64 - ROUNDING).ceil().max(0.0);
        units as u64 * self.unit
    }

    fn offer(&mut self, cost: u64, bins: Bins) {
        if self.best.as_ref().is_none_or(|(best, _)| cost < *best) {
            self.best = Some((cost, bins));
        }
    }

    /// The plan in the caller's kinds, equal lengths handed out in order.
    fn named(&self, bins: &Bins) -> Vec<Used> {
        let mut owed: Vec<u32> = self.problem.pieces.iter().map(|p| p.count).collect();
        bins.iter()
            .map(|(stock, counts)| {
                let mut pieces = Vec::new();
                for (members, &count) in self.members.iter().zip(counts) {
                    let mut count = count;
                    for &i in members {
                        let n = count.min(owed[i]);
                        if n > 0 {
                            owed[i] -= n;
                            count -= n;
                            pieces.push((i, n));
                        }
                    }
                }
                pieces.sort_unstable();
                Used {
                    stock: *stock,
                    pieces,
                }
            })
            .collect()
    }
}

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
