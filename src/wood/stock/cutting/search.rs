//! The fewest or cheapest planks whose lanes hold all pieces.

use super::budget::Budget;
use super::candidates::{Candidates, Cost};
use super::layout::{Demand, Layout, Layouts, Verdict};
use super::needs::{StripNeed, blanks};
use super::scarf::{ScarfedBlanks, fewest_pieces};
use super::section::{BlankSection, SectionYield};
use crate::wood::stock::{Shop, StockError};

/// Layouts tried at most.
const LAYOUTS: usize = 300;
/// Equally good numbers of planks compared for waste.
const TIES: usize = 8;

/// What the search settled on.
pub(super) struct Found {
    /// Numbers of planks of each size.
    pub planks: Vec<u32>,
    /// Where everything is cut.
    pub layout: Layout,
    /// Least the first aim can be with these pieces: planks, or hundredths of the price.
    pub bound: u64,
    /// What was cut for.
    pub demand: [Demand; 2],
}

/// Least planks for the pieces of `scarfed`.
pub(super) fn least_planks(
    needs: &[StripNeed],
    scarfed: &[ScarfedBlanks],
    shop: &Shop,
    yields: &[SectionYield],
    budget: &Budget,
) -> Result<Found, StockError> {
    let demand = BlankSection::BOTH.map(|section| Demand::of(section, needs, scarfed, shop));
    let mut layouts = Layouts::new(yields, &demand, shop.kerfs.crosscut.ceil() as u32, budget);
    let not_enough = || StockError::NotEnough {
        length: demand.iter().map(Demand::length).sum(),
    };
    if !layouts.enough_in_all(&shop.planks) {
        return Err(not_enough());
    }
    let mut candidates = Candidates::new(shop, yields, layouts.needed(), budget);
    let mut best: Option<(Cost, Vec<u32>, Layout)> = None;
    // Set once a vector is accepted, or could not be refused.
    let mut bound: Option<u64> = None;
    let mut ties = 0;
    for (cost, planks) in candidates.by_ref().take(LAYOUTS) {
        if best.as_ref().is_some_and(|(least, ..)| cost > *least) || ties == TIES {
            break;
        }
        match layouts.lay_out(&planks) {
            Verdict::Fits(layout) => {
                bound = bound.or(Some(cost.0));
                ties += 1;
                if best
                    .as_ref()
                    .is_none_or(|(c, _, l)| (cost, layout.used) < (*c, l.used))
                {
                    best = Some((cost, planks, layout));
                }
            }
            Verdict::TooFew => {}
            Verdict::Unknown => bound = bound.or(Some(cost.0)),
        }
    }
    match best {
        Some((_, planks, layout)) => Ok(Found {
            planks,
            layout,
            bound: bound.unwrap_or(0),
            demand,
        }),
        None if bound.is_some() || candidates.floor().is_some() => Err(StockError::Unfinished),
        None => Err(not_enough()),
    }
}

/// Least of the first aim that has the length for all blanks, wherever they are scarfed: each with as few pieces as the longest plank
/// allows.
pub(super) fn least_by_length(
    needs: &[StripNeed],
    shop: &Shop,
    yields: &[SectionYield],
    overlap: [f64; 2],
    budget: &Budget,
) -> u64 {
    let kerf = shop.kerfs.crosscut.ceil();
    let mut needed = [0.0; 2];
    for blank in blanks(needs, shop) {
        let need = &needs[blank.need];
        let s = BlankSection::of(need.kind) as usize;
        let longest = yields.iter().map(|y| y.length).max().unwrap_or(0);
        let pieces = fewest_pieces(need.length, f64::from(longest), overlap[s]).max(1) as f64;
        needed[s] += need.length + (pieces - 1.0) * overlap[s] + pieces * kerf;
    }
    let mut candidates = Candidates::new(
        shop,
        yields,
        needed.map(|n| (n - 1e-6).max(0.0).ceil() as u64),
        budget,
    );
    let floor = candidates.floor().unwrap_or(0);
    match candidates.next() {
        Some((cost, _)) => cost.0,
        None => candidates.floor().unwrap_or(floor),
    }
}
