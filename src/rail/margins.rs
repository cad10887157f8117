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

use super::courses::{Course, Kind, Plane, Stack};
use crate::geometry::curve::Vector;
use crate::geometry::solve::{illinois, sign_change};
use crate::shape::{LinePiece, PlaneLine};

/// The least of something over a rail's section, and the course where it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Margin {
    /// Least value, mm.
    pub least: f64,
    /// Index of the course.
    pub course: usize,
    /// Place (y, z) on the finished surface, mm.
    pub at: [f64; 2],
}

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
pub(super) fn margins(plane: &Plane, stack: &Stack) -> Option<Margins> {
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
    let mut found = Least::default();
    for side in [Side::Inner, Side::Outer] {
        for (index, edges) in chain(plane, stack, side) {
            let course = &stack.courses[index];
            for edge in edges {
                section.least(
                    Of {
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

/// Which faces of the strips.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Inner,
    Outer,
}

/// The least values so far, cover first.
struct Least {
    all: [Option<Margin>; 2],
    moulded: [f64; 2],
}

impl Default for Least {
    fn default() -> Self {
        Self {
            all: [None; 2],
            moulded: [f64::INFINITY; 2],
        }
    }
}

impl Least {
    /// What a value must be under to count.
    fn bound(&self, of: Of) -> f64 {
        let i = of.side as usize;
        if of.moulded() {
            self.moulded[i]
        } else {
            self.all[i].map_or(f64::INFINITY, |m| m.least)
        }
    }

    fn take(&mut self, of: Of, value: f64, at: Vector<2>) {
        let i = of.side as usize;
        if self.all[i].is_none_or(|m| value < m.least) {
            self.all[i] = Some(Margin {
                least: value,
                course: of.index,
                at: [at.x, at.y],
            });
        }
        if of.moulded() {
            self.moulded[i] = self.moulded[i].min(value);
        }
    }
}

/// Whose margin it is.
#[derive(Debug, Clone, Copy)]
struct Of<'a> {
    side: Side,
    index: usize,
    course: &'a Course,
}

impl Of<'_> {
    fn moulded(&self) -> bool {
        self.course.kind != Kind::Starter
    }
}

/// A part of the wood's boundary in a course's own axes.
#[derive(Debug, Clone, Copy)]
enum Edge {
    /// Along a face from end to end, up the strip; the wood lies to the right where the last is −1, to the left where it is +1.
    Face([Vector<2>; 2], f64),
    /// A rounding outside of a centre, of a radius, between two directions, up the strip.
    Round(Vector<2>, f64, [Vector<2>; 2]),
}

/// The strips' faces on one side with the courses they belong to, from the bottom skin to the deck.
///
/// Faces that cross end where they do. Outside, those that part at a joint are joined round the bead's centre about which they turn: what opens
/// there is planed away, and where it is not, the joint itself is judged (see `open_at`). Inside, they are joined by a
/// straight line, as ribs' ends are.
fn chain(plane: &Plane, stack: &Stack, side: Side) -> Vec<(usize, Vec<Edge>)> {
    let [bottom, deck] = &*plane.faces;
    let courses = &stack.courses;
    let indices: Vec<usize> = match side {
        Side::Inner => stack.inner_courses().collect(),
        // Of starters abreast only the outermost is seen from outside.
        Side::Outer => {
            let backed = courses.first().is_some_and(|c| c.backing > 0.0);
            let hidden = |i: usize| backed && i > 0 && courses[i].kind == Kind::Starter;
            (0..courses.len()).filter(|i| !hidden(*i)).collect()
        }
    };
    let sign = if side == Side::Inner { -1.0 } else { 1.0 };
    let out = |c: &Course| sign * c.thickness / 2.0;
    // Faces as heights above the foot.
    let mut faces: Vec<[f64; 2]> = indices
        .iter()
        .map(|&i| {
            let c = &courses[i];
            let base = if c.kind == Kind::BeadAndCove {
                0.0
            } else {
                out(c) * c.bevel.tan()
            };
            [base.min(c.rise), c.rise]
        })
        .collect();
    let point = |k: usize, up: f64| {
        let c = &courses[indices[k]];
        c.frame.plane(Vector::<2>::new(out(c), up))
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
        let at = |up: f64| c.frame.plane(local(up));
        let mut own = Vec::new();
        if k == 0 {
            low = border([low, high], |up| bottom.inside(&at(up))).unwrap_or(low);
        } else if parted[k] {
            let below = &courses[indices[k - 1]];
            let end = c.frame.local(point(k - 1, faces[k - 1][1]));
            if side == Side::Inner {
                own.push(Edge::Face([end, local(low)], sign));
            } else if c.kind == Kind::BeadAndCove {
                // The rounding about the bead's centre, this course's foot.
                let radius = below.thickness.max(c.thickness) / 2.0;
                own.push(Edge::Round(Vector::zeros(), radius, [end, local(0.0)]));
            }
        }
        if k == last {
            let far = match side {
                // The face goes on to the deck, as the rib's end does.
                Side::Inner => high + c.shoulder + REACH,
                Side::Outer => high + c.shoulder,
            };
            let deck_at = border([low, far], |up| -deck.inside(&at(up)));
            high = deck_at.unwrap_or(high + c.shoulder);
            if side == Side::Outer && deck_at.is_none() && c.kind != Kind::Starter {
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
    let (half, head) = (c.thickness / 2.0, Vector::<2>::new(0.0, c.rise));
    let (radius, start) = (c.shoulder.hypot(half), c.shoulder.atan2(half));
    let toward = |angle: f64| Vector::<2>::new(angle.cos(), angle.sin()) * radius;
    let end = border([start, std::f64::consts::FRAC_PI_2], |angle| {
        -inside(c.frame.plane(head + toward(angle)))
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

/// The finished section between the skins' inner faces, as the cubic pieces it is made of.
struct Section<'a> {
    line: &'a PlaneLine,
    pieces: Vec<Piece<'a>>,
    /// Its last point's parameter.
    to: f64,
}

struct Piece<'a> {
    line: LinePiece<'a>,
    start: Vector<2>,
    /// At least as long as it, mm.
    length: f64,
}

/// Least cosine between a strip and the surface it follows that is reckoned with: strips turn no further than 75° from the board's length.
const LEAST_COSINE: f64 = 0.25;

impl<'a> Section<'a> {
    fn new(line: &'a PlaneLine, from: f64, to: f64) -> Self {
        let piece = |line: LinePiece<'a>| Piece {
            line,
            start: line.point_and_tangent(line.ends.0).0,
            length: line.length(),
        };
        Self {
            line,
            pieces: line.pieces(from, to).map(piece).collect(),
            to,
        }
    }

    /// Puts into `found` the least distance from an edge of a course, if it is the least so far.
    fn least(&self, of: Of, edge: &Edge, found: &mut Least) {
        let frame = &of.course.frame;
        let give = |v: f64, found: &mut Least| {
            let point = self.line.point(v);
            let Some(distance) = edge.distance(&frame.local(point)) else {
                return;
            };
            if distance.min(distance * LEAST_COSINE) < found.bound(of) {
                found.take(of, distance * self.line.cosine(v, &frame.along), point);
            }
        };
        give(self.to, found);
        let zero = Vector::<2>::zeros();
        for piece in &self.pieces {
            // From there on no point of the piece comes under the bound.
            let bound = found.bound(of).max(0.0) / LEAST_COSINE + piece.length;
            if edge.clear(&frame.local(piece.start), bound) {
                continue;
            }
            let (start, end) = piece.line.ends;
            give(start, found);
            let turns: [(Vector<2>, bool); 3] = match edge {
                Edge::Face([a, b], _) => [(*a, true), (*b, true), (b - a, false)],
                Edge::Round(centre, ..) => [(*centre, true), (zero, false), (zero, false)],
            };
            for (place, foot) in turns {
                let slope = |v: f64| {
                    let (p, d) = piece.line.point_and_tangent(v);
                    let d = frame.local(frame.origin + d);
                    if foot {
                        (frame.local(p) - place).dot(&d)
                    } else {
                        place.perp(&d)
                    }
                };
                if let Some(turn) = sign_change(start, end, slope) {
                    give(turn, found);
                }
            }
        }
    }
}

impl Edge {
    /// Whether `p` lies more than `far` off on the wood's side or past an end, where distances are not negative.
    fn clear(&self, p: &Vector<2>, far: f64) -> bool {
        match self {
            Edge::Face([a, b], outward) => {
                let along = b - a;
                let whole = along.norm();
                let u = along / whole.max(1e-12);
                let (share, off) = ((p - a).dot(&u), (p - a).perp(&u) * -outward);
                off.max(-share).max(share - whole) > far
            }
            // A point in its angle lies under the arc by the radius less its distance from the centre.
            Edge::Round(centre, radius, _) => radius - (p - centre).norm() > far,
        }
    }

    /// Distance of a point on the wood's side, negative on the other; `None` where another edge is nearer or counts.
    fn distance(&self, p: &Vector<2>) -> Option<f64> {
        match self {
            Edge::Face([a, b], outward) => {
                let along = b - a;
                let length = along.norm();
                if length < 1e-9 {
                    return None;
                }
                let u = along / length;
                let share = (p - a).dot(&u);
                if (0.0..=length).contains(&share) {
                    return Some((p - a).perp(&u) * -outward);
                }
                Some((p - if share < 0.0 { a } else { b }).norm())
            }
            Edge::Round(centre, radius, [from, to]) => {
                let d = p - centre;
                let between = from.perp(&d) >= 0.0 && d.perp(to) >= 0.0;
                between.then(|| radius - d.norm())
            }
        }
    }
}
