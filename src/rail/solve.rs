//! The iteration that solves the rail; the page at the head of `rail` states it.

use super::constants::{
    BUILD_BALANCED, BUILD_STEPS, SEARCH_BALANCED, SEARCH_ROUNDS, SEARCH_STEPS, SETTLED, SLOPE,
};
use super::convergence::Convergence;
use super::depth_search::DepthStage;
use super::directions::{Directions, directions};
use super::margins::{Margins, margins};
use super::plane_context::{PlaneContext, StackPlane};
use super::problem::{RailContext, RailProblem, SolveLimits};
use super::residuals::{Movement, course_changes, imbalance, movement};
use super::run_outs::{RunOutPlanes, run_outs};
use super::stack::{Stack, StackHints, stack};
use super::unknowns::{Grid, Unknowns};
use crate::design::Construction;
use crate::geometry::parallel;
use crate::shape::{Shell, ShellError};

/// The starboard rail; port is its mirror image.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Rail {
    /// Depth of the guide under the finished surface, mm.
    pub depth: f64,
    /// Stacks in planes of rising x.
    pub stacks: Vec<Stack>,
    /// Margins of each stack; `None` where it has no wood to speak of.
    pub margins: Vec<Option<Margins>>,
    /// How well it is solved.
    pub convergence: Convergence,
}

/// Solves the rail in the planes `x` (rising, mm) within the usual limits.
///
/// # Errors
/// [`ShellError`] where an `x` is no number.
pub fn solve(shell: &Shell, construction: &Construction, x: &[f64]) -> Result<Rail, ShellError> {
    let context = RailContext::new(shell, construction, x)?;
    RailProblem::new(shell, &context, construction).solve()
}

impl RailProblem<'_> {
    /// The rail, in the context's planes and those next to run-outs.
    ///
    /// # Errors
    /// [`ShellError`] where a plane cannot be cut.
    pub fn solve(&self) -> Result<Rail, ShellError> {
        let start = (self.construction.cover - self.construction.proud) / 2.0;
        Iteration::new(self, true).run(start)
    }

    /// The rail in the context's planes alone, the guide's depth (mm) searched for from `start`.
    pub(super) fn solve_planes(&self, start: f64) -> Result<Rail, ShellError> {
        Iteration::new(self, false).run(start)
    }
}

/// The state of the iteration from one depth to the next.
struct Iteration<'a> {
    problem: &'a RailProblem<'a>,
    /// Whether planes next to run-outs belong to the rail.
    with_run_outs: bool,
    unknowns: Unknowns,
    run_out_planes: RunOutPlanes,
}

/// Stacks in planes, and what the rounds that led to them came to.
struct Rounds {
    stacks: Vec<Stack>,
    count: usize,
    /// Of the last round.
    movement: Movement,
    /// Of the last round.
    course_changes: usize,
}

impl<'a> Iteration<'a> {
    fn new(problem: &'a RailProblem<'a>, with_run_outs: bool) -> Self {
        Self {
            problem,
            with_run_outs,
            unknowns: Unknowns::at_depth(0.0),
            run_out_planes: RunOutPlanes::default(),
        }
    }

    /// Both stages; of the rails built the best balanced.
    fn run(mut self, start: f64) -> Result<Rail, ShellError> {
        let c = self.problem.construction;
        let deepest = c.strip.thickness / 2.0;
        let search = DepthStage {
            steps: SEARCH_STEPS,
            balanced: SEARCH_BALANCED,
            start: start.min(deepest).max(0.0),
            deepest,
            slope: SLOPE,
        };
        let search = search.run(|depth| {
            let (planes, stacks) = self.fit_lines(depth);
            let margins = all_margins(&planes, &stacks);
            Ok::<_, ShellError>(imbalance(c, margins.iter().flatten()))
        })?;
        let mut best: Option<Rail> = None;
        let build = DepthStage {
            steps: BUILD_STEPS,
            balanced: BUILD_BALANCED,
            start: search.depth,
            deepest,
            slope: search.slope,
        };
        let build = build.run(|depth| {
            if depth != self.unknowns.depth {
                self.fit_lines(depth);
            }
            let rail = self.build()?;
            let imbalance = rail.convergence.imbalance;
            let size = |rail: &Rail| rail.convergence.imbalance.unwrap_or(0.0).abs();
            if best.as_ref().is_none_or(|best| size(&rail) < size(best)) {
                best = Some(rail);
            }
            Ok::<_, ShellError>(imbalance)
        })?;
        let mut rail = best.unwrap_or_default();
        rail.convergence.depths = search.steps + build.steps;
        rail.convergence.balance = build.balance;
        Ok(rail)
    }

    /// Takes the lines of leans, stand and edge for a depth, mm, from the search grid, and gives its planes and stacks.
    fn fit_lines(&mut self, depth: f64) -> (Vec<StackPlane>, Vec<Stack>) {
        let c = self.problem.construction;
        let planes = self.planes(&self.problem.context.search, depth);
        let on_guide = parallel::map(&planes, |plane| stack(plane, c, &StackHints::default()));
        self.unknowns.depth = depth;
        self.unknowns.fit_lines(&planes, c, &directions(&on_guide));
        let limits = SolveLimits {
            rounds: SEARCH_ROUNDS,
            movement: SETTLED,
        };
        let rounds = self.settle(&planes, Grid::Search, limits);
        (planes, rounds.stacks)
    }

    /// The rail of the unknowns' depth and lines, its directions settled.
    fn build(&mut self) -> Result<Rail, ShellError> {
        let problem = self.problem;
        let depth = self.unknowns.depth;
        let planes = self.planes(&problem.context.build, depth);
        let rounds = self.settle(&planes, Grid::Build, problem.limits);
        let margins = all_margins(&planes, &rounds.stacks);
        let mut solved: Vec<_> = rounds.stacks.into_iter().zip(margins).collect();
        if self.with_run_outs {
            let extra = run_outs(problem, &self.run_out_planes, &self.unknowns, &solved)?;
            solved.extend(extra);
            solved.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
        }
        let (stacks, margins): (Vec<_>, Vec<_>) = solved.into_iter().unzip();
        let convergence = Convergence {
            rounds: rounds.count,
            movement: rounds.movement,
            course_changes: rounds.course_changes,
            settled: rounds.count > 0 && rounds.movement.by < problem.limits.movement,
            imbalance: imbalance(problem.construction, margins.iter().flatten()),
            ..Convergence::default()
        };
        Ok(Rail {
            depth,
            stacks,
            margins,
            convergence,
        })
    }

    fn planes(&self, planes: &[PlaneContext], depth: f64) -> Vec<StackPlane> {
        parallel::map(planes, |plane| plane.at_depth(self.problem.shell, depth))
    }

    /// Takes the strips' directions from the stacks and builds these anew, in turns; starts from the grid's directions.
    fn settle(&mut self, planes: &[StackPlane], grid: Grid, limits: SolveLimits) -> Rounds {
        let c = self.problem.construction;
        let unknowns = &mut self.unknowns;
        let leans: Vec<Vec<Option<f64>>> = planes.iter().map(|p| unknowns.leans_at(p.x)).collect();
        let build = |directions: &Directions, unknowns: &Unknowns| -> Vec<Stack> {
            let courses = directions.iter().zip(&leans);
            let all: Vec<_> = planes.iter().zip(courses).collect();
            parallel::map(&all, |(plane, (directions, leans))| {
                stack(plane, c, &unknowns.hints(plane.x, directions, leans))
            })
        };
        let first = unknowns.take_directions(grid);
        let first = first.unwrap_or_else(|| vec![Vec::new(); planes.len()]);
        let mut rounds = Rounds {
            stacks: build(&first, unknowns),
            count: 0,
            movement: Movement::default(),
            course_changes: 0,
        };
        while rounds.count < limits.rounds {
            unknowns.shift_edge(&rounds.stacks);
            let next = build(&directions(&rounds.stacks), unknowns);
            rounds.movement = movement(&rounds.stacks, &next);
            rounds.course_changes = course_changes(&rounds.stacks, &next);
            rounds.stacks = next;
            rounds.count += 1;
            if rounds.movement.by < limits.movement {
                break;
            }
        }
        unknowns.set_directions(grid, directions(&rounds.stacks));
        rounds
    }
}

/// The margins of every plane's stack.
fn all_margins(planes: &[StackPlane], stacks: &[Stack]) -> Vec<Option<Margins>> {
    let pairs: Vec<_> = planes.iter().zip(stacks).collect();
    parallel::map(&pairs, |(plane, stack)| margins(plane, stack))
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
