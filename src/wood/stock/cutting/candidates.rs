//! Numbers of planks in rising cost, those left out that are too short in all.

use super::budget::Budget;
use super::section::{BlankSection, SectionYield};
use crate::wood::stock::{Aim, Plank, Shop};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Numbers of planks put in the queue, at most: a hundred megabytes for a hundred sizes.
const QUEUED: usize = 300_000;

/// What the aim makes least, then what breaks ties: planks and hundredths of the price, or the other way round.
pub(super) type Cost = (u64, u64);

/// Hundredths of the price of one plank.
fn price(plank: &Plank) -> u64 {
    (plank.price * 100.0).round() as u64
}

/// Best-first enumeration of numbers of planks.
///
/// Each vector is reached once, by adding planks in the shop's order; its place in the queue is its own cost and the least that the
/// length still short can cost, so those that come out with no length short come in rising cost.
pub(super) struct Candidates<'a> {
    shop: &'a Shop,
    /// Length needed by section, a kerf to every piece.
    needed: [u64; 2],
    /// Most length by section from a plank of each size, a kerf to every lane.
    gains: Vec<[u64; 2]>,
    queue: BinaryHeap<Reverse<(Cost, Vec<u32>)>>,
    queued: usize,
    budget: &'a Budget,
}

impl<'a> Candidates<'a> {
    pub fn new(
        shop: &'a Shop,
        yields: &[SectionYield],
        needed: [u64; 2],
        budget: &'a Budget,
    ) -> Self {
        let kerf = shop.kerfs.crosscut.ceil() as u32;
        let gain = |y: &SectionYield, section: BlankSection| match y.length {
            0 => 0,
            length => {
                u64::from(y.most(section))
                    * u64::from(y.lanes[section as usize])
                    * u64::from(length + kerf)
            }
        };
        let gains = yields
            .iter()
            .map(|y| BlankSection::BOTH.map(|section| gain(y, section)))
            .collect();
        let mut all = Self {
            shop,
            needed,
            gains,
            queue: BinaryHeap::new(),
            queued: 0,
            budget,
        };
        let none = vec![0; yields.len()];
        all.queue.push(Reverse((all.least(&none), none)));
        all
    }

    /// No vector still to come costs less; `None` when there is none.
    pub fn floor(&self) -> Option<u64> {
        self.queue.peek().map(|Reverse((cost, _))| cost.0)
    }

    /// No number of planks that starts from `planks` and is long enough costs less.
    fn least(&self, planks: &[u32]) -> Cost {
        let (first, second) = self.cost(planks);
        let more = (0..2).map(|s| self.more(s, planks)).max().unwrap_or(0);
        (first + more, second)
    }

    fn cost(&self, planks: &[u32]) -> Cost {
        let number = planks.iter().map(|&n| u64::from(n)).sum();
        let price = planks
            .iter()
            .zip(&self.shop.planks)
            .map(|(&n, p)| u64::from(n) * price(p))
            .sum();
        match self.shop.aim {
            Aim::Planks => (number, price),
            Aim::Price => (price, number),
        }
    }

    fn short(&self, section: usize, planks: &[u32]) -> u64 {
        let have = self
            .gains
            .iter()
            .zip(planks)
            .map(|(g, &n)| g[section] * u64::from(n))
            .sum();
        self.needed[section].saturating_sub(have)
    }

    /// Least cost of the length still short in a section.
    fn more(&self, section: usize, planks: &[u32]) -> u64 {
        let short = self.short(section, planks);
        let rate = self
            .gains
            .iter()
            .zip(&self.shop.planks)
            .filter(|(g, _)| g[section] > 0)
            .map(|(g, plank)| {
                let cost = match self.shop.aim {
                    Aim::Planks => 1,
                    Aim::Price => price(plank),
                };
                cost as f64 / g[section] as f64
            })
            .fold(f64::INFINITY, f64::min);
        if short > 0 && rate.is_finite() {
            (rate * short as f64 - 1e-6).ceil().max(0.0) as u64
        } else {
            0
        }
    }

    fn expand(&mut self, planks: &[u32]) {
        /// Effort for each size, to copy a vector and to reckon what is short.
        const STEP: u64 = 16;
        let last = planks.iter().rposition(|&n| n > 0).unwrap_or(0);
        for j in last..planks.len() {
            let useful = self.gains[j].iter().any(|&g| g > 0);
            if useful && self.shop.planks[j].count.is_none_or(|c| planks[j] < c) {
                let mut more = planks.to_vec();
                more[j] += 1;
                self.queue.push(Reverse((self.least(&more), more)));
                self.queued += 1;
                self.budget.spend(STEP * planks.len() as u64);
            }
        }
    }
}

impl Iterator for Candidates<'_> {
    type Item = (Cost, Vec<u32>);

    /// The next vector that is long enough; `None` when there is none, or after too many are queued ([`Candidates::floor`] tells which).
    fn next(&mut self) -> Option<Self::Item> {
        while self.queued < QUEUED && !self.budget.is_spent() {
            let Reverse((_, planks)) = self.queue.pop()?;
            self.expand(&planks);
            if (0..2).all(|s| self.short(s, &planks) == 0) {
                return Some((self.cost(&planks), planks));
            }
        }
        None
    }
}
