//! The fewest or cheapest planks whose lanes hold all pieces.

use super::layout::{Demand, Layout, Layouts, Verdict};
use super::needs::StripNeed;
use super::scarf::Scarfed;
use super::section::{Kind, SectionYield};
use crate::stock::{Aim, Shop, StockError};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Numbers of planks tried at most.
const TRIALS: usize = 100_000;
/// Of those, layouts tried at most.
const LAYOUTS: usize = 300;
/// Equally good numbers of planks compared for waste.
const TIES: usize = 8;

/// What the aim makes least, then what breaks ties: planks and hundredths of the price, or the other way round.
type Cost = (u64, u64);

/// What the search settled on.
pub(super) struct Found {
    /// Numbers of planks of each size.
    pub planks: Vec<u32>,
    /// Where everything is cut.
    pub layout: Layout,
    /// Least the first aim can be with these pieces: planks, or hundredths of the price.
    pub bound: u64,
    /// Least it can be wherever strips are scarfed.
    pub any_scarf: u64,
    /// What was cut for.
    pub demand: [Demand; 2],
}

fn cost(shop: &Shop, planks: &[u32]) -> Cost {
    let number: u64 = planks.iter().map(|&n| u64::from(n)).sum();
    let price: u64 = planks
        .iter()
        .zip(&shop.planks)
        .map(|(&n, p)| u64::from(n) * (p.price * 100.0).round() as u64)
        .sum();
    match shop.aim {
        Aim::Planks => (number, price),
        Aim::Price => (price, number),
    }
}

/// Least planks for the pieces of `scarfed`.
pub(super) fn least_planks(
    needs: &[StripNeed],
    scarfed: &[Scarfed],
    shop: &Shop,
    yields: &[SectionYield],
) -> Result<Found, StockError> {
    let demand = Kind::BOTH.map(|kind| Demand::of(kind, needs, scarfed, shop));
    let mut layouts = Layouts::new(yields, &demand, shop.kerfs.crosscut.ceil() as u32);
    if !layouts.enough_in_all(&shop.planks) {
        return Err(StockError::NotEnough {
            length: demand.iter().map(Demand::length).sum(),
        });
    }
    let rate = Rate::new(shop, &layouts);
    let mut queue = BinaryHeap::new();
    let none = vec![0; yields.len()];
    queue.push(Reverse((rate.least(&none), none)));
    let mut best: Option<(Cost, Vec<u32>, Layout)> = None;
    let mut bound: Option<u64> = None;
    let mut any_scarf: Option<u64> = None;
    let mut ties = 0;
    let mut trials = 0;
    let mut layouts_tried = 0;
    while let Some(Reverse((least, planks))) = queue.pop() {
        if best.as_ref().is_some_and(|(c, ..)| least > *c) || ties >= TIES {
            break;
        }
        trials += 1;
        if trials > TRIALS || layouts_tried > LAYOUTS {
            bound = bound.or(Some(least.0));
            break;
        }
        let last = planks.iter().rposition(|&n| n > 0).unwrap_or(0);
        for j in last..planks.len() {
            let useful = Kind::BOTH.into_iter().any(|k| yields[j].gives(k)) && yields[j].length > 0;
            if useful && shop.planks[j].count.is_none_or(|c| planks[j] < c) {
                let mut more = planks.clone();
                more[j] += 1;
                queue.push(Reverse((rate.least(&more).max(least), more)));
            }
        }
        let here = cost(shop, &planks);
        // Too short in all: the bound says that more planks must come.
        if here < least || !layouts.long_enough(&planks) {
            continue;
        }
        any_scarf = any_scarf.or(Some(here.0));
        layouts_tried += 1;
        match layouts.lay_out(&planks) {
            Verdict::Fits(layout) => {
                bound = bound.or(Some(here.0));
                let less = best
                    .as_ref()
                    .is_none_or(|(c, _, l)| (here, layout.used) < (*c, l.used));
                if less {
                    best = Some((here, planks, layout));
                }
                ties += 1;
            }
            Verdict::TooFew => {}
            Verdict::Unknown => bound = bound.or(Some(here.0)),
        }
    }
    match best {
        Some((_, planks, layout)) => Ok(Found {
            planks,
            layout,
            bound: bound.unwrap_or(0),
            any_scarf: any_scarf.unwrap_or(0),
            demand,
        }),
        None if bound.is_some() => Err(StockError::Unfinished),
        None => Err(StockError::NotEnough {
            length: demand.iter().map(Demand::length).sum(),
        }),
    }
}

/// What length costs at best.
struct Rate<'a> {
    shop: &'a Shop,
    needed: Needed,
    /// By section: most length from a plank, each size.
    gain: Vec<[u64; 2]>,
}

/// Length needed by section, kerfs included.
type Needed = [u64; 2];

impl<'a> Rate<'a> {
    fn new(shop: &'a Shop, layouts: &Layouts) -> Self {
        Self {
            shop,
            needed: layouts.needed(),
            gain: layouts.gains(),
        }
    }

    /// No number of planks that starts from `planks` and suffices costs less.
    fn least(&self, planks: &[u32]) -> Cost {
        let (first, second) = cost(self.shop, planks);
        let more = (0..2).map(|s| self.more(s, planks)).max().unwrap_or(0);
        (first + more, second)
    }

    fn more(&self, section: usize, planks: &[u32]) -> u64 {
        let have: u64 = self
            .gain
            .iter()
            .zip(planks)
            .map(|(g, &n)| g[section] * u64::from(n))
            .sum();
        let short = self.needed[section].saturating_sub(have);
        if short == 0 {
            return 0;
        }
        let per = |j: usize| match self.shop.aim {
            Aim::Planks => 1.0,
            Aim::Price => (self.shop.planks[j].price * 100.0).round(),
        };
        let rate = (0..self.gain.len())
            .filter(|&j| self.gain[j][section] > 0)
            .map(|j| per(j) / self.gain[j][section] as f64)
            .fold(f64::INFINITY, f64::min);
        if rate.is_finite() {
            (rate * short as f64 - 1e-6).ceil().max(0.0) as u64
        } else {
            0
        }
    }
}
