//! The surface moved inward, cut by a plane of constant x.

use super::Shell;
use crate::curve::Vector;
use crate::surface::Jet;

/// A point of the inset surface in a plane of constant x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsetPoint {
    /// Section parameter.
    pub v: f64,
    /// (y, z) in the plane, mm.
    pub point: Vector<2>,
    /// d(y, z)/dv along the plane section.
    pub tangent: Vector<2>,
    /// Direction of the inset surface's line of constant v, unit, towards the nose.
    pub fore: Vector<3>,
}

/// Which side of a crease a parameter on it counts for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The segment of lower v.
    Below,
    /// The segment of higher v.
    Above,
}

impl Shell {
    /// The jet at plane station `x`, section parameter `v`.
    pub fn jet(&self, x: f64, v: f64, side: Side) -> Jet {
        let (patch, u) = self.locate(x);
        self.side_jet(patch, u, v, side)
    }

    fn side_jet(&self, patch: usize, u: f64, v: f64, side: Side) -> Jet {
        match side {
            Side::Below => self.patches[patch].jet_below(u, v),
            Side::Above => self.patches[patch].jet(u, v),
        }
    }

    /// The surface moved inward by `depth` mm along its normal, at parameter `v` and in the plane at `x`.
    ///
    /// Newton's method in u on x(u, v) = `x`, to 1e-10 mm. `None` where the plane misses the inset surface (past a tip) or where the
    /// surface bends tighter than `depth`, so that the inset would turn back.
    pub fn inset(&self, x: f64, v: f64, depth: f64, side: Side) -> Option<InsetPoint> {
        let (patch, u) = self.locate(x);
        self.inset_from(patch, u, x, v, depth, side)
    }

    /// As [`inset`](Self::inset), starting the search at `u` on a patch.
    fn inset_from(
        &self,
        mut patch: usize,
        mut u: f64,
        x: f64,
        v: f64,
        depth: f64,
        side: Side,
    ) -> Option<InsetPoint> {
        for _ in 0..40 {
            let jet = self.side_jet(patch, u, v, side);
            let (point, du, dv) = jet.inward(depth)?;
            let miss = point.x - x;
            if miss.abs() < 1e-10 {
                // Turned back along u or v: the inset surface runs against the surface it comes from.
                let fore = du;
                if fore.x <= 0.0 {
                    return None;
                }
                let slide = dv.x / du.x;
                let along = dv - du * slide;
                let plain = jet.dv - jet.du * (jet.dv.x / jet.du.x);
                if along.dot(&plain) < 0.0 {
                    return None;
                }
                return Some(InsetPoint {
                    v,
                    point: Vector::<2>::new(point.y, point.z),
                    tangent: Vector::<2>::new(along.y, along.z),
                    fore: fore.normalize(),
                });
            }
            // Near a tip dx/du of the inset may vanish or turn; the surface's own slope is a safe stand-in.
            let slope = if du.x > 0.2 * jet.du.x {
                du.x
            } else {
                jet.du.x
            };
            let (start, end) = self.patches[patch].u().domain();
            let next = u - miss / slope;
            if next < start && patch > 0 {
                patch -= 1;
                u = next.max(self.patches[patch].u().domain().0);
            } else if next > end && patch + 1 < self.patches.len() {
                patch += 1;
                u = next.min(self.patches[patch].u().domain().1);
            } else if (u == start && next < start) || (u == end && next > end) {
                return None;
            } else {
                u = next.clamp(start, end);
            }
        }
        None
    }

    /// Points of the inset section at `x` from parameter `from` to `to`, such that the cubic Hermite curve through them lies
    /// within about `accuracy` mm of the section; a crease between is entered from both sides.
    ///
    /// A Hermite piece over an arc of length L turning by θ misses it by L θ³ / 384 (the quartic remainder with the circle's
    /// fourth derivative); pieces are halved until that is below `accuracy`. Places that have no inset are left out.
    pub fn inset_line(
        &self,
        x: f64,
        depth: f64,
        from: f64,
        to: f64,
        accuracy: f64,
    ) -> Vec<InsetPoint> {
        let (patch, u) = self.locate(x);
        let line = Line {
            shell: self,
            patch,
            u,
            x,
            depth,
            accuracy,
        };
        let mut ends = vec![from];
        ends.extend(self.marks.iter().copied().filter(|m| *m > from && *m < to));
        ends.push(to);
        let mut out = Vec::with_capacity(64);
        for w in ends.windows(2) {
            line.stretch(w[0], w[1], &mut out);
        }
        out
    }
}

/// An inset section being sampled.
struct Line<'a> {
    shell: &'a Shell,
    patch: usize,
    u: f64,
    x: f64,
    depth: f64,
    accuracy: f64,
}

/// Pieces a stretch between creases starts with, and how often one is halved.
const PIECES: usize = 4;
const HALVINGS: usize = 6;

impl Line<'_> {
    fn point(&self, v: f64, side: Side) -> Option<InsetPoint> {
        self.shell
            .inset_from(self.patch, self.u, self.x, v, self.depth, side)
    }

    fn stretch(&self, from: f64, to: f64, out: &mut Vec<InsetPoint>) {
        let mut before = self.point(from, Side::Above);
        out.extend(before);
        for i in 1..=PIECES {
            let v = from + (to - from) * i as f64 / PIECES as f64;
            let side = if i == PIECES {
                Side::Below
            } else {
                Side::Above
            };
            let here = self.point(v, side);
            self.halve(before, here, HALVINGS, out);
            out.extend(here);
            before = here;
        }
    }

    /// Points between two neighbours, in order.
    fn halve(
        &self,
        a: Option<InsetPoint>,
        b: Option<InsetPoint>,
        left: usize,
        out: &mut Vec<InsetPoint>,
    ) {
        let (Some(a), Some(b)) = (a, b) else { return };
        let turn = a.tangent.angle(&b.tangent);
        let length = (b.point - a.point).norm();
        if left == 0 || length * turn.powi(3) / 384.0 <= self.accuracy {
            return;
        }
        let middle = self.point((a.v + b.v) / 2.0, Side::Above);
        self.halve(Some(a), middle, left - 1, out);
        out.extend(middle);
        self.halve(middle, Some(b), left - 1, out);
    }
}
