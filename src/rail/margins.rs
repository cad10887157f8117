//! Wood left behind the finished rail, and stock proud of it.
//!
//! Both are least distances between two curves of a plane: from the finished section, a chain of smooth pieces, to the strips' inner faces
//! (cover) and to their outer ones (proud). The least distance is the least length of a normal of the finished surface between the two as well,
//! so it is square to that surface. It lies where a face's end, or the centre of a bead's rounding, has its foot on the section, where the
//! section runs parallel to a face, or at an end of the section: these places are found by their equations, none by stepping.
//!
//! A strip's faces are taken in the plane square to it, where they are true; the finished surface, should it not run along the strip,
//! stands nearer than its trace there by the cosine of the angle between them.

use serde::Serialize;

use super::course::Course;
use super::plane_context::StackPlane;
use super::section_distance::{Edge, EdgeOwner, LeastDistances, Margin, Section, Side};
use super::stack::Stack;
use crate::geometry::curve::Vector;
use crate::geometry::solve::illinois;

/// Cover and proud at one plane.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Margins {
    /// Wood between the finished surface and the strips' inner faces.
    pub cover: Margin,
    /// Stock outside the finished surface, square to it, over moulded strips and starters; negative where wood is missing.
    pub proud: Margin,
    /// As `proud`, over moulded strips alone, whose place the guide decides.
    pub strip_proud: f64,
    /// As `cover`, over moulded strips alone.
    pub strip_cover: f64,
}

/// The margins of `stack` in `plane`. `None` where no part of the finished section lies between the skins' inner faces.
pub(super) fn margins(plane: &StackPlane, stack: &Stack) -> Option<Margins> {
    let [bottom, deck] = &*plane.faces;
    let line = &plane.finished;
    let first = line.nodes().first()?;
    let from = if bottom.inside(&first.point) >= 0.0 {
        first.v
    } else {
        line.first_rise(first.v, |p| bottom.inside(p))?
    };
    let to = line
        .last_rise(|p| -deck.inside(p))
        .unwrap_or_else(|| line.end());
    if to <= from {
        return None;
    }
    let section = Section::new(line, from, to);
    let mut found = LeastDistances::default();
    for side in [Side::Inner, Side::Outer] {
        for (index, edges) in chain(plane, stack, side) {
            let course = &stack.courses[index];
            for edge in edges {
                section.least(
                    EdgeOwner {
                        side,
                        index,
                        course,
                    },
                    &edge,
                    &mut found,
                );
            }
        }
    }
    Some(Margins {
        cover: found.all[0]?,
        proud: found.all[1]?,
        strip_cover: found.moulded[0],
        strip_proud: found.moulded[1],
    })
}

/// The strips' faces on one side with the courses they belong to, from the bottom skin to the deck.
///
/// Faces that cross end where they do. Outside, those that part at a joint are joined round the bead's centre about which they turn: what opens
/// there is planed away, and where it is not, the joint itself is judged (see [`visible_gap_at`](super::visible_gap_at)). Inside, they are joined by a
/// straight line, as ribs' ends are.
fn chain(plane: &StackPlane, stack: &Stack, side: Side) -> Vec<(usize, Vec<Edge>)> {
    let [bottom, deck] = &*plane.faces;
    let courses = &stack.courses;
    let indices: Vec<usize> = match side {
        Side::Inner => stack.inner_courses().collect(),
        // Of starters side by side only the outermost is seen from outside.
        Side::Outer => {
            let backed = courses.first().is_some_and(Course::has_backing);
            let hidden = |i: usize| backed && i > 0 && !courses[i].is_moulded();
            (0..courses.len()).filter(|i| !hidden(*i)).collect()
        }
    };
    let sign = if side == Side::Inner { -1.0 } else { 1.0 };
    let out = |c: &Course| sign * c.body().thickness / 2.0;
    // Faces as heights above the foot.
    let mut faces: Vec<[f64; 2]> = indices
        .iter()
        .map(|&i| {
            let c = &courses[i];
            let rise = c.body().rise;
            [c.base(out(c)).min(rise), rise]
        })
        .collect();
    let point = |k: usize, up: f64| {
        let c = &courses[indices[k]];
        c.body().frame.plane(Vector::<2>::new(out(c), up))
    };
    let mut parted = vec![true; indices.len()];
    for k in 1..indices.len() {
        let [a, b] = faces[k - 1].map(|up| point(k - 1, up));
        let [c, d] = faces[k].map(|up| point(k, up));
        if let Some((s, t)) = crossing([a, b], [c, d]) {
            faces[k - 1][1] = faces[k - 1][0] + (faces[k - 1][1] - faces[k - 1][0]) * s;
            faces[k][0] += (faces[k][1] - faces[k][0]) * t;
            parted[k] = false;
        }
    }
    let mut edges: Vec<(usize, Vec<Edge>)> = Vec::new();
    let last = indices.len().saturating_sub(1);
    for (k, (&i, &face)) in indices.iter().zip(&faces).enumerate() {
        let (c, [mut low, mut high]) = (&courses[i], face);
        let local = |up: f64| Vector::<2>::new(out(c), up);
        let at = |up: f64| c.body().frame.plane(local(up));
        let mut own = Vec::new();
        if k == 0 {
            low = border([low, high], |up| bottom.inside(&at(up))).unwrap_or(low);
        } else if parted[k] {
            let below = &courses[indices[k - 1]];
            let end = c.body().frame.local(point(k - 1, faces[k - 1][1]));
            if side == Side::Inner {
                own.push(Edge::Face([end, local(low)], sign));
            } else if matches!(c, Course::BeadAndCove { .. }) {
                // The rounding about the bead's centre, this course's foot.
                let radius = below.body().thickness.max(c.body().thickness) / 2.0;
                own.push(Edge::Round(Vector::zeros(), radius, [end, local(0.0)]));
            }
        }
        if k == last {
            let far = match side {
                // The face goes on to the deck, as the rib's end does.
                Side::Inner => high + c.shoulder() + REACH,
                Side::Outer => high + c.shoulder(),
            };
            let deck_at = border([low, far], |up| -deck.inside(&at(up)));
            high = deck_at.unwrap_or(high + c.shoulder());
            if side == Side::Outer && deck_at.is_none() && c.is_moulded() {
                own.push(crown(c, |p| deck.inside(&p)));
            }
        }
        own.push(Edge::Face([local(low), local(high)], sign));
        edges.push((i, own));
    }
    edges
}

/// Greatest length, mm, by which the top strip's inner face is prolonged to the deck.
const REACH: f64 = 50.0;

/// The bead of the top course from its outer shoulder to the deck's inner face, or to its crown.
fn crown(c: &Course, inside: impl Fn(Vector<2>) -> f64) -> Edge {
    let (half, head) = (
        c.body().thickness / 2.0,
        Vector::<2>::new(0.0, c.body().rise),
    );
    let (radius, start) = (c.shoulder().hypot(half), c.shoulder().atan2(half));
    let toward = |angle: f64| Vector::<2>::new(angle.cos(), angle.sin()) * radius;
    let end = border([start, std::f64::consts::FRAC_PI_2], |angle| {
        -inside(c.body().frame.plane(head + toward(angle)))
    });
    let end = end.unwrap_or(std::f64::consts::FRAC_PI_2);
    Edge::Round(head, radius, [toward(start), toward(end)])
}

/// Where `f` turns from negative to not negative within a range, if it does.
fn border([from, to]: [f64; 2], f: impl Fn(f64) -> f64) -> Option<f64> {
    let (a, b) = (f(from), f(to));
    (a < 0.0 && b >= 0.0).then(|| illinois(from, to, a, b, f))
}

/// Where two stretches cross, as shares of their lengths.
fn crossing([a, b]: [Vector<2>; 2], [c, d]: [Vector<2>; 2]) -> Option<(f64, f64)> {
    let (p, q) = (b - a, d - c);
    let cross = p.perp(&q);
    if cross.abs() < 1e-12 * p.norm() * q.norm() {
        return None;
    }
    let (s, t) = ((c - a).perp(&q) / cross, (c - a).perp(&p) / cross);
    let on = |t: f64| (0.0..=1.0).contains(&t);
    (on(s) && on(t)).then_some((s, t))
}
