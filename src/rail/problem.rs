//! What the rail is solved from.

use super::constants::{ROUNDS, SEARCH_ACCURACY, SEARCH_GAP, SEARCH_GAPS, SEARCH_STRIDE, SETTLED};
use super::plane_context::PlaneContext;
use crate::design::Construction;
use crate::geometry::parallel;
use crate::shape::{LINE_ACCURACY, Shell, ShellError};

/// When the rounds of taking the strips' directions from their paths end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SolveLimits {
    /// Rounds at most, at each depth of the guide. Every one takes as long as building all stacks once.
    pub rounds: usize,
    /// A strip that moves less than this in a round, mm, has settled.
    pub movement: f64,
}

impl Default for SolveLimits {
    /// Sixteen rounds and a thousandth of a millimetre.
    fn default() -> Self {
        Self {
            rounds: ROUNDS,
            movement: SETTLED,
        }
    }
}

/// All that the strips' profile does not change: skins and finished section in every plane. Made once for a shell, it serves every solution
/// on it.
#[derive(Debug, Clone, PartialEq)]
pub struct RailContext {
    /// The planes the rail is built in.
    pub(super) build: Vec<PlaneContext>,
    /// Planes in which the guide's depth is searched for and leans are taken: evenly spread between the first and the last, so that they do
    /// not depend on how densely the rail is built.
    pub(super) search: Vec<PlaneContext>,
}

impl RailContext {
    /// The context of `shell` in the planes `x` (rising, mm); of the construction it takes the skins. Planes where the board is too thin
    /// for its skins are left out.
    ///
    /// # Errors
    /// [`ShellError`] where an `x` is no number.
    pub fn new(shell: &Shell, construction: &Construction, x: &[f64]) -> Result<Self, ShellError> {
        let (first, last) = (
            x.first().copied().unwrap_or(0.0),
            x.last().copied().unwrap_or(0.0),
        );
        let planes = |x: &[f64], accuracy: f64| -> Result<Vec<PlaneContext>, ShellError> {
            let found =
                parallel::try_map(x, |x| PlaneContext::new(shell, construction, *x, accuracy))?;
            Ok(found.into_iter().flatten().collect())
        };
        let stride = ((last - first) / (SEARCH_GAP * SEARCH_GAPS as f64))
            .ceil()
            .clamp(1.0, SEARCH_STRIDE) as usize;
        let gaps = stride * SEARCH_GAPS;
        let even = (0..=gaps).map(|i| first + (last - first) * i as f64 / gaps as f64);
        let even: Vec<f64> = even.collect();
        Ok(Self {
            build: planes(x, LINE_ACCURACY)?,
            search: planes(&even, SEARCH_ACCURACY)?,
        })
    }

    /// The context in fewer planes: of its own the nearest to each of `x` (mm, in any order).
    pub(super) fn nearest_to(&self, x: &[f64]) -> Self {
        let nearest = |x: f64| {
            let after = self.build.partition_point(|p| p.x() < x);
            let near = after.saturating_sub(1)..(after + 1).min(self.build.len());
            let off = |i: &usize| (self.build[*i].x() - x).abs();
            near.min_by(|a, b| off(a).total_cmp(&off(b)))
        };
        let mut indices: Vec<usize> = x.iter().filter_map(|x| nearest(*x)).collect();
        indices.sort_unstable();
        indices.dedup();
        Self {
            build: indices.iter().map(|i| self.build[*i].clone()).collect(),
            search: self.search.clone(),
        }
    }
}

/// A rail to be solved: see the page at the head of [`rail`](super).
#[derive(Debug, Clone, Copy)]
pub struct RailProblem<'a> {
    /// The finished surface.
    pub shell: &'a Shell,
    /// Skins and finished section of that shell in the rail's planes.
    pub context: &'a RailContext,
    /// Strips, starters, cover and proud. Its skins are those of the context.
    pub construction: &'a Construction,
    /// When to end.
    pub limits: SolveLimits,
}

impl<'a> RailProblem<'a> {
    /// The rail of `construction` between the skins of `context`, which was made of `shell`, within the usual limits.
    pub fn new(shell: &'a Shell, context: &'a RailContext, construction: &'a Construction) -> Self {
        Self {
            shell,
            context,
            construction,
            limits: SolveLimits::default(),
        }
    }
}
