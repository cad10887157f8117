//! Plane curves as cubic Hermite pieces, for fast and accurate searches.

use crate::geometry::curve::Vector;
use crate::geometry::solve::{illinois, sign_change};
use crate::shape::InsetPoint;

/// How closely, mm, a [`PlaneLine`] follows the section it stands for.
pub(crate) const LINE_ACCURACY: f64 = 1e-5;

/// A plane curve (y, z) over a section parameter, cubic between nodes.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaneLine {
    nodes: Vec<InsetPoint>,
}

impl PlaneLine {
    /// Takes nodes in rising parameter; two nodes may share a parameter (a crease).
    pub fn new(nodes: Vec<InsetPoint>) -> Self {
        Self { nodes }
    }

    /// The nodes.
    pub fn nodes(&self) -> &[InsetPoint] {
        &self.nodes
    }

    /// Whether there is a curve at all.
    pub fn is_empty(&self) -> bool {
        self.nodes.len() < 2
    }

    /// The first parameter; 0 if there is no curve.
    pub fn start(&self) -> f64 {
        self.nodes.first().map_or(0.0, |n| n.v)
    }

    /// The last parameter; 0 if there is no curve.
    pub fn end(&self) -> f64 {
        self.nodes.last().map_or(0.0, |n| n.v)
    }

    /// Point at parameter `v`, clamped to the nodes.
    pub fn point(&self, v: f64) -> Vector<2> {
        let [a, b] = self.around(v);
        hermite(a, b, v)
    }

    /// The nodes of the piece that `v` lies on, on a crease the later one; the first or last piece beyond the ends.
    fn around(&self, v: f64) -> [&InsetPoint; 2] {
        let next = self
            .nodes
            .partition_point(|n| n.v <= v)
            .clamp(1, self.nodes.len() - 1);
        [&self.nodes[next - 1], &self.nodes[next]]
    }

    /// The line of constant v through the section at `v`, unit, towards the nose.
    pub fn fore(&self, v: f64) -> Vector<3> {
        let [a, b] = self.around(v);
        let t = if b.v > a.v {
            ((v - a.v) / (b.v - a.v)).clamp(0.0, 1.0)
        } else {
            0.0
        };
        (a.fore * (1.0 - t) + b.fore * t).normalize()
    }

    /// Points along the curve at most about `step` mm apart.
    pub fn places(&self, step: f64) -> Vec<Vector<2>> {
        let mut out = Vec::new();
        for w in self.nodes.windows(2) {
            let count = ((w[1].point - w[0].point).norm() / step).ceil().max(1.0) as usize;
            let h = (w[1].v - w[0].v) / count as f64;
            out.extend((0..count).map(|k| hermite(&w[0], &w[1], w[0].v + h * k as f64)));
        }
        out.extend(self.nodes.last().map(|n| n.point));
        out
    }

    /// The cubic pieces between two parameters.
    pub(crate) fn pieces(&self, from: f64, to: f64) -> impl Iterator<Item = LinePiece<'_>> + '_ {
        let pieces = self.nodes.windows(2).map(move |w| LinePiece {
            nodes: [&w[0], &w[1]],
            ends: (w[0].v.max(from), w[1].v.min(to)),
        });
        pieces.filter(|piece| piece.ends.0 < piece.ends.1)
    }

    /// Adds to `found` the parameters where `f` of point and tangent (by the parameter) changes its sign, one at most to a piece: pieces are far
    /// shorter than what is measured along them.
    pub(crate) fn crossings(
        &self,
        f: impl Fn(&Vector<2>, &Vector<2>) -> f64,
        found: &mut Vec<f64>,
    ) {
        for piece in self.pieces(self.start(), self.end()) {
            let of = |v: f64| {
                let (point, tangent) = piece.point_and_tangent(v);
                f(&point, &tangent)
            };
            let (start, end) = piece.ends;
            if let Some(v) = sign_change(start, end, of) {
                found.push(v);
            } else if of(end) == 0.0 {
                found.push(end);
            }
        }
    }

    /// Cosine of the angle between the surface at `v` and a line `along` it: less than 1 where the surface does not run that way.
    pub(crate) fn cosine(&self, v: f64, along: &Vector<3>) -> f64 {
        let [a, b] = self.around(v);
        let d = hermite_tangent(a, b, v);
        let normal = Vector::<3>::new(0.0, d.x, d.y).cross(&self.fore(v));
        let sine = normal.dot(along) / normal.norm().max(1e-300);
        (1.0 - sine * sine).max(0.0).sqrt()
    }

    /// The first parameter after `from` where `f` of the point turns from negative to not negative, by the Illinois
    /// rule to rounding between nodes.
    pub fn first_rise(&self, from: f64, f: impl Fn(&Vector<2>) -> f64) -> Option<f64> {
        let start = self.nodes.partition_point(|n| n.v <= from);
        let (mut v, mut value) = (from, f(&self.point(from)));
        for i in start..self.nodes.len() {
            let node = &self.nodes[i];
            let here = f(&node.point);
            if value < 0.0 && here >= 0.0 {
                return Some(self.root(i.max(1), [v, node.v], [value, here], f));
            }
            (v, value) = (node.v, here);
        }
        None
    }

    /// The last parameter where `f` turns from negative to not negative.
    pub fn last_rise(&self, f: impl Fn(&Vector<2>) -> f64) -> Option<f64> {
        let mut here = f(&self.nodes.last()?.point);
        for i in (1..self.nodes.len()).rev() {
            let before = f(&self.nodes[i - 1].point);
            if before < 0.0 && here >= 0.0 {
                let ends = [self.nodes[i - 1].v, self.nodes[i].v];
                return Some(self.root(i, ends, [before, here], f));
            }
            here = before;
        }
        None
    }

    /// As [`first_rise`](Self::first_rise) from the start, for an `f` that rises all along: the node after it is found by halving.
    pub fn only_rise(&self, f: impl Fn(&Vector<2>) -> f64) -> Option<f64> {
        let i = self.nodes.partition_point(|n| f(&n.point) < 0.0);
        let (a, b) = (self.nodes.get(i.checked_sub(1)?)?, self.nodes.get(i)?);
        Some(self.root(i, [a.v, b.v], [f(&a.point), f(&b.point)], f))
    }

    /// Where `f` turns from negative to not negative on the piece before node `i`, between `ends`, at which it has `values`.
    fn root(
        &self,
        i: usize,
        ends: [f64; 2],
        values: [f64; 2],
        f: impl Fn(&Vector<2>) -> f64,
    ) -> f64 {
        let (a, b) = (&self.nodes[i - 1], &self.nodes[i]);
        if b.v <= a.v {
            return b.v;
        }
        illinois(ends[0], ends[1], values[0], values[1], |t| {
            f(&hermite(a, b, t))
        })
    }
}

fn hermite(a: &InsetPoint, b: &InsetPoint, v: f64) -> Vector<2> {
    let h = b.v - a.v;
    if h <= 0.0 {
        return a.point;
    }
    let t = ((v - a.v) / h).clamp(0.0, 1.0);
    let s = 1.0 - t;
    a.point * (s * s * (1.0 + 2.0 * t))
        + b.point * (t * t * (1.0 + 2.0 * s))
        + (a.tangent * (s * s * t) - b.tangent * (t * t * s)) * h
}

/// A cubic piece of a line, or a part of one.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LinePiece<'a> {
    nodes: [&'a InsetPoint; 2],
    /// Parameters of its ends.
    pub(crate) ends: (f64, f64),
}

impl LinePiece<'_> {
    /// Point and tangent, by the parameter, at `v`: on a crease its own side's.
    pub(crate) fn point_and_tangent(&self, v: f64) -> (Vector<2>, Vector<2>) {
        let [a, b] = self.nodes;
        (hermite(a, b, v), hermite_tangent(a, b, v))
    }

    /// A length, mm, that it does not exceed: that of its control polygon.
    pub(crate) fn length(&self) -> f64 {
        let [a, b] = self.nodes;
        let [from, to] = [a, b].map(|n| n.tangent * ((b.v - a.v) / 3.0));
        from.norm() + (b.point - a.point - from - to).norm() + to.norm()
    }
}

/// Derivative of [`hermite`] by `v`.
fn hermite_tangent(a: &InsetPoint, b: &InsetPoint, v: f64) -> Vector<2> {
    let h = b.v - a.v;
    if h <= 0.0 {
        return a.tangent;
    }
    let t = ((v - a.v) / h).clamp(0.0, 1.0);
    let s = 1.0 - t;
    (b.point - a.point) * (6.0 * s * t / h)
        + a.tangent * (s * (1.0 - 3.0 * t))
        + b.tangent * (t * (3.0 * t - 2.0))
}
