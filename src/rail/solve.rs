//! The rail along the whole board.

use super::courses::{Plane, Stack, stack};
use super::hermite::{LINE_ACCURACY, PlaneLine};
use super::margins::{Margins, margins};
use super::run_outs::run_outs;
use super::skins::{SkinFace, faces};
use crate::curve::Vector;
use crate::design::Construction;
use crate::shell::{Shell, ShellError};

/// The starboard rail; port is its mirror image.
#[derive(Debug, Clone, PartialEq)]
pub struct Rail {
    /// Depth of the guide under the finished surface, mm.
    pub depth: f64,
    /// Stacks in planes of rising x.
    pub stacks: Vec<Stack>,
    /// Margins of each stack; `None` where it has no wood to speak of.
    pub margins: Vec<Option<Margins>>,
    /// Greatest movement, mm, of a strip in the last round of taking the strips' directions from their paths.
    pub settled: f64,
}

/// Rounds of taking directions from paths; each reduces the movement by an order of magnitude or more.
const ROUNDS: usize = 6;
/// A strip that moves less than this, mm, has settled.
const SETTLED: f64 = 1e-4;
/// Steps of the search for the guide's depth.
const SEARCHES: usize = 6;
/// Gaps between the planes it looks at.
const SEARCH_PLANES: usize = 24;

/// Solves the rail in the planes `x` (rising, mm).
///
/// The guide's depth is the one that leaves cover and proud over what was asked by the same amount at their worst planes:
/// moving the guide inward by δ takes about δ from proud and gives it to cover, so half the difference is
/// added until it vanishes.
pub fn solve(shell: &Shell, construction: &Construction, x: &[f64]) -> Result<Rail, ShellError> {
    let mut ground = Vec::new();
    for &x in x {
        if let Some(faces) = faces(shell, construction, x)? {
            ground.push(Ground::new(shell, x, faces));
        }
    }
    let depth = match (x.first(), x.last()) {
        (Some(first), Some(last)) => search(shell, construction, *first, *last)?,
        _ => 0.0,
    };
    let planes: Vec<Plane> = ground.into_iter().map(|g| g.plane(shell, depth)).collect();
    let mut along: Vec<Vec<Option<Vector<3>>>> = vec![Vec::new(); planes.len()];
    let build = |along: &[Vec<Option<Vector<3>>>]| -> Vec<Stack> {
        planes
            .iter()
            .zip(along)
            .map(|(plane, along)| stack(plane, construction, along))
            .collect()
    };
    let mut stacks = build(&along);
    let mut settled = f64::INFINITY;
    for _ in 0..ROUNDS {
        along = directions(&stacks);
        let next = build(&along);
        settled = movement(&stacks, &next);
        stacks = next;
        if settled < SETTLED {
            break;
        }
    }
    let mut solved: Vec<(Stack, Option<Margins>)> = planes
        .iter()
        .zip(stacks)
        .map(|(plane, stack)| {
            let margins = margins(plane, &stack);
            (stack, margins)
        })
        .collect();
    solved.extend(run_outs(shell, construction, depth, &solved)?);
    solved.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
    let (stacks, margins) = solved.into_iter().unzip();
    Ok(Rail {
        depth,
        stacks,
        margins,
        settled,
    })
}

/// Everything in one plane; `None` where the board is too thin for its skins.
pub(super) fn plane(
    shell: &Shell,
    construction: &Construction,
    depth: f64,
    x: f64,
) -> Result<Option<Plane>, ShellError> {
    let faces = faces(shell, construction, x)?;
    Ok(faces.map(|faces| Ground::new(shell, x, faces).plane(shell, depth)))
}

/// What does not depend on the guide's depth.
#[derive(Clone)]
struct Ground {
    x: f64,
    faces: [SkinFace; 2],
    finished: PlaneLine,
}

impl Ground {
    fn new(shell: &Shell, x: f64, faces: [SkinFace; 2]) -> Self {
        let finished = shell.inset_line(x, 0.0, faces[0].land_v, faces[1].land_v, LINE_ACCURACY);
        Self {
            x,
            faces,
            finished: PlaneLine::new(finished),
        }
    }

    fn plane(self, shell: &Shell, depth: f64) -> Plane {
        let guide = PlaneLine::new(shell.inset_line(
            self.x,
            depth,
            self.faces[0].land_v,
            1.0,
            LINE_ACCURACY,
        ));
        Plane {
            x: self.x,
            faces: self.faces,
            finished: self.finished,
            guide,
            depth,
        }
    }
}

/// The guide's depth, mm.
///
/// Sought in planes of its own, evenly spread between the first and the last, so that it does not depend on how densely the
/// rail is solved.
fn search(shell: &Shell, c: &Construction, first: f64, last: f64) -> Result<f64, ShellError> {
    let half = c.strip.thickness / 2.0;
    let mut ground = Vec::new();
    for i in 0..=SEARCH_PLANES {
        let x = first + (last - first) * i as f64 / SEARCH_PLANES as f64;
        ground.extend(faces(shell, c, x)?.map(|faces| Ground::new(shell, x, faces)));
    }
    let mut depth = ((c.cover - c.proud) / 2.0).clamp(0.0, half);
    for _ in 0..SEARCHES {
        let (mut cover, mut proud) = (f64::INFINITY, f64::INFINITY);
        for g in &ground {
            let plane = g.clone().plane(shell, depth);
            let stack = stack(&plane, c, &[]);
            if let Some(m) = margins(&plane, &stack) {
                cover = cover.min(m.strip_cover - c.cover);
                proud = proud.min(m.strip_proud - c.proud);
            }
        }
        if !cover.is_finite() || !proud.is_finite() {
            break;
        }
        let step = (proud - cover) / 2.0;
        depth = (depth + step).clamp(0.0, half);
        if step.abs() < 0.005 {
            break;
        }
    }
    Ok(depth)
}

/// Directions of every course in every plane, from the middles of the strips in the neighbouring planes.
fn directions(stacks: &[Stack]) -> Vec<Vec<Option<Vector<3>>>> {
    let middle = |s: usize, i: usize| -> Option<(f64, Vector<2>)> {
        let course = stacks.get(s)?.courses.get(i)?;
        Some((stacks[s].x, (course.foot + course.head) / 2.0))
    };
    let slope = |a: (f64, Vector<2>), b: (f64, Vector<2>)| (b.1 - a.1) / (b.0 - a.0);
    (0..stacks.len())
        .map(|s| {
            (0..stacks[s].courses.len())
                .map(|i| {
                    let here = middle(s, i)?;
                    let before = s.checked_sub(1).and_then(|s| middle(s, i));
                    let after = middle(s + 1, i);
                    let slope = match (before, after) {
                        (Some(a), Some(b)) => {
                            // The parabola through three points, for uneven planes.
                            let (p, q) = (slope(a, here), slope(here, b));
                            (p * (b.0 - here.0) + q * (here.0 - a.0)) / (b.0 - a.0)
                        }
                        (Some(a), None) => slope(a, here),
                        (None, Some(b)) => slope(here, b),
                        (None, None) => return None,
                    };
                    Some(Vector::<3>::new(1.0, slope.x, slope.y).normalize())
                })
                .collect()
        })
        .collect()
}

fn movement(before: &[Stack], after: &[Stack]) -> f64 {
    before
        .iter()
        .zip(after)
        .flat_map(|(a, b)| a.courses.iter().zip(&b.courses))
        .map(|(a, b)| (a.head - b.head).norm())
        .fold(0.0, f64::max)
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
