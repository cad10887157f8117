//! How every course leans, and where the lowest ones run, along the whole board.
//!
//! Taken plane by plane a strip turns to the guide as sharply as the guide does, and where a course above it runs out its own turn changes within a hand's
//! breadth. No strip does that: it is as stiff against twist as against bending. So the leans are smoothed along the board before the strips are laid, and each
//! course starts from where the smoothed ones below have brought it. Where a thin rail's guide turns over at the height of the starters' tops, the place
//! where the first moulded strip stands on them would run inboard within a hand's breadth too, so it is smoothed likewise. And starters that followed the
//! finished surface closely would take its sharpest turns at the ends, which a batten springs past: they run fair, always outside of what is asked.

use nalgebra::{DMatrix, DVector};

use super::courses::{Course, Given, Plane, Stack, stack};
use crate::design::{Arrangement, Construction};
use crate::geometry::curve::{BSpline, Vector, graph};

/// Waves of lean shorter than some six times this, mm, are smoothed away. Strips of 6 mm then twist within what common woods take on ordinary
/// boards, and roll less on each other, while cover hardly suffers.
const STIFFNESS: f64 = 160.0;
/// The same for the path of the starters, mm: a square batten takes no sharper waves.
const BATTEN: f64 = 30.0;
/// Rounds in which that path is pushed out to where it is asked to be.
const TIGHTENED: usize = 8;
/// A course wanted in fewer planes than this is left as the guide has it.
const FEWEST: usize = 3;

/// How the courses lie, over x.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Leans {
    /// The lean of every course: the angle, radians, by which it stands off the upright in planes of constant x, positive inboard.
    courses: Vec<Option<BSpline<1>>>,
    /// How far outboard of the outermost starter's middle the first moulded strip stands, mm, where starters lie abreast.
    stand: Option<BSpline<1>>,
    /// Where the outer face of starters abreast leaves the bottom skin, y in mm.
    edge: Option<BSpline<1>>,
    /// How far outboard of `edge` it must go to be proud everywhere, mm.
    raise: f64,
}

impl Leans {
    /// The leans of courses solved in `planes`, evenly spaced and rising, taking directions from `along`.
    pub(super) fn new(
        planes: &[Plane],
        c: &Construction,
        along: &[Vec<Option<Vector<3>>>],
    ) -> Self {
        let mut leans = Self::default();
        let [first, .., last] = planes else {
            return leans;
        };
        let step = (last.x - first.x) / (planes.len() - 1) as f64;
        let x: Vec<f64> = planes.iter().map(|p| p.x).collect();
        let stacks = |leans: &Self| -> Vec<Stack> {
            let all = planes.iter().zip(along);
            all.map(|(plane, along)| {
                stack(plane, c, &leans.given(plane.x, along, &leans.at(plane.x)))
            })
            .collect()
        };
        // What the guide asks of a course, and how much of the strip is left to obey it.
        let wanted = |stacks: &[Stack], course: usize, of: fn(&Stack, &Course) -> f64| {
            let one = |s: &Stack| s.courses.get(course).map(|k| (of(s, k), k.left));
            stacks.iter().map(one).collect::<Vec<_>>()
        };
        if c.starter.arrangement == Arrangement::SideBySide {
            let asked: Vec<Option<f64>> = stacks(&leans).iter().map(|s| s.asked).collect();
            leans.edge = outside(&x, &asked, step);
            leans.courses = vec![None; c.starter.count];
            let stand = |s: &Stack, k: &Course| s.courses[0].frame.local(k.foot).x;
            let stand = wanted(&stacks(&leans), c.starter.count, stand);
            leans.stand = smoothed(&x, &stand, step, STIFFNESS);
        }
        loop {
            let lean = wanted(&stacks(&leans), leans.courses.len(), |_, k| k.lean());
            if lean.iter().all(Option::is_none) {
                return leans;
            }
            leans.courses.push(smoothed(&x, &lean, step, STIFFNESS));
        }
    }

    /// What is known at `x` of courses that run `along` and `lean` as [`Leans::at`] has it.
    pub(super) fn given<'a>(
        &self,
        x: f64,
        along: &'a [Option<Vector<3>>],
        lean: &'a [Option<f64>],
    ) -> Given<'a> {
        let value = |spline: &Option<BSpline<1>>| spline.as_ref().map(|s| s.point(x).x);
        Given {
            along,
            lean,
            stand: value(&self.stand).map(|out| out - self.raise),
            edge: value(&self.edge).map(|y| y + self.raise),
        }
    }

    /// Moves starters abreast outboard until they are as far out as is asked in all of `stacks`.
    pub(super) fn clear(&mut self, stacks: &[Stack]) {
        if let Some(edge) = &self.edge {
            let short = |s: &Stack| Some(s.asked? - edge.point(s.x).x);
            self.raise = stacks.iter().filter_map(short).fold(0.0, f64::max);
        }
    }

    /// The leans at `x`, from the lowest course.
    pub(super) fn at(&self, x: f64) -> Vec<Option<f64>> {
        let value = |spline: &BSpline<1>| spline.point(x).x;
        self.courses.iter().map(|c| c.as_ref().map(value)).collect()
    }
}

/// A smooth path outside all of `asked`, and not far outside: what it is short of somewhere is asked for in addition there, until little is left.
fn outside(x: &[f64], asked: &[Option<f64>], step: f64) -> Option<BSpline<1>> {
    let mut wanted: Vec<Option<(f64, f64)>> = asked.iter().map(|y| y.map(|y| (y, 1.0))).collect();
    let mut path = smoothed(x, &wanted, step, BATTEN)?;
    for _ in 0..TIGHTENED {
        for ((x, asked), wanted) in x.iter().zip(asked).zip(&mut wanted) {
            if let (Some(asked), Some((y, _))) = (asked, wanted) {
                *y += (asked - path.point(*x).x).max(0.0);
            }
        }
        path = smoothed(x, &wanted, step, BATTEN)?;
    }
    Some(path)
}

/// A spline over `x` near the wanted values, each counting by its weight; `None` where there are too few.
///
/// Minimises Σ w (θ − θ*)² h + S⁴ ∫ θ″² dx with second differences for θ″ (Whittaker, *On a new method of graduation*, 1923), which goes on
/// straight where nothing is wanted.
fn smoothed(
    x: &[f64],
    wanted: &[Option<(f64, f64)>],
    step: f64,
    stiffness: f64,
) -> Option<BSpline<1>> {
    let n = x.len();
    let weighty = wanted.iter().flatten().filter(|w| w.1 > 0.0).count();
    if weighty < FEWEST || n < 6 {
        return None;
    }
    let mut matrix = DMatrix::<f64>::zeros(n, n);
    let mut right = DVector::<f64>::zeros(n);
    for (i, (lean, weight)) in wanted
        .iter()
        .enumerate()
        .filter_map(|(i, w)| Some((i, (*w)?)))
    {
        matrix[(i, i)] += weight;
        right[i] += weight * lean;
    }
    let stiff = (stiffness / step).powi(4);
    for i in 1..n - 1 {
        let row = [(i - 1, 1.0), (i, -2.0), (i + 1, 1.0)];
        for (a, p) in row {
            for (b, q) in row {
                matrix[(a, b)] += stiff * p * q;
            }
        }
    }
    let values = matrix.cholesky()?.solve(&right);
    let points = values.iter().map(|v| Vector::<1>::new(*v)).collect();
    graph(x, points).ok()
}
