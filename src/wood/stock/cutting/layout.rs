//! Whether given planks hold all pieces, and where.

use super::budget::Budget;
use super::needs::{Blank, StripNeed, blanks};
use super::scarf::ScarfedBlanks;
use super::section::{BlankSection, SectionYield};
use crate::wood::stock::lengths::{Outcome, PieceLength, Problem, Stock};
use crate::wood::stock::{Plank, Shop};
use std::collections::BTreeMap;

/// Effort for one question of lengths, about a fifth of a second.
const EFFORT: u64 = 200_000_000;
/// Ways to share out leaves for squares that are tried.
const SPLITS: usize = 2_000;

/// One piece of a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Instance {
    pub blank: Blank,
    /// Which of the blank's pieces.
    pub piece: usize,
}

/// All pieces of one section.
pub(super) struct Demand {
    /// Pieces by length in whole mm, longest first.
    pub pieces: Vec<(u32, Vec<Instance>)>,
}

impl Demand {
    pub fn of(
        section: BlankSection,
        needs: &[StripNeed],
        scarfed: &[ScarfedBlanks],
        shop: &Shop,
    ) -> Self {
        let mut by_length: BTreeMap<std::cmp::Reverse<u32>, Vec<Instance>> = BTreeMap::new();
        for blank in blanks(needs, shop) {
            if BlankSection::of(needs[blank.need].kind) != section {
                continue;
            }
            for (piece, length) in scarfed[blank.need].pieces.iter().enumerate() {
                let whole = (length - 1e-6).ceil() as u32;
                by_length
                    .entry(std::cmp::Reverse(whole))
                    .or_default()
                    .push(Instance { blank, piece });
            }
        }
        Self {
            pieces: by_length.into_iter().map(|(l, i)| (l.0, i)).collect(),
        }
    }

    /// Length of all pieces, mm.
    pub fn length(&self) -> f64 {
        self.pieces
            .iter()
            .map(|(l, i)| f64::from(*l) * i.len() as f64)
            .sum()
    }
}

/// Lanes of one section cut from one length of plank.
#[derive(Debug, Clone)]
pub(super) struct Lanes {
    /// Length of the lanes, mm.
    pub length: u32,
    /// In each lane, indices into [`Demand::pieces`].
    pub lanes: Vec<Vec<usize>>,
}

/// Where everything is cut.
#[derive(Debug, Clone)]
pub(super) struct Layout {
    /// Leaves for squares from all planks of each size.
    pub squares: Vec<u32>,
    /// By section, lanes cut into, grouped by length.
    pub sections: [Vec<Lanes>; 2],
    /// Length of lanes cut into, mm.
    pub used: u64,
    /// Least that could be for these leaves, mm.
    pub bound: u64,
}

pub(super) enum Verdict {
    Fits(Layout),
    /// Proven too few.
    TooFew,
    /// The effort ran out first.
    Unknown,
}

pub(super) struct Layouts<'a> {
    yields: &'a [SectionYield],
    demand: &'a [Demand; 2],
    kerf: u32,
    /// Distinct lengths of lanes, longest first.
    lengths: Vec<u32>,
    known: BTreeMap<(BlankSection, Vec<u32>), Outcome>,
    budget: &'a Budget,
}

impl<'a> Layouts<'a> {
    pub fn new(
        yields: &'a [SectionYield],
        demand: &'a [Demand; 2],
        kerf: u32,
        budget: &'a Budget,
    ) -> Self {
        let mut lengths: Vec<u32> = yields.iter().map(|y| y.length).filter(|&l| l > 0).collect();
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        lengths.dedup();
        Self {
            yields,
            demand,
            kerf,
            lengths,
            known: BTreeMap::new(),
            budget,
        }
    }

    /// Length needed by section, a kerf to every piece.
    pub fn needed(&self) -> [u64; 2] {
        BlankSection::BOTH.map(|k| {
            self.demand[k as usize]
                .pieces
                .iter()
                .map(|(l, i)| u64::from(l + self.kerf) * i.len() as u64)
                .sum()
        })
    }

    /// Whether all planks there are, were every one sawn for one section alone, hold that section's pieces. A cheap refusal of lists
    /// that no number of planks will do for.
    pub fn enough_in_all(&self, planks: &[Plank]) -> bool {
        BlankSection::BOTH.into_iter().all(|section| {
            let stock = self
                .yields
                .iter()
                .zip(planks)
                .filter(|(y, _)| y.gives(section) && y.length > 0)
                .map(|(y, p)| Stock {
                    length: y.length + self.kerf,
                    cost: u64::from(y.length),
                    count: p
                        .count
                        .map(|c| c.saturating_mul(y.most(section) * y.lanes[section as usize])),
                });
            let outcome = self.solve(&Problem {
                stock: stock.collect(),
                pieces: self.pieces(section),
            });
            outcome.is_some_and(|o| o.plan.is_some() || !o.optimal)
        })
    }

    /// What comes of a question of lengths: unknown once the budget is spent; nothing where it cannot be posed.
    fn solve(&self, problem: &Problem) -> Option<Outcome> {
        if self.budget.is_spent() {
            return Some(Outcome {
                plan: None,
                cost: 0,
                bound: 0,
                optimal: false,
                nodes: 0,
                effort: 0,
            });
        }
        let outcome = problem.solve(EFFORT.min(self.budget.rest())).ok()?;
        self.budget.spend(outcome.effort);
        Some(outcome)
    }

    fn pieces(&self, section: BlankSection) -> Vec<PieceLength> {
        self.demand[section as usize]
            .pieces
            .iter()
            .map(|(l, i)| PieceLength {
                length: l + self.kerf,
                count: i.len() as u32,
            })
            .collect()
    }

    /// Lays all pieces out on `planks`, with as few leaves for squares as will do.
    pub fn lay_out(&mut self, planks: &[u32]) -> Verdict {
        let most: Vec<u32> = planks
            .iter()
            .zip(self.yields)
            .map(|(&n, y)| n * y.most(BlankSection::Square))
            .collect();
        let mut unknown = false;
        let mut refused: Vec<Vec<u32>> = Vec::new();
        for (tries, split) in Splits::new(most).enumerate() {
            if tries == SPLITS || self.budget.is_spent() {
                return Verdict::Unknown;
            }
            let sizes = planks.len() as u64;
            self.budget.spend(sizes * (sizes + refused.len() as u64));
            // More squares than a split already refused for want of strips leave fewer lanes still.
            if refused
                .iter()
                .any(|r| r.iter().zip(&split).all(|(a, b)| a <= b))
            {
                continue;
            }
            let squares = self.cut(
                BlankSection::Square,
                &self.lanes(BlankSection::Square, planks, &split),
            );
            if squares.plan.is_none() {
                unknown |= !squares.optimal;
                continue;
            }
            let strips = self.cut(
                BlankSection::Strip,
                &self.lanes(BlankSection::Strip, planks, &split),
            );
            if strips.plan.is_some() {
                return Verdict::Fits(self.layout(split, [strips, squares]));
            }
            unknown |= !strips.optimal;
            refused.push(split);
        }
        if unknown {
            Verdict::Unknown
        } else {
            Verdict::TooFew
        }
    }

    /// Lanes of `section` by length when `split` leaves of each plank size go to squares.
    fn lanes(&self, section: BlankSection, planks: &[u32], split: &[u32]) -> Vec<u32> {
        self.lengths
            .iter()
            .map(|&length| {
                self.yields
                    .iter()
                    .zip(planks.iter().zip(split))
                    .filter(|(y, _)| y.length == length)
                    .map(|(y, (&n, &squares))| {
                        let leaves = match section {
                            BlankSection::Square => squares,
                            BlankSection::Strip => share(y, n, squares)
                                .iter()
                                .map(|&b| y.leaves[b as usize])
                                .sum(),
                        };
                        leaves * y.lanes[section as usize]
                    })
                    .sum()
            })
            .collect()
    }

    fn cut(&mut self, section: BlankSection, lanes: &[u32]) -> Outcome {
        if let Some(outcome) = self.known.get(&(section, lanes.to_vec())) {
            return outcome.clone();
        }
        let problem = Problem {
            stock: self
                .lengths
                .iter()
                .zip(lanes)
                .map(|(&l, &n)| Stock {
                    length: l + self.kerf,
                    cost: u64::from(l),
                    count: Some(n),
                })
                .collect(),
            pieces: self.pieces(section),
        };
        // A problem that cannot be posed holds a piece longer than all lanes: no plan, and that is certain.
        let outcome = self.solve(&problem).unwrap_or(Outcome {
            plan: None,
            cost: 0,
            bound: 0,
            optimal: true,
            nodes: 0,
            effort: 0,
        });
        self.known
            .insert((section, lanes.to_vec()), outcome.clone());
        outcome
    }

    fn layout(&self, squares: Vec<u32>, outcomes: [Outcome; 2]) -> Layout {
        let used = outcomes.iter().map(|o| o.cost).sum();
        let bound = outcomes.iter().map(|o| o.bound).sum();
        let sections = outcomes.map(|outcome| {
            let mut groups: Vec<Lanes> = self
                .lengths
                .iter()
                .map(|&length| Lanes {
                    length,
                    lanes: Vec::new(),
                })
                .collect();
            for used in outcome.plan.into_iter().flatten() {
                let pieces = used
                    .pieces
                    .iter()
                    .flat_map(|&(i, n)| std::iter::repeat_n(i, n as usize));
                groups[used.stock].lanes.push(pieces.collect());
            }
            // Fullest lanes first, so that what is left over comes from the last ones.
            for group in &mut groups {
                group.lanes.sort();
            }
            groups
        });
        Layout {
            squares,
            sections,
            used,
            bound,
        }
    }
}

/// How `squares` leaves for squares are shared among `planks` planks of one size so that most leaves for strips remain: a table over
/// planks and squares, then read back. The result has one entry a plank, falling.
pub(super) fn share(y: &SectionYield, planks: u32, squares: u32) -> Vec<u32> {
    let (n, s) = (planks as usize, squares as usize);
    const NONE: i64 = -1;
    // best[k][q]: most leaves for strips from k planks with q leaves for squares.
    let mut best = vec![vec![NONE; s + 1]; n + 1];
    best[0][0] = 0;
    for k in 0..n {
        for q in 0..=s {
            for (b, &a) in y.leaves.iter().enumerate() {
                if best[k][q] != NONE && q + b <= s {
                    best[k + 1][q + b] = best[k + 1][q + b].max(best[k][q] + i64::from(a));
                }
            }
        }
    }
    let mut q = s;
    let mut shares = Vec::new();
    for k in (0..n).rev() {
        let b = y
            .leaves
            .iter()
            .enumerate()
            .position(|(b, &a)| {
                b <= q && best[k][q - b] != NONE && best[k][q - b] + i64::from(a) == best[k + 1][q]
            })
            .unwrap_or(0);
        q -= b;
        shares.push(b as u32);
    }
    shares.sort_unstable_by(|a, b| b.cmp(a));
    shares
}

/// Every vector up to `most`, by rising sum.
struct Splits {
    most: Vec<u32>,
    sum: u32,
    next: Option<Vec<u32>>,
}

impl Splits {
    fn new(most: Vec<u32>) -> Self {
        let next = Some(vec![0; most.len()]);
        Self { most, sum: 0, next }
    }

    /// The first vector of the present sum: filled from the front.
    fn first(&self) -> Option<Vec<u32>> {
        let mut rest = self.sum;
        let vector = self.most.iter().map(|&m| {
            let take = m.min(rest);
            rest -= take;
            take
        });
        let vector: Vec<u32> = vector.collect();
        (rest == 0).then_some(vector)
    }

    /// The next vector of the same sum, in falling lexicographic order.
    fn after(&self, vector: &[u32]) -> Option<Vec<u32>> {
        let mut tail = 0;
        for i in (0..vector.len()).rev() {
            let room: u32 = self.most[i + 1..].iter().sum();
            if vector[i] > 0 && room > tail {
                let mut next = vector.to_vec();
                next[i] -= 1;
                let mut rest = tail + 1;
                for (slot, &m) in next[i + 1..].iter_mut().zip(&self.most[i + 1..]) {
                    *slot = m.min(rest);
                    rest -= *slot;
                }
                return Some(next);
            }
            tail += vector[i];
        }
        None
    }
}

impl Iterator for Splits {
    type Item = Vec<u32>;

    fn next(&mut self) -> Option<Vec<u32>> {
        let now = self.next.take()?;
        self.next = self.after(&now).or_else(|| {
            self.sum += 1;
            self.first()
        });
        Some(now)
    }
}
