//! The cutting plan as it is printed and drawn.

use super::layout::{Instance, share};
use super::needs::Blank;
use super::scarf::ScarfedBlanks;
use super::search::Found;
use super::section::{BlankSection, SectionYield};
use crate::wood::stock::{Aim, CourseKind, Profiles, Shop, rough};
use serde::Serialize;

/// A piece cut from a lane.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PieceCut {
    /// The blank it belongs to.
    pub blank: Blank,
    /// Which of the blank's pieces, from the tail.
    pub piece: usize,
    /// Where it begins along the plank's usable length, mm.
    pub from: f64,
    /// Its length, mm.
    pub length: f64,
}

/// One lane ripped from a leaf.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LaneCut {
    /// Pieces in order along it.
    pub pieces: Vec<PieceCut>,
    /// What is left at the end, mm.
    pub offcut: f64,
    /// Whether the offcut is worth keeping.
    pub keep: bool,
}

/// One leaf resawn from a plank.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LeafCut {
    /// What it is sawn for.
    pub section: BlankSection,
    /// Rough thickness, mm.
    pub thickness: f64,
    /// Rough width of its lanes, mm.
    pub lane_width: f64,
    /// Lanes that are cut into; the leaf may have more.
    pub lanes: Vec<LaneCut>,
    /// Lanes it has room for.
    pub room: u32,
}

/// One plank and what it yields.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlankCut {
    /// Index of its size in the shop.
    pub size: usize,
    /// Usable length, mm.
    pub length: f64,
    /// Leaves in order from the dressed face; those without lanes are left whole.
    pub leaves: Vec<LeafCut>,
}

/// What a plan takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Expense {
    /// Number of planks.
    pub planks: u32,
    /// Price of them, the maker's money.
    pub price: f64,
}

/// The whole plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CuttingPlan {
    /// Planks in the shop's order.
    pub planks: Vec<PlankCut>,
    /// How the blanks of each need are scarfed, in the order of the needs.
    pub scarfs: Vec<ScarfedBlanks>,
    /// What it takes.
    pub expense: Expense,
    /// The aim's value: planks, or price.
    pub value: f64,
    /// No plan with these scarfs has less of it.
    pub bound: f64,
    /// No plan has less of it, wherever strips are scarfed.
    pub least_any_scarf: f64,
    /// Whether `value` is proven least with these scarfs.
    pub optimal: bool,
    /// Length of all lanes cut into, mm.
    pub lane_length: f64,
    /// Least that could be, mm, with these scarfs and leaves; equal to `lane_length` when that is proven least.
    pub lane_bound: f64,
}

impl CuttingPlan {
    /// `(value − bound)/value`: the most that could still be saved with these scarfs; 0 when proven best.
    pub fn gap(&self) -> f64 {
        gap(self.value, self.bound)
    }

    /// The same against every way to scarf.
    pub fn gap_any_scarf(&self) -> f64 {
        gap(self.value, self.least_any_scarf)
    }

    /// The same for the length of lanes cut into, once the planks are settled.
    pub fn gap_lanes(&self) -> f64 {
        gap(self.lane_length, self.lane_bound)
    }

    /// Every piece with the plank it comes from.
    pub fn pieces(&self) -> impl Iterator<Item = (usize, &PieceCut)> {
        self.planks.iter().enumerate().flat_map(|(i, plank)| {
            plank
                .leaves
                .iter()
                .flat_map(|leaf| leaf.lanes.iter().flat_map(|lane| &lane.pieces))
                .map(move |piece| (i, piece))
        })
    }

    pub(super) fn better_than(&self, other: &Self, aim: Aim) -> bool {
        let key = |p: &Self| {
            let planks = f64::from(p.expense.planks);
            match aim {
                Aim::Planks => [planks, p.expense.price, p.lane_length],
                Aim::Price => [p.expense.price, planks, p.lane_length],
            }
        };
        key(self) < key(other)
    }
}

fn gap(value: f64, bound: f64) -> f64 {
    if value > 0.0 {
        ((value - bound) / value).max(0.0)
    } else {
        0.0
    }
}

/// Hands the lanes of `found` out to leaves and planks.
pub(super) fn assemble(
    scarfed: &[ScarfedBlanks],
    shop: &Shop,
    profiles: &Profiles,
    yields: &[SectionYield],
    found: Found,
    any_scarf: u64,
) -> CuttingPlan {
    let mut supply = Supply {
        found: &found,
        scarfed,
        kerf: shop.kerfs.crosscut,
        shortest: shop.shortest_offcut,
        given: [vec![], vec![]],
        lane: [vec![], vec![]],
    };
    for section in BlankSection::BOTH {
        supply.given[section as usize] = vec![0; found.demand[section as usize].pieces.len()];
        supply.lane[section as usize] = vec![0; found.layout.sections[section as usize].len()];
    }
    let sizes = [CourseKind::BeadAndCove, CourseKind::Starter].map(|p| rough(profiles, shop, p));
    let mut planks = Vec::new();
    for (size, (&count, y)) in found.planks.iter().zip(yields).enumerate() {
        for squares in share(y, count, found.layout.squares[size]) {
            let mut leaves = Vec::new();
            for (section, n) in [
                (BlankSection::Square, squares),
                (BlankSection::Strip, y.leaves[squares as usize]),
            ] {
                let [thickness, lane_width] = sizes[section as usize];
                let room = y.lanes[section as usize];
                for _ in 0..n {
                    let lanes = (0..room)
                        .map_while(|_| supply.next(section, y.length))
                        .collect();
                    leaves.push(LeafCut {
                        section,
                        thickness,
                        lane_width,
                        lanes,
                        room,
                    });
                }
            }
            planks.push(PlankCut {
                size,
                length: f64::from(y.length),
                leaves,
            });
        }
    }
    let price = planks.iter().map(|p| shop.planks[p.size].price).sum();
    let number = planks.len() as u32;
    let (value, unit) = match shop.aim {
        Aim::Planks => (f64::from(number), 1.0),
        Aim::Price => (price, 100.0),
    };
    let bound = found.bound as f64 / unit;
    let optimal = bound >= value - 0.005;
    CuttingPlan {
        planks,
        scarfs: scarfed.to_vec(),
        expense: Expense {
            planks: number,
            price,
        },
        value,
        bound: if optimal { value } else { bound },
        least_any_scarf: (any_scarf as f64 / unit).min(value),
        optimal,
        lane_length: found.layout.used as f64,
        lane_bound: found.layout.bound as f64,
    }
}

/// Lanes still to be handed out.
struct Supply<'a> {
    found: &'a Found,
    scarfed: &'a [ScarfedBlanks],
    kerf: f64,
    shortest: f64,
    /// By section and section of piece, instances given out.
    given: [Vec<usize>; 2],
    /// By section and length, lanes given out.
    lane: [Vec<usize>; 2],
}

impl Supply<'_> {
    fn next(&mut self, section: BlankSection, length: u32) -> Option<LaneCut> {
        let s = section as usize;
        let groups = &self.found.layout.sections[s];
        let group = groups.iter().position(|g| g.length == length)?;
        let lane = groups[group].lanes.get(self.lane[s][group])?;
        self.lane[s][group] += 1;
        let mut at = 0.0;
        let mut pieces = Vec::new();
        for &i in lane {
            let instance: Instance = *self.found.demand[s].pieces[i].1.get(self.given[s][i])?;
            self.given[s][i] += 1;
            let cut = self.scarfed[instance.blank.need].pieces[instance.piece];
            pieces.push(PieceCut {
                blank: instance.blank,
                piece: instance.piece,
                from: at,
                length: cut,
            });
            at += cut + self.kerf;
        }
        let offcut = (f64::from(length) - at).max(0.0);
        Some(LaneCut {
            pieces,
            offcut,
            keep: offcut >= self.shortest && offcut > 0.0,
        })
    }
}
