//! How every course leans, along the whole board.
//!
//! Taken plane by plane a strip turns to the guide as sharply as the guide does, and where a course above it runs out its own turn changes within a hand's
//! breadth. No strip does that: it is as stiff against twist as against bending. So the leans are smoothed along the board before the strips are laid, and each
//! course starts from where the smoothed ones below have brought it.

use nalgebra::{DMatrix, DVector};

use super::courses::{Given, Plane, stack};
use crate::curve::{BSpline, Vector, graph};
use crate::design::Construction;

/// Waves of lean shorter than some six times this, mm, are smoothed away.
const STIFFNESS: f64 = 70.0;
/// A course wanted in fewer planes than this is left as the guide has it.
const FEWEST: usize = 3;

/// The lean of every course over x: the angle, radians, by which it stands off the upright in planes of constant x, positive inboard.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Leans {
    courses: Vec<Option<BSpline<1>>>,
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
        loop {
            let course = leans.courses.len();
            // What the guide asks of this course, and how much of the strip is left to obey it.
            let wanted: Vec<Option<(f64, f64)>> = planes
                .iter()
                .zip(along)
                .map(|(plane, along)| {
                    let lean = leans.at(plane.x);
                    let given = Given { along, lean: &lean };
                    let stack = stack(plane, c, &given);
                    stack.courses.get(course).map(|k| (k.lean(), k.left))
                })
                .collect();
            if wanted.iter().all(Option::is_none) {
                return leans;
            }
            leans.courses.push(smoothed(&x, &wanted, step));
        }
    }

    /// The leans at `x`, from the lowest course.
    pub(super) fn at(&self, x: f64) -> Vec<Option<f64>> {
        let value = |spline: &BSpline<1>| spline.point(x).x;
        self.courses.iter().map(|c| c.as_ref().map(value)).collect()
    }
}

/// A spline over `x` near the wanted values, each counting by its weight; `None` where there are too few.
///
/// Minimises Σ w (θ − θ*)² h + S⁴ ∫ θ″² dx with second differences for θ″ (Whittaker, *On a new method of graduation*, 1923), which goes on
/// straight where nothing is wanted.
fn smoothed(x: &[f64], wanted: &[Option<(f64, f64)>], step: f64) -> Option<BSpline<1>> {
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
    let stiff = (STIFFNESS / step).powi(4);
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
