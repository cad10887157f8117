//! The search for the guide's depth, at which cover and proud balance.

use super::constants::{BRACKET_EDGE, LEAST_STEP, SLOPE_LEAST, SLOPE_MOST};
use super::convergence::Balance;

/// One stage of the search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct DepthStage {
    /// Depths tried at most.
    pub steps: usize,
    /// Imbalance, mm, at which it ends.
    pub balanced: f64,
    /// The depth it starts from, mm.
    pub start: f64,
    /// The greatest depth, mm; the least is 0.
    pub deepest: f64,
    /// By how much the imbalance falls from one mm of depth to the next, as far as known.
    pub slope: f64,
}

/// What a stage found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct DepthFound {
    /// The last depth tried, mm.
    pub depth: f64,
    /// By how much the imbalance falls from one mm of depth to the next there.
    pub slope: f64,
    /// Depths tried.
    pub steps: usize,
    /// Why it ended.
    pub balance: Balance,
}

impl DepthStage {
    /// Tries depths until `imbalance`, which is `None` where any depth is as good, is small.
    ///
    /// False position on a bracket of the root (the imbalance falls as the depth grows), kept off the bracket's ends, where it would stall.
    pub fn run<E>(
        &self,
        mut imbalance: impl FnMut(f64) -> Result<Option<f64>, E>,
    ) -> Result<DepthFound, E> {
        let mut bracket = Bracket::new(self.slope);
        let mut depth = self.start;
        let mut steps = 0;
        loop {
            let over = imbalance(depth)?;
            steps += 1;
            let next = bracket
                .next(depth, over.unwrap_or(0.0))
                .min(self.deepest)
                .max(0.0);
            let balance = match over {
                None => Some(Balance::NoStrips),
                Some(over) if over.abs() < self.balanced => Some(Balance::Even),
                Some(_) if (next - depth).abs() < LEAST_STEP => {
                    // A closed bracket has shrunk onto a jump; an open one was stopped by the range.
                    Some(if bracket.is_closed() {
                        Balance::Jump
                    } else {
                        Balance::RangeEnd
                    })
                }
                Some(_) if steps >= self.steps => Some(if bracket.holds_jump() {
                    Balance::Jump
                } else {
                    Balance::StepLimit
                }),
                Some(_) => None,
            };
            if let Some(balance) = balance {
                return Ok(DepthFound {
                    depth,
                    slope: bracket.slope,
                    steps,
                    balance,
                });
            }
            depth = next;
        }
    }
}

/// Depths between which cover and proud balance, with the imbalance there.
#[derive(Debug, Clone, Copy)]
struct Bracket {
    /// Where proud is over by more than cover.
    shallow: Option<(f64, f64)>,
    /// Where it is over by less.
    deep: Option<(f64, f64)>,
    /// By how much the imbalance falls from one mm of depth to the next.
    slope: f64,
}

impl Bracket {
    fn new(slope: f64) -> Self {
        Self {
            shallow: None,
            deep: None,
            slope,
        }
    }

    /// The depth to try next after `depth` left an imbalance of `over`.
    fn next(&mut self, depth: f64, over: f64) -> f64 {
        let end = if over > 0.0 {
            &mut self.shallow
        } else {
            &mut self.deep
        };
        *end = Some((depth, over));
        let (Some((a, fa)), Some((b, fb))) = (self.shallow, self.deep) else {
            return depth + over / self.slope;
        };
        // Where a course comes or goes the margins jump, and the bracket closes on that.
        self.slope = ((fa - fb) / (b - a)).clamp(SLOPE_LEAST, SLOPE_MOST);
        let share = (fa / (fa - fb)).clamp(BRACKET_EDGE, 1.0 - BRACKET_EDGE);
        a + (b - a) * share
    }

    /// Whether there is a depth on either side of the balance.
    fn is_closed(&self) -> bool {
        self.shallow.is_some() && self.deep.is_some()
    }

    /// Whether the imbalance falls more steeply between its ends than moving the guide can make it.
    fn holds_jump(&self) -> bool {
        let (Some((a, fa)), Some((b, fb))) = (self.shallow, self.deep) else {
            return false;
        };
        fa - fb > SLOPE_MOST * (b - a)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rail::constants::SLOPE;

    fn stage(steps: usize) -> DepthStage {
        DepthStage {
            steps,
            balanced: 0.02,
            start: 1.0,
            deepest: 3.0,
            slope: SLOPE,
        }
    }

    fn search(steps: usize, imbalance: impl Fn(f64) -> Option<f64>) -> DepthFound {
        let found = stage(steps).run(|depth| Ok::<_, std::convert::Infallible>(imbalance(depth)));
        match found {
            Ok(found) => found,
            Err(never) => match never {},
        }
    }

    #[test]
    fn a_search_ends_where_cover_and_proud_balance() {
        let found = search(6, |depth| {
            Some(1.7 * (1.8 - depth) + 0.1 * (1.8 - depth).powi(3))
        });
        assert_eq!(found.balance, Balance::Even);
        assert!((found.depth - 1.8).abs() < 0.02 / 1.7, "{found:?}");
    }

    #[test]
    fn a_search_says_why_there_is_no_balance() {
        // Every depth in the range leaves proud over by more.
        let found = search(6, |depth| Some(2.0 * (5.0 - depth)));
        assert_eq!((found.balance, found.depth), (Balance::RangeEnd, 3.0));
        // A course goes at 1.5 mm, and a mm of cover with it.
        let jump = |depth: f64| Some(if depth < 1.5 { 0.6 } else { -0.4 });
        assert_eq!(search(6, jump).balance, Balance::Jump);
        // No strips.
        assert_eq!(search(6, |_| None).balance, Balance::NoStrips);
        // One step is too few for a bent imbalance without a jump.
        let bent = |depth: f64| Some(2.0 * (1.8 - depth) + 0.5 * (1.8 - depth).powi(2));
        assert_eq!(search(1, bent).balance, Balance::StepLimit);
        assert_eq!(search(9, bent).balance, Balance::Even);
    }
}
