//! Courses as long strips.

use serde::Serialize;

use super::course::{Course, CourseKind};
use super::darboux::{Darboux, darboux};
use super::joint::StripJoint;
use super::solve::Rail;
use crate::geometry::curve::{
    BSpline, CurveError, KnotVector, Vector, gauss_legendre, integrate, least_squares,
};

/// What a strip's end comes to lie on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Landing {
    /// The solid block at tail or nose.
    Block,
    /// It runs out where the course below reaches the deck.
    RunOut,
}

/// A strip at one place along it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StripPlace {
    /// mm from the tail.
    pub x: f64,
    /// Length along the strip from its tail end, mm.
    pub along: f64,
    /// How it bends and twists.
    pub bend: Darboux,
    /// Its joint with the strip below, if it has a cove.
    pub joint: Option<StripJoint>,
}

/// One strip of the starboard rail; port has its mirror image.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Index of its course, from the bottom skin.
    pub course: usize,
    /// What it is.
    pub kind: CourseKind,
    /// Where it begins and ends, mm from the tail.
    pub ends: [f64; 2],
    /// What its ends lie on, tail first.
    pub landings: [Landing; 2],
    /// Mid-line over x.
    pub path: BSpline<3>,
    /// Direction of the thickness, outward, over x; nearly of unit length.
    pub out: BSpline<3>,
    /// Finished length of the mid-line, mm.
    pub length: f64,
    /// Greatest distance, mm, of the mid-line from the planes' solutions it is fitted to.
    pub deviation: f64,
    /// Places along it, about 10 mm apart.
    pub places: Vec<StripPlace>,
    /// The rail's planes the strip passes, as indices.
    pub(crate) planes: Vec<usize>,
}

/// Spacing of the fitted paths' knots, mm. A batten does not follow waves shorter than a few of these; the planes are about a third as
/// far apart.
const KNOTS: f64 = 30.0;

/// The strips of `rail`, by course and then from the tail. A course that comes twice gives two strips; one seen in fewer than four
/// planes is too short to be a strip and is left out.
pub fn strips(rail: &Rail) -> Result<Vec<Strip>, CurveError> {
    let most = rail
        .stacks
        .iter()
        .map(|s| s.courses.len())
        .max()
        .unwrap_or(0);
    let mut found = Vec::new();
    for course in 0..most {
        let mut run: Vec<usize> = Vec::new();
        for plane in 0..=rail.stacks.len() {
            let present = rail
                .stacks
                .get(plane)
                .is_some_and(|s| s.courses.len() > course);
            if present {
                run.push(plane);
            } else if !run.is_empty() {
                let planes = std::mem::take(&mut run);
                if planes.len() >= 4 {
                    found.push(strip(rail, course, planes)?);
                }
            }
        }
    }
    Ok(found)
}

fn strip(rail: &Rail, course: usize, planes: Vec<usize>) -> Result<Strip, CurveError> {
    let at = |&plane: &usize| -> (f64, &Course) {
        (rail.stacks[plane].x, &rail.stacks[plane].courses[course])
    };
    let x: Vec<f64> = planes.iter().map(|p| at(p).0).collect();
    let middles: Vec<Vector<3>> = planes
        .iter()
        .map(|p| {
            let (x, c) = at(p);
            c.body().middle(x)
        })
        .collect();
    let outs: Vec<Vector<3>> = planes.iter().map(|p| at(p).1.body().frame.out).collect();
    let (path, deviation) = fitted(&x, &middles)?;
    let (out, _) = fitted(&x, &outs)?;
    let ends = [x[0], x[x.len() - 1]];
    let last = rail.stacks.len() - 1;
    let landing = |on_block: bool| {
        if on_block {
            Landing::Block
        } else {
            Landing::RunOut
        }
    };
    let mut strip = Strip {
        course,
        kind: at(&planes[0]).1.kind(),
        ends,
        landings: [
            landing(planes[0] == 0),
            landing(planes[planes.len() - 1] == last),
        ],
        length: length(&path, ends[0], ends[1]),
        path,
        out,
        deviation,
        places: Vec::new(),
        planes,
    };
    let (mut along, mut before) = (0.0, ends[0]);
    for plane in &strip.planes {
        let (x, c) = at(plane);
        along += length(&strip.path, before, x);
        before = x;
        strip.places.push(StripPlace {
            x,
            along,
            bend: strip.bend(x),
            joint: c.joint(),
        });
    }
    Ok(strip)
}

/// A cubic spline over x near `points`, by least squares, with its greatest miss.
fn fitted(x: &[f64], points: &[Vector<3>]) -> Result<(BSpline<3>, f64), CurveError> {
    let (start, end) = (x[0], x[x.len() - 1]);
    let spans = (((end - start) / KNOTS).round() as usize).clamp(1, (x.len() - 1) / 3);
    let curve = least_squares(KnotVector::uniform(3, start, end, spans)?, x, points)?;
    let miss = x
        .iter()
        .zip(points)
        .map(|(x, p)| (curve.point(*x) - p).norm())
        .fold(0.0, f64::max);
    Ok((curve, miss))
}

/// Arc length of a path over x, Gauss–Legendre with five points a knot span.
fn length(path: &BSpline<3>, from: f64, to: f64) -> f64 {
    let rule = gauss_legendre(5);
    let mut stops: Vec<f64> = path
        .knots()
        .breaks()
        .into_iter()
        .filter(|b| *b > from && *b < to)
        .collect();
    stops.insert(0, from);
    stops.push(to);
    let piece = |w: &[f64]| integrate(&rule, w[0], w[1], |x| path.derivatives::<2>(x)[1].norm());
    stops.windows(2).map(piece).sum()
}

impl Strip {
    /// What the strip is fitted to: its mid-line's point and the direction of its thickness in every plane of `rail`, which it was
    /// made of, that it passes.
    pub fn solved<'a>(
        &'a self,
        rail: &'a Rail,
    ) -> impl Iterator<Item = (Vector<3>, Vector<3>)> + 'a {
        let stacks = self
            .planes
            .iter()
            .filter_map(|&plane| rail.stacks.get(plane));
        stacks.filter_map(|stack| {
            let course = stack.courses.get(self.course)?;
            Some((course.body().middle(stack.x), course.body().frame.out))
        })
    }

    /// How the strip bends and twists at `x`.
    pub fn bend(&self, x: f64) -> Darboux {
        darboux(
            &self.path.derivatives::<3>(x),
            &self.out.derivatives::<2>(x),
        )
    }

    /// The place where `measure` is greatest, with its value.
    pub fn worst(&self, measure: impl Fn(&StripPlace) -> f64) -> Option<(f64, &StripPlace)> {
        let valued = self.places.iter().map(|p| (measure(p), p));
        valued.max_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// Forces, N, with which the ribs at `x` (mm) must hold the strip against springing back through its thickness, for a
    /// flexural rigidity in N·mm².
    ///
    /// A beam loaded at its supports only has a bending moment EIκ that is linear between them, so a support's force is the
    /// change of the moment's slope there (Euler–Bernoulli; Gere & Timoshenko, *Mechanics of Materials*, ch. 4). A
    /// guide to clamping: real strips are held by their neighbours and by glue between ribs too.
    pub fn spring_back(&self, x: &[f64], rigidity: f64) -> Vec<(f64, f64)> {
        let mut at: Vec<(f64, f64)> = vec![(0.0, 0.0)];
        let held = x
            .iter()
            .filter(|x| **x > self.ends[0] && **x < self.ends[1]);
        at.extend(
            held.clone()
                .map(|&x| (length(&self.path, self.ends[0], x), self.bend(x).easy)),
        );
        // The ends are free: no moment there.
        at.push((self.length, 0.0));
        let slope = |a: (f64, f64), b: (f64, f64)| rigidity * (b.1 - a.1) / (b.0 - a.0).max(1e-9);
        let force = |w: &[(f64, f64)]| (slope(w[1], w[2]) - slope(w[0], w[1])).abs();
        held.copied().zip(at.windows(3).map(force)).collect()
    }
}
