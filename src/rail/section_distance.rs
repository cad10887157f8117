//! Least distances from the finished section to the edges of strips.

use serde::Serialize;

use super::course::Course;
use crate::geometry::curve::Vector;
use crate::geometry::solve::sign_change;
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

/// Which faces of the strips.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Inner,
    Outer,
}

/// The least distances so far, mm, cover first.
pub(super) struct LeastDistances {
    pub all: [Option<Margin>; 2],
    pub moulded: [f64; 2],
}

impl Default for LeastDistances {
    fn default() -> Self {
        Self {
            all: [None; 2],
            moulded: [f64::INFINITY; 2],
        }
    }
}

impl LeastDistances {
    /// What a value must be under to count.
    fn bound(&self, owner: EdgeOwner) -> f64 {
        let i = owner.side as usize;
        if owner.moulded() {
            self.moulded[i]
        } else {
            self.all[i].map_or(f64::INFINITY, |m| m.least)
        }
    }

    fn take(&mut self, owner: EdgeOwner, value: f64, at: Vector<2>) {
        let i = owner.side as usize;
        if self.all[i].is_none_or(|m| value < m.least) {
            self.all[i] = Some(Margin {
                least: value,
                course: owner.index,
                at: [at.x, at.y],
            });
        }
        if owner.moulded() {
            self.moulded[i] = self.moulded[i].min(value);
        }
    }
}

/// The course that an edge belongs to, and its side.
#[derive(Debug, Clone, Copy)]
pub(super) struct EdgeOwner<'a> {
    pub side: Side,
    pub index: usize,
    pub course: &'a Course,
}

impl EdgeOwner<'_> {
    fn moulded(&self) -> bool {
        self.course.is_moulded()
    }
}

/// A part of the wood's boundary in a course's own axes.
#[derive(Debug, Clone, Copy)]
pub(super) enum Edge {
    /// Along a face from end to end, up the strip; the wood lies to the right where the last is −1, to the left where it is +1.
    Face([Vector<2>; 2], f64),
    /// A rounding outside of a centre, of a radius, between two directions, up the strip.
    Round(Vector<2>, f64, [Vector<2>; 2]),
}

/// The finished section between the skins' inner faces, as the cubic pieces it is made of.
pub(super) struct Section<'a> {
    line: &'a PlaneLine,
    pieces: Vec<SectionPiece<'a>>,
    /// Its last point's parameter.
    to: f64,
}

struct SectionPiece<'a> {
    line: LinePiece<'a>,
    start: Vector<2>,
    /// At least as long as it, mm.
    length: f64,
}

/// Least cosine between a strip and the surface it follows: strips turn no further than 75° from the board's length.
const LEAST_COSINE: f64 = 0.25;

impl<'a> Section<'a> {
    pub fn new(line: &'a PlaneLine, from: f64, to: f64) -> Self {
        let piece = |line: LinePiece<'a>| SectionPiece {
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
    pub fn least(&self, owner: EdgeOwner, edge: &Edge, found: &mut LeastDistances) {
        let frame = &owner.course.body().frame;
        let consider = |v: f64, found: &mut LeastDistances| {
            let point = self.line.point(v);
            let Some(distance) = edge.distance(&frame.local(point)) else {
                return;
            };
            if distance.min(distance * LEAST_COSINE) < found.bound(owner) {
                found.take(owner, distance * self.line.cosine(v, &frame.along), point);
            }
        };
        consider(self.to, found);
        let zero = Vector::<2>::zeros();
        for piece in &self.pieces {
            // From there on no point of the piece comes under the bound.
            let bound = found.bound(owner).max(0.0) / LEAST_COSINE + piece.length;
            if edge.clear(&frame.local(piece.start), bound) {
                continue;
            }
            let (start, end) = piece.line.ends;
            consider(start, found);
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
                    consider(turn, found);
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
