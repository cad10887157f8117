//! The rail along the whole board.
//!
//! What is solved, on one page. A rail of one guide depth `d` is three things that hang on one another:
//!
//! 1. the **leans** of the courses and the starters' path, smoothed along the board from what the guide asks ([`Leans`]);
//! 2. the **stacks** in all planes, given leans and the strips' directions;
//! 3. the **directions** of the strips, read off the stacks' middles.
//!
//! 2 and 3 are taken in turns until no strip moves by more than [`SETTLED`]; what the last turn moved is [`Rail::settled`], and a rail that
//! has not settled is warned of. That is the rail as built at `d`.
//!
//! Around it lies the search for `d`. Of the rail as built the least excess of cover over what is required and that of proud are measured, over
//! moulded strips. Their difference, the imbalance, falls as the guide goes inward, by about 2 mm a mm; its root is
//! bracketed by regula falsi ([`Bracket`]). First this is done in planes of the search's own, which lie evenly between
//! the first and the last and also give the leans; then in the planes asked for, until the imbalance is below
//! [`BALANCED`]. Of the rails built the best balanced is kept: where a course comes or goes the margins jump, and there
//! may be no balance. Nor is there one at a depth that would leave the strips (0 to half their thickness); it
//! stays at that end, and the lesser margin is what it is.

use super::courses::{Given, Plane, Stack, stack};
use super::ground::Ground;
use super::lean::Leans;
use super::margins::{Margins, margins};
use super::run_outs::run_outs;
use crate::design::Construction;
use crate::geometry::curve::Vector;
use crate::geometry::parallel;
use crate::shape::{LINE_ACCURACY, Shell, ShellError};

/// The starboard rail; port is its mirror image.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Rail {
    /// Depth of the guide under the finished surface, mm.
    pub depth: f64,
    /// Stacks in planes of rising x.
    pub stacks: Vec<Stack>,
    /// Margins of each stack; `None` where it has no wood to speak of.
    pub margins: Vec<Option<Margins>>,
    /// The strip that moved most in the last round of taking the strips' directions from their paths.
    pub settled: Movement,
}

/// How far a strip moved from one round to the next, and where.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Movement {
    /// mm.
    pub by: f64,
    /// The plane, mm from the tail.
    pub x: f64,
    /// Index of the course.
    pub course: usize,
}

/// Rounds of taking directions from paths at most. Each reduces the movement by an order of magnitude or so; where a course first comes and
/// goes at its run-out, some go by before that.
const ROUNDS: usize = 16;
/// A strip that moves less than this, mm, has settled: the next round would move it a tenth of that.
const SETTLED: f64 = 1e-3;
/// Steps of the search for the guide's depth at most.
const SEARCHES: usize = 4;
/// Imbalance of cover and proud, mm, at which that search ends.
const SEARCHED: f64 = 0.1;
/// Rails built at most to balance cover and proud.
const CORRECTIONS: usize = 6;
/// Imbalance, mm, at which they count as equal.
const BALANCED: f64 = 0.02;
/// A depth that would move less than this, mm, stays: it is at an end, or a course comes or goes there and the margins jump.
const STILL: f64 = 1e-3;
/// Turns of directions in the search, each from where the last depth left them.
const SEARCH_ROUNDS: usize = 2;
/// Gaps between the planes it looks at at least.
const SEARCH_PLANES: usize = 24;
/// How closely, mm, lines are followed there: far within what the guide's depth is sought to, and twice as fast.
const SEARCH_ACCURACY: f64 = 2e-4;
/// Greatest gap, mm, between the planes from which the courses' leans are taken.
const LEAN_GAP: f64 = 40.0;

/// Solves the rail in the planes `x` (rising, mm).
///
/// The guide's depth is the one that leaves cover and proud of the rail as built over what is required by the same amount at their worst
/// planes; see the page at the head of this file.
pub fn solve(shell: &Shell, construction: &Construction, x: &[f64]) -> Result<Rail, ShellError> {
    Site::new(shell, construction, x)?.solve(construction)
}

/// All that the strips' profile does not change: skins and finished section in every plane.
pub struct Site<'a> {
    shell: &'a Shell,
    work: Vec<Ground<'a>>,
    /// Planes in which the guide's depth is sought: of its own, evenly spread between the first and the last, so that it does
    /// not depend on how densely the rail is solved.
    search: Vec<Ground<'a>>,
}

impl<'a> Site<'a> {
    /// The site in the planes `x` (rising, mm).
    pub fn new(shell: &'a Shell, c: &Construction, x: &[f64]) -> Result<Self, ShellError> {
        let (first, last) = (
            x.first().copied().unwrap_or(0.0),
            x.last().copied().unwrap_or(0.0),
        );
        let grounds = |x: &[f64], accuracy: f64| -> Result<Vec<Ground<'a>>, ShellError> {
            let found = parallel::try_map(x, |x| Ground::new(shell, c, *x, accuracy))?;
            Ok(found.into_iter().flatten().collect())
        };
        let stride = ((last - first) / (LEAN_GAP * SEARCH_PLANES as f64))
            .ceil()
            .clamp(1.0, 8.0) as usize;
        let gaps = stride * SEARCH_PLANES;
        let even = (0..=gaps).map(|i| first + (last - first) * i as f64 / gaps as f64);
        let even: Vec<f64> = even.collect();
        Ok(Self {
            shell,
            work: grounds(x, LINE_ACCURACY)?,
            search: grounds(&even, SEARCH_ACCURACY)?,
        })
    }

    /// The rail, as [`solve`] gives it, of a construction that differs from the site's in its strips and starters alone.
    pub fn solve(&self, construction: &Construction) -> Result<Rail, ShellError> {
        let near = (construction.cover - construction.proud) / 2.0;
        self.balanced(construction, near, |rail, leans| {
            let solved: Vec<(Stack, Option<Margins>)> = std::mem::take(&mut rail.stacks)
                .into_iter()
                .zip(std::mem::take(&mut rail.margins))
                .collect();
            let extra = run_outs(self.shell, construction, rail.depth, leans, &solved)?;
            let mut solved: Vec<_> = solved.into_iter().chain(extra).collect();
            solved.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
            (rail.stacks, rail.margins) = solved.into_iter().unzip();
            Ok(())
        })
    }

    /// The rail in the planes asked for, without those at run-outs.
    ///
    /// `near` is where the search for the guide's depth starts.
    pub(super) fn rail(&self, construction: &Construction, near: f64) -> Result<Rail, ShellError> {
        self.balanced(construction, near, |_, _| Ok(()))
    }

    /// The best balanced of the rails built, each made whole by `complete`.
    fn balanced(
        &self,
        c: &Construction,
        near: f64,
        complete: impl Fn(&mut Rail, &Leans) -> Result<(), ShellError>,
    ) -> Result<Rail, ShellError> {
        let half = c.strip.thickness / 2.0;
        let mut searched = None;
        let (mut depth, mut leans, slope) = self.depth(c, near, &mut searched);
        let mut along = None;
        let mut bracket = Bracket::new(slope);
        let mut best: Option<(f64, Rail)> = None;
        for _ in 0..CORRECTIONS {
            let planes = parallel::map(&self.work, |g| g.plane(depth));
            let (stacks, settled) = settle(&planes, c, &mut leans, along.take(), ROUNDS);
            along = Some(directions(&stacks));
            let mut rail = Rail {
                depth,
                margins: all_margins(&planes, &stacks),
                stacks,
                settled,
            };
            complete(&mut rail, &leans)?;
            // Without moulded strips any depth is as good.
            let over = imbalance(c, rail.margins.iter().flatten()).unwrap_or(0.0);
            if best.as_ref().is_none_or(|b| over.abs() < b.0) {
                best = Some((over.abs(), rail));
            }
            let next = bracket.next(depth, over).clamp(0.0, half);
            if over.abs() < BALANCED || (next - depth).abs() < STILL {
                break;
            }
            depth = next;
            (leans, ..) = self.leans(c, depth, &mut searched);
        }
        Ok(best.map(|b| b.1).unwrap_or_default())
    }

    /// The guide's depth, mm, as the search's planes have it, with the courses' leans there and by how much the imbalance falls from one mm
    /// of depth to the next.
    fn depth(&self, c: &Construction, near: f64, along: &mut Option<Along>) -> (f64, Leans, f64) {
        let half = c.strip.thickness / 2.0;
        let mut depth = near.clamp(0.0, half);
        let mut bracket = Bracket::new(SLOPE);
        loop {
            let (leans, planes, stacks) = self.leans(c, depth, along);
            let found = all_margins(&planes, &stacks);
            let over = imbalance(c, found.iter().flatten()).unwrap_or(0.0);
            let next = bracket.next(depth, over).clamp(0.0, half);
            let still = over.abs() < SEARCHED || (next - depth).abs() < STILL;
            if still || bracket.tried >= SEARCHES {
                return (depth, leans, bracket.slope);
            }
            depth = next;
        }
    }

    /// The courses' leans under a guide of this depth, with the planes of the search and the rail as built in them. `along` is where the
    /// directions start from and where they end.
    fn leans(&self, c: &Construction, depth: f64, along: &mut Option<Along>) -> Trial {
        let planes = parallel::map(&self.search, |g| g.plane(depth));
        let led = parallel::map(&planes, |plane| stack(plane, c, &Given::default()));
        let mut leans = Leans::new(&planes, c, &directions(&led));
        let (stacks, _) = settle(&planes, c, &mut leans, along.take(), SEARCH_ROUNDS);
        *along = Some(directions(&stacks));
        (leans, planes, stacks)
    }
}

/// The margins of every plane's stack.
fn all_margins(planes: &[Plane], stacks: &[Stack]) -> Vec<Option<Margins>> {
    let pairs: Vec<_> = planes.iter().zip(stacks).collect();
    parallel::map(&pairs, |(plane, stack)| margins(plane, stack))
}

/// What is known of a depth that is tried.
type Trial = (Leans, Vec<Plane>, Vec<Stack>);

/// By how much, mm, the stock outside moulded strips is more over what is required than the wood behind them, each at its worst.
fn imbalance<'a>(c: &Construction, all: impl Iterator<Item = &'a Margins>) -> Option<f64> {
    let [mut cover, mut proud] = [f64::INFINITY; 2];
    for m in all {
        cover = cover.min(m.strip_cover - c.cover);
        proud = proud.min(m.strip_proud - c.proud);
    }
    (cover.is_finite() && proud.is_finite()).then_some(proud - cover)
}

/// Depths between which cover and proud balance, with the imbalance there.
#[derive(Debug, Clone, Copy, Default)]
struct Bracket {
    /// Where proud is over by more than cover.
    shallow: Option<(f64, f64)>,
    /// Where it is over by less.
    deep: Option<(f64, f64)>,
    /// By how much the imbalance falls from one mm of depth to the next.
    slope: f64,
    /// Depths tried.
    tried: usize,
}

/// Moving the guide inward by a mm takes about one from proud and gives it to cover.
const SLOPE: f64 = 2.0;

impl Bracket {
    fn new(slope: f64) -> Self {
        Self {
            slope,
            ..Self::default()
        }
    }

    /// The depth to try next after `depth` left an imbalance of `over`.
    fn next(&mut self, depth: f64, over: f64) -> f64 {
        self.tried += 1;
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
        self.slope = ((fa - fb) / (b - a)).clamp(SLOPE / 2.0, SLOPE * 2.0);
        // Regula falsi, kept off the bracket's ends, where it would stall.
        let share = (fa / (fa - fb)).clamp(0.1, 0.9);
        a + (b - a) * share
    }
}

/// Directions of every course in every plane.
type Along = Vec<Vec<Option<Vector<3>>>>;

/// The stacks in `planes` with the strips' directions taken from them, in so many `rounds` at most, and what the last of these moved.
///
/// Starts from directions `along`, else from the guide's.
fn settle(
    planes: &[Plane],
    c: &Construction,
    leans: &mut Leans,
    along: Option<Along>,
    rounds: usize,
) -> (Vec<Stack>, Movement) {
    let lean: Vec<Vec<Option<f64>>> = planes.iter().map(|p| leans.at(p.x)).collect();
    let build = |along: &Along, leans: &Leans| -> Vec<Stack> {
        let given = along.iter().zip(&lean);
        let all: Vec<_> = planes.iter().zip(given).collect();
        parallel::map(&all, |(plane, (along, lean))| {
            stack(plane, c, &leans.given(plane.x, along, lean))
        })
    };
    let along = along.unwrap_or_else(|| vec![Vec::new(); planes.len()]);
    let mut stacks = build(&along, leans);
    let mut settled = Movement::default();
    for _ in 0..rounds {
        let along = directions(&stacks);
        leans.clear(&stacks);
        let next = build(&along, leans);
        settled = movement(&stacks, &next);
        stacks = next;
        if settled.by < SETTLED {
            break;
        }
    }
    (stacks, settled)
}

/// Directions of every course in every plane, from the middles of the strips in the neighbouring planes.
fn directions(stacks: &[Stack]) -> Along {
    let middle = |s: usize, i: usize| -> Option<(f64, Vector<2>)> {
        let course = stacks.get(s)?.courses.get(i)?;
        Some((stacks[s].x, (course.foot + course.head) / 2.0))
    };
    type Place = (f64, Vector<2>);
    let chord = |a: Place, b: Place| (b.1 - a.1) / (b.0 - a.0);
    // Slope at `here` of the parabola through three places in any order.
    let tangent = |here: Place, a: Place, b: Place| {
        let (p, q) = (chord(here, a), chord(here, b));
        (p * (b.0 - here.0) - q * (a.0 - here.0)) / (b.0 - a.0)
    };
    (0..stacks.len())
        .map(|s| {
            (0..stacks[s].courses.len())
                .map(|i| {
                    let here = middle(s, i)?;
                    let back = |n: usize| s.checked_sub(n).and_then(|s| middle(s, i));
                    let on = |n: usize| middle(s + n, i);
                    let slope = match (back(1), on(1)) {
                        (Some(a), Some(b)) => tangent(here, a, b),
                        (Some(a), None) => back(2).map_or(chord(a, here), |b| tangent(here, a, b)),
                        (None, Some(a)) => on(2).map_or(chord(a, here), |b| tangent(here, a, b)),
                        (None, None) => return None,
                    };
                    Some(Vector::<3>::new(1.0, slope.x, slope.y).normalize())
                })
                .collect()
        })
        .collect()
}

/// What moved most. A course that comes or goes has no movement.
fn movement(before: &[Stack], after: &[Stack]) -> Movement {
    let moved = |(a, b): (&Stack, &Stack)| -> Vec<Movement> {
        let pairs = a.courses.iter().zip(&b.courses).enumerate();
        let each = pairs.map(|(course, (p, q))| Movement {
            by: (p.head - q.head).norm(),
            x: b.x,
            course,
        });
        each.collect()
    };
    let all = before.iter().zip(after).flat_map(moved);
    all.max_by(|a, b| a.by.total_cmp(&b.by)).unwrap_or_default()
}

impl Rail {
    /// The stack in the plane nearest to `x`.
    pub fn at(&self, x: f64) -> Option<(&Stack, Option<&Margins>)> {
        let index = (0..self.stacks.len()).min_by(|&a, &b| {
            (self.stacks[a].x - x)
                .abs()
                .total_cmp(&(self.stacks[b].x - x).abs())
        })?;
        Some((&self.stacks[index], self.margins[index].as_ref()))
    }
}
