//! How well a rail is solved.

use serde::Serialize;

use super::residuals::Movement;

/// What the iteration came to: the residuals of the rail that was kept, and what they took.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Default)]
#[non_exhaustive]
pub struct Convergence {
    /// Rounds of taking the strips' directions from their paths, at the depth kept.
    pub rounds: usize,
    /// The strip that moved most in the last of them.
    pub movement: Movement,
    /// Planes whose number of courses changed in that round: there a course came or went, which has no movement.
    pub course_changes: usize,
    /// Whether the strip that moved most moved less than [`SolveLimits::movement`](super::SolveLimits::movement).
    pub settled: bool,
    /// Depths of the guide that were tried, the search stage's included.
    pub depths: usize,
    /// By how much, mm, the stock outside the moulded strips is more over what is required than the wood behind them, each at its worst;
    /// `None` without moulded strips.
    pub imbalance: Option<f64>,
    /// Why the depth was sought no further.
    pub balance: Balance,
}

/// Why the search for the guide's depth ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Default)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Balance {
    /// There are no moulded strips, so that any depth is as good.
    #[default]
    NoStrips,
    /// Cover and proud are over what is required by the same amount.
    Even,
    /// The depth is at an end of its range, 0 or half the strips' thickness, and the lesser margin is what it is.
    RangeEnd,
    /// The margins jump, where a course comes or goes: no depth balances them.
    Jump,
    /// The steps ran out before any of these.
    StepLimit,
}
