//! What the rail is solved for.
//!
//! Taken plane by plane a strip turns to the guide as sharply as the guide does, and where a course above it runs out its own turn changes within a hand's
//! breadth. No strip does that: it is as stiff against twist as against bending. So the leans are smoothed along the board before the strips are laid, and each
//! course starts from where the smoothed ones below have brought it. Where a thin rail's guide turns over at the height of the starters' tops, the place
//! where the first moulded strip stands on them would run inboard within a hand's breadth too, so it is smoothed likewise. And starters that followed the
//! finished surface closely would take its sharpest turns at the ends, which a batten springs past: they run fair, always outside of what it requires.

use super::constants::LEAN_STIFFNESS;
use super::course::Course;
use super::directions::Directions;
use super::plane_context::StackPlane;
use super::smoothing::{outside, smooth};
use super::stack::{Stack, StackHints, stack_up_to};
use crate::design::{Arrangement, Construction};
use crate::geometry::curve::{BSpline, Vector};

/// Which planes: the search stage's few, evenly spaced, or those the rail is built in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Grid {
    Search,
    Build,
}

/// The rail's unknowns. With the planes, which hold the inputs, they make the stacks.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Unknowns {
    /// Depth of the guide under the finished surface, mm.
    pub depth: f64,
    /// The lean of every course over x: the angle, radians, by which it stands off the upright in planes of constant x, positive inboard.
    leans: Vec<Option<BSpline<1>>>,
    /// How far outboard of the outermost starter's middle the first moulded strip stands, mm over x, where starters lie side by side.
    stand: Option<BSpline<1>>,
    /// Where the outer face of starters side by side leaves the bottom skin, y in mm over x.
    edge: Option<BSpline<1>>,
    /// How far outboard of `edge` the face must go to be proud everywhere, mm.
    edge_shift: f64,
    /// The courses' directions in the planes of either grid; none before the first round there, which takes the guide's.
    directions: [Option<Directions>; 2],
}

impl Unknowns {
    /// Nothing but a depth, mm: all courses follow the guide.
    pub fn at_depth(depth: f64) -> Self {
        Self {
            depth,
            leans: Vec::new(),
            stand: None,
            edge: None,
            edge_shift: 0.0,
            directions: [None, None],
        }
    }

    /// Takes out the directions of a grid.
    pub fn take_directions(&mut self, grid: Grid) -> Option<Directions> {
        self.directions[grid as usize].take()
    }

    /// Keeps the directions of a grid for the next depth.
    pub fn set_directions(&mut self, grid: Grid, directions: Directions) {
        self.directions[grid as usize] = Some(directions);
    }

    /// Takes leans, stand and edge anew from `planes`, evenly spaced and rising, in which the courses run in `directions`.
    pub fn fit_lines(&mut self, planes: &[StackPlane], c: &Construction, directions: &Directions) {
        (self.leans, self.stand, self.edge) = (Vec::new(), None, None);
        self.edge_shift = 0.0;
        let [first, .., last] = planes else {
            return;
        };
        let step = (last.x - first.x) / (planes.len() - 1) as f64;
        let x: Vec<f64> = planes.iter().map(|p| p.x).collect();
        if c.starter.arrangement == Arrangement::SideBySide {
            let stacks = self.stacks_on(planes, c, directions, 0);
            let required: Vec<_> = stacks.iter().map(|s| s.required_outer_edge).collect();
            self.edge = outside(&x, &required, step);
            self.leans = vec![None; c.starter.count];
            let stand = |s: &Stack, k: &Course| s.courses[0].body().frame.local(k.body().foot).x;
            let stacks = self.stacks_on(planes, c, directions, c.starter.count + 1);
            let targets = targets(&stacks, c.starter.count, stand);
            self.stand = smooth(&x, &targets, step, LEAN_STIFFNESS);
        }
        loop {
            let stacks = self.stacks_on(planes, c, directions, self.leans.len() + 1);
            let targets = targets(&stacks, self.leans.len(), |_, k| k.lean());
            if targets.iter().all(Option::is_none) {
                return;
            }
            self.leans.push(smooth(&x, &targets, step, LEAN_STIFFNESS));
        }
    }

    /// The lowest `most` courses in every plane.
    fn stacks_on(
        &self,
        planes: &[StackPlane],
        c: &Construction,
        directions: &Directions,
        most: usize,
    ) -> Vec<Stack> {
        let pairs = planes.iter().zip(directions);
        pairs
            .map(|(plane, directions)| {
                let leans = self.leans_at(plane.x);
                stack_up_to(plane, c, &self.hints(plane.x, directions, &leans), most)
            })
            .collect()
    }

    /// The hints at `x` for courses that run in `directions` and lean as [`leans_at`](Self::leans_at) has it.
    pub fn hints<'a>(
        &self,
        x: f64,
        directions: &'a [Option<Vector<3>>],
        leans: &'a [Option<f64>],
    ) -> StackHints<'a> {
        let value = |spline: &Option<BSpline<1>>| spline.as_ref().map(|s| s.point(x).x);
        StackHints {
            directions,
            leans,
            stand: value(&self.stand).map(|out| out - self.edge_shift),
            edge: value(&self.edge).map(|y| y + self.edge_shift),
        }
    }

    /// Moves starters side by side outboard until they are as far out as is required in all of `stacks`.
    pub fn shift_edge(&mut self, stacks: &[Stack]) {
        if let Some(edge) = &self.edge {
            let short = |s: &Stack| Some(s.required_outer_edge? - edge.point(s.x).x);
            self.edge_shift = stacks.iter().filter_map(short).fold(0.0, f64::max);
        }
    }

    /// The leans at `x`, from the lowest course.
    pub fn leans_at(&self, x: f64) -> Vec<Option<f64>> {
        let value = |spline: &BSpline<1>| spline.point(x).x;
        self.leans.iter().map(|c| c.as_ref().map(value)).collect()
    }
}

/// What the guide has of a course in every stack, and how much of the strip remains to follow it.
fn targets(
    stacks: &[Stack],
    course: usize,
    of: impl Fn(&Stack, &Course) -> f64,
) -> Vec<Option<(f64, f64)>> {
    let one = |s: &Stack| {
        let course = s.courses.get(course)?;
        Some((of(s, course), course.body().remaining))
    };
    stacks.iter().map(one).collect()
}
