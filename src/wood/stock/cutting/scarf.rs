//! Where strips longer than the planks are scarfed.
//!
//! A scarf of ratio ρ in wood `t` thick is ρ·t long, and the two pieces overlap by that much. Places are chosen on a grid, course by
//! course with backtracking, so that every joint keeps off the stretches it must and a stagger away from the joints of its neighbours.

use super::budget::Budget;
use super::needs::StripNeed;
use super::section::{BlankSection, SectionYield};
use crate::wood::stock::{Shop, StockError};
use serde::Serialize;

/// A scarf.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ScarfJoint {
    /// Where it begins on the blank, mm from the tail end.
    pub from: f64,
    /// Where it ends, mm from the tail end.
    pub to: f64,
}

impl ScarfJoint {
    /// Its middle, mm from the blank's tail end.
    pub fn middle(&self) -> f64 {
        (self.from + self.to) / 2.0
    }
}

/// How the blanks of a need are pieced together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ScarfedBlanks {
    /// Lengths of the pieces from the tail, mm; one piece is an unjointed blank.
    pub pieces: Vec<f64>,
    /// Joints between them.
    pub joints: Vec<ScarfJoint>,
}

/// Choices kept for each need.
const CHOICES: usize = 400;
/// Effort to compare the joints of two blanks.
const PAIR: u64 = 8;
/// Tries of the backtracking.
const TRIES: usize = 50_000;

/// Scarfs for every need with pieces up to `longest` mm and overlaps of `overlap` mm by section; `unequal` prefers long pieces and one short, else pieces alike.
pub(super) fn scarf_all(
    needs: &[StripNeed],
    shop: &Shop,
    yields: &[SectionYield],
    overlap: [f64; 2],
    longest: u32,
    unequal: bool,
    budget: &Budget,
) -> Result<Vec<ScarfedBlanks>, StockError> {
    let mut order: Vec<usize> = (0..needs.len()).collect();
    order.sort_by_key(|&i| (needs[i].course, i));
    let mut choices: Vec<Vec<ScarfedBlanks>> = Vec::new();
    for &i in &order {
        let need = &needs[i];
        let most = yields
            .iter()
            .filter(|y| y.gives(BlankSection::of(need.kind)) && y.length <= longest)
            .map(|y| y.length)
            .max()
            .unwrap_or(0);
        let found = options(
            need,
            shop,
            overlap[BlankSection::of(need.kind) as usize],
            f64::from(most),
            unequal,
        );
        if found.is_empty() {
            return Err(StockError::Scarf {
                strip: need.strip,
                length: need.length,
                piece: f64::from(most),
                stagger: shop.stagger,
            });
        }
        budget.spend(PAIR * found.len() as u64);
        choices.push(found);
    }
    let mut picked: Vec<usize> = Vec::new();
    let mut next = 0;
    let mut deepest = 0;
    for _ in 0..TRIES {
        let at = picked.len();
        if at == order.len() {
            let mut all: Vec<Option<ScarfedBlanks>> = vec![None; needs.len()];
            for (k, &i) in order.iter().enumerate() {
                all[i] = Some(choices[k][picked[k]].clone());
            }
            return Ok(all.into_iter().flatten().collect());
        }
        deepest = deepest.max(at);
        if budget.is_spent() {
            break;
        }
        let fits = (next..choices[at].len()).find(|&c| {
            (0..at).all(|k| {
                budget.spend(PAIR);
                staggered(
                    &needs[order[k]],
                    &choices[k][picked[k]],
                    &needs[order[at]],
                    &choices[at][c],
                    shop.stagger,
                )
            })
        });
        match fits {
            Some(c) => {
                picked.push(c);
                next = 0;
            }
            None => match picked.pop() {
                Some(c) => next = c + 1,
                None => break,
            },
        }
    }
    let need = &needs[order[deepest]];
    Err(StockError::Scarf {
        strip: need.strip,
        length: need.length,
        piece: f64::from(longest),
        stagger: shop.stagger,
    })
}

fn staggered(
    a: &StripNeed,
    x: &ScarfedBlanks,
    b: &StripNeed,
    y: &ScarfedBlanks,
    least: f64,
) -> bool {
    // Laminations of one strip touch the next one of it only.
    let apart = match (a.lamination, b.lamination) {
        (Some(m), Some(n)) if a.strip == b.strip => m.abs_diff(n) > 1,
        _ => a.course.abs_diff(b.course) > 1,
    };
    apart
        || x.joints.iter().all(|j| {
            y.joints
                .iter()
                .all(|k| (a.start + j.middle() - b.start - k.middle()).abs() >= least - 1e-9)
        })
}

/// Ways to piece one need together, the best first; at most one piece more than must be.
fn options(
    need: &StripNeed,
    shop: &Shop,
    overlap: f64,
    longest: f64,
    unequal: bool,
) -> Vec<ScarfedBlanks> {
    if need.length <= longest || need.count == 0 {
        return vec![ScarfedBlanks {
            pieces: vec![need.length],
            joints: Vec::new(),
        }];
    }
    let fewest = fewest_pieces(need.length, longest, overlap);
    if fewest == 0 {
        return Vec::new();
    }
    let mut found: Vec<(usize, f64, ScarfedBlanks)> = Vec::new();
    for pieces in [fewest, fewest + 1] {
        let joints = pieces - 1;
        // A finer grid where there are few joints to place; 20, 50, 150, 450 … mm.
        let grid = match joints {
            1 => 20.0,
            n => 50.0 * 3f64.powi(n as i32 - 2),
        };
        let pick = Pick {
            need,
            overlap,
            longest,
            shortest: shop.shortest_piece.max(2.0 * overlap),
            joints,
            grid,
        };
        pick.place(&mut Vec::new(), &mut |middles| {
            let scarfed = scarfed(need.length, middles, overlap);
            let squares: f64 = scarfed.pieces.iter().map(|p| p * p).sum();
            found.push((pieces, if unequal { -squares } else { squares }, scarfed));
        });
    }
    found.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    found.truncate(CHOICES);
    found.into_iter().map(|(_, _, s)| s).collect()
}

/// Fewest pieces up to `longest` that a blank of `length` can be scarfed from with overlaps of `overlap`; 0 if it cannot.
pub(super) fn fewest_pieces(length: f64, longest: f64, overlap: f64) -> usize {
    if length <= longest {
        1
    } else if longest <= overlap {
        0
    } else {
        ((length - overlap) / (longest - overlap) - 1e-9).ceil() as usize
    }
}

fn scarfed(length: f64, middles: &[f64], overlap: f64) -> ScarfedBlanks {
    let joints: Vec<ScarfJoint> = middles
        .iter()
        .map(|m| ScarfJoint {
            from: m - overlap / 2.0,
            to: m + overlap / 2.0,
        })
        .collect();
    let mut from = 0.0;
    let mut pieces = Vec::new();
    for joint in &joints {
        pieces.push(joint.to - from);
        from = joint.from;
    }
    pieces.push(length - from);
    ScarfedBlanks { pieces, joints }
}

struct Pick<'a> {
    need: &'a StripNeed,
    overlap: f64,
    longest: f64,
    shortest: f64,
    joints: usize,
    grid: f64,
}

impl Pick<'_> {
    fn place(&self, middles: &mut Vec<f64>, emit: &mut dyn FnMut(&[f64])) {
        let half = self.overlap / 2.0;
        if middles.len() == self.joints {
            emit(middles);
            return;
        }
        let left = (self.joints - middles.len()) as f64;
        let from = middles.last().map_or(0.0, |m| m - half);
        // The piece that ends here, and those still to come, each between shortest and longest.
        let tail = |piece: f64| self.need.length - left * (piece - self.overlap) - half;
        let low = (from + self.shortest - half).max(tail(self.longest));
        let high = (from + self.longest - half).min(tail(self.shortest));
        if low > high + 1e-9 {
            return;
        }
        let steps = ((high - low) / self.grid).floor().max(0.0) as usize;
        let mut places: Vec<f64> = (0..=steps).map(|k| low + k as f64 * self.grid).collect();
        places.push(high);
        places.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        for place in places {
            if self
                .need
                .no_scarf_zones
                .iter()
                .all(|&(a, b)| place + half <= a || place - half >= b)
            {
                middles.push(place);
                self.place(middles, emit);
                middles.pop();
            }
        }
    }
}
