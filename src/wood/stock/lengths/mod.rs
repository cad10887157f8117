//! One-dimensional cutting stock: pieces of given lengths from stock of given lengths, at least cost, with proof.
//!
//! The method is that of Gilmore & Gomory (*A linear programming approach to the cutting-stock problem*, Operations Research 9, 1961):
//! the linear relaxation over all cutting patterns is solved by generating patterns as they are needed, here on its dual, where a
//! pattern is a cutting plane and a bounded knapsack finds the one most violated. Its value bounds every plan from below. Two fast
//! fillings give a plan to start with; where they do not meet the bound, a branch and bound fixes the pattern that holds the longest
//! piece left, tries only patterns whose reduced cost could still better the plan in hand, and so either finds a better plan or
//! proves that there is none.
//!
//! Everything is whole numbers, so nothing hangs on a tolerance but the linear programme's bound; that bound is made safe by scaling
//! its prices until no pattern violates them (Farley's bound). The effort is counted, not timed: the same input gives the same plan.

mod bound;
mod fill;
mod price;
mod problem;
mod search;

pub use problem::{LengthsError, Outcome, PieceLength, Problem, Stock, Used};

impl Problem {
    /// A plan of least cost, or the best found within `effort`.
    ///
    /// `effort` counts cells of the knapsack tables filled, and the linear programme's work in the same measure; [`Problem::EFFORT`] takes about a second. When it is spent, the plan is
    /// still sound and [`Outcome::bound`] still holds, but [`Outcome::optimal`] may be false.
    ///
    /// # Errors
    ///
    /// [`LengthsError`] for lengths, counts or sizes that make no problem. That the stock does not suffice is no error:
    /// [`Outcome::plan`] is then `None`.
    pub fn solve(&self, effort: u64) -> Result<Outcome, LengthsError> {
        self.check()?;
        Ok(search::Search::new(self, effort).run())
    }

    /// Effort that settles some hundred pieces, about a second's work.
    pub const EFFORT: u64 = 1_000_000_000;
}
