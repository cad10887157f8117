//! The linear relaxation's bound, by pricing patterns.

use super::price::{Kinds, Table};
use super::problem::Stock;
use microlp::{ComparisonOp, OptimizationDirection, Problem, Solution, SolveOutcome, Variable};

/// A pattern as a cutting plane of the dual.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Plane {
    pub stock: usize,
    pub counts: Vec<u32>,
}

/// Prices no pattern violates, and the bound they give.
#[derive(Debug, Clone)]
pub(super) struct Prices {
    /// Least cost of what is left to cut, in units of the cost.
    pub bound: f64,
    /// Of a piece of each kind.
    pub pieces: Vec<f64>,
    /// Of one length of each stock, over and above its cost; not 0 only where stock is short.
    pub stock: Vec<f64>,
}

/// What is left to do at a branch.
pub(super) struct Rest<'a> {
    pub kinds: &'a Kinds,
    pub stock: &'a [Stock],
    pub left: &'a [u32],
    pub available: &'a [Option<u32>],
}

/// Greatest price of scarce stock, in multiples of the dearest stock's cost: large enough to show that stock does not suffice.
const DEAREST: f64 = 1e4;
/// Effort of a step of the linear programme, in cells for each of its coefficients (measured).
const PIVOT: u64 = 50;
/// Rounds of pricing at most.
const ROUNDS: usize = 400;

impl Rest<'_> {
    /// Prices as good as can be had, or good enough that their bound reaches `enough`.
    ///
    /// `pool` holds patterns met before and is added to; `effort` is reduced by the cells filled. Always sound: if the linear
    /// programme fails, the bound is that of the total length.
    pub fn prices(&self, pool: &mut Vec<Plane>, enough: f64, effort: &mut u64) -> Prices {
        let mut best = self.by_length();
        let mut rows: Vec<Plane> = pool.iter().filter_map(|p| self.trimmed(p)).collect();
        rows.sort();
        rows.dedup();
        let Some(mut master) = Master::new(self, &rows) else {
            return best;
        };
        for _ in 0..ROUNDS {
            let (pieces, stock) = master.prices();
            let table = Table::new(self.kinds, self.left, &pieces);
            let simplex = PIVOT * (rows.len() * self.kinds.lengths.len()) as u64;
            *effort = effort.saturating_sub(Table::cells(self.kinds) + simplex);
            // Scale the prices down until no pattern is worth more than its stock.
            let scale = self.usable().fold(1.0f64, |s, j| {
                s.max(table.best(self.stock[j].length) / (self.stock[j].cost as f64 + stock[j]))
            });
            let scaled: Vec<f64> = pieces.iter().map(|p| p / scale).collect();
            let bound = self.value(&scaled, &stock);
            if bound > best.bound {
                best = Prices {
                    bound,
                    pieces: scaled,
                    stock: stock.clone(),
                };
            }
            if scale <= 1.0 + 1e-9 || best.bound >= enough || *effort == 0 {
                break;
            }
            let mut grew = false;
            for j in self.usable() {
                if table.best(self.stock[j].length)
                    <= (self.stock[j].cost as f64 + stock[j]) * (1.0 + 1e-9)
                {
                    continue;
                }
                let plane = Plane {
                    stock: j,
                    counts: table.pattern(self.kinds, self.left, &pieces, self.stock[j].length),
                };
                if rows.contains(&plane) {
                    continue;
                }
                match master.add(&plane) {
                    Some(next) => master = next,
                    None => return best,
                }
                rows.push(plane.clone());
                pool.push(plane);
                grew = true;
            }
            if !grew {
                break;
            }
        }
        best
    }

    fn usable(&self) -> impl Iterator<Item = usize> {
        (0..self.stock.len()).filter(|&j| self.available[j] != Some(0))
    }

    /// A pattern cut down to what is left, unless it holds nothing of it or its stock is used up.
    fn trimmed(&self, plane: &Plane) -> Option<Plane> {
        let counts: Vec<u32> = plane
            .counts
            .iter()
            .zip(self.left)
            .map(|(&c, &l)| c.min(l))
            .collect();
        (self.available[plane.stock] != Some(0) && counts.iter().any(|&c| c > 0)).then_some(Plane {
            stock: plane.stock,
            counts,
        })
    }

    fn value(&self, pieces: &[f64], stock: &[f64]) -> f64 {
        let worth: f64 = pieces
            .iter()
            .zip(self.left)
            .map(|(p, &n)| p * f64::from(n))
            .sum();
        let scarce: f64 = stock
            .iter()
            .zip(self.available)
            .map(|(s, n)| s * f64::from(n.unwrap_or(0)))
            .sum();
        worth - scarce
    }

    /// Prices in proportion to length, at the cheapest stock's rate.
    fn by_length(&self) -> Prices {
        let rate = self
            .usable()
            .map(|j| self.stock[j].cost as f64 / f64::from(self.stock[j].length))
            .fold(f64::INFINITY, f64::min);
        let rate = if rate.is_finite() { rate } else { 0.0 };
        let pieces: Vec<f64> = self
            .kinds
            .lengths
            .iter()
            .map(|&l| rate * f64::from(l))
            .collect();
        let stock = vec![0.0; self.stock.len()];
        Prices {
            bound: self.value(&pieces, &stock),
            pieces,
            stock,
        }
    }
}

/// The dual over the patterns met so far, with its variables.
struct Master {
    solution: Solution,
    pieces: Vec<Option<Variable>>,
    stock: Vec<Option<Variable>>,
    costs: Vec<f64>,
    unit: f64,
}

impl Master {
    fn new(rest: &Rest, rows: &[Plane]) -> Option<Self> {
        let unit = rest.stock.iter().map(|s| s.cost).max().filter(|&c| c > 0)? as f64;
        let mut problem = Problem::new(OptimizationDirection::Maximize);
        let scarce = rest.available.iter().any(|n| n.is_some());
        // One piece is never worth more than the cheapest stock that holds it, and the scarcity of that stock.
        let dearest = 1.0 + if scarce { DEAREST } else { 0.0 };
        let pieces = rest
            .left
            .iter()
            .map(|&n| (n > 0).then(|| problem.add_var(f64::from(n), (0.0, dearest))))
            .collect();
        let stock = rest
            .available
            .iter()
            .map(|n| {
                n.filter(|&n| n > 0)
                    .map(|n| problem.add_var(-f64::from(n), (0.0, DEAREST)))
            })
            .collect();
        let costs = rest.stock.iter().map(|s| s.cost as f64 / unit).collect();
        let mut master = Parts {
            pieces,
            stock,
            costs,
        };
        for plane in rows {
            let (terms, cost) = master.row(plane);
            problem.add_constraint(terms, ComparisonOp::Le, cost);
        }
        let SolveOutcome::Solution(solution) = problem.solve().ok()? else {
            return None;
        };
        let Parts {
            pieces,
            stock,
            costs,
        } = std::mem::take(&mut master);
        Some(Self {
            solution,
            pieces,
            stock,
            costs,
            unit,
        })
    }

    fn add(self, plane: &Plane) -> Option<Self> {
        let Self {
            solution,
            pieces,
            stock,
            costs,
            unit,
        } = self;
        let parts = Parts {
            pieces,
            stock,
            costs,
        };
        let (terms, cost) = parts.row(plane);
        let SolveOutcome::Solution(solution) = solution
            .add_constraint(terms, ComparisonOp::Le, cost)
            .ok()?
        else {
            return None;
        };
        let Parts {
            pieces,
            stock,
            costs,
        } = parts;
        Some(Self {
            solution,
            pieces,
            stock,
            costs,
            unit,
        })
    }

    fn prices(&self) -> (Vec<f64>, Vec<f64>) {
        let read = |vars: &[Option<Variable>]| -> Vec<f64> {
            vars.iter()
                .map(|v| v.map_or(0.0, |v| self.solution.var_value(v).max(0.0) * self.unit))
                .collect()
        };
        (read(&self.pieces), read(&self.stock))
    }
}

#[derive(Default)]
struct Parts {
    pieces: Vec<Option<Variable>>,
    stock: Vec<Option<Variable>>,
    costs: Vec<f64>,
}

impl Parts {
    /// `Σ counts · price − scarcity ≤ cost`.
    fn row(&self, plane: &Plane) -> (Vec<(Variable, f64)>, f64) {
        let mut terms: Vec<(Variable, f64)> = plane
            .counts
            .iter()
            .zip(&self.pieces)
            .filter(|(c, _)| **c > 0)
            .filter_map(|(&c, v)| v.map(|v| (v, f64::from(c))))
            .collect();
        if let Some(v) = self.stock[plane.stock] {
            terms.push((v, -1.0));
        }
        (terms, self.costs[plane.stock])
    }
}
