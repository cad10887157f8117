//! The effort that a cutting plan may take in all.

use std::cell::Cell;

/// What is left of the effort for one plan, in the measure of [`Problem::solve`](crate::wood::stock::lengths::Problem::solve).
///
/// Each question of lengths has an effort of its own, but sizes of planks, ways to scarf and ways to share out leaves multiply the
/// questions. Counted, not timed: the same input gives the same plan.
#[derive(Debug)]
pub struct Budget(Cell<u64>);

impl Default for Budget {
    /// Enough for the plan of any board from a shop's usual sizes; two or three seconds' work.
    fn default() -> Self {
        Self(Cell::new(2_000_000_000))
    }
}

impl Budget {
    /// What is left.
    pub(super) const fn rest(&self) -> u64 {
        self.0.get()
    }

    /// Whether nothing is left.
    pub(super) const fn is_spent(&self) -> bool {
        self.rest() == 0
    }

    /// Takes `effort` from what is left.
    pub(super) fn spend(&self, effort: u64) {
        self.0.set(self.rest().saturating_sub(effort));
    }
}
