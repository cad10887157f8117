//! The surface moved inward, cut by a plane of constant x.

use super::{Shell, ShellError};
use crate::geometry::curve::{BSpline, Vector};
use crate::geometry::surface::Jet;

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

/// The shell cut by a plane of constant x.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut<'a> {
    shell: &'a Shell,
    /// The plane, mm from the tail.
    pub x: f64,
    /// The finished half section: v ↦ (x, y, z), exact.
    pub section: BSpline<3>,
    /// The patch and its parameter whose isocurve lies in the plane.
    place: (usize, f64),
}

/// A [`Cut`] without its shell, to be kept for longer than that is borrowed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PlaneSection {
    /// The plane, mm from the tail.
    pub(crate) x: f64,
    section: BSpline<3>,
    place: (usize, f64),
}

impl PlaneSection {
    /// The cut of `shell`, which must be the one it was taken from.
    pub(crate) fn on<'a>(&self, shell: &'a Shell) -> Cut<'a> {
        Cut {
            shell,
            x: self.x,
            section: self.section.clone(),
            place: self.place,
        }
    }
}

impl Shell {
    /// The shell cut by the plane at `x`.
    ///
    /// # Errors
    /// [`ShellError`] where `x` is no number.
    pub fn cut(&self, x: f64) -> Result<Cut<'_>, ShellError> {
        let place = self.locate(x);
        let section = self.patches[place.0].across(place.1);
        Ok(Cut {
            shell: self,
            x,
            section: section.map_err(ShellError::curve("section"))?,
            place,
        })
    }

    /// The finished half section in the plane at `x`: v ↦ (x, y, z), exact.
    ///
    /// # Errors
    /// As [`cut`](Self::cut).
    pub fn section(&self, x: f64) -> Result<BSpline<3>, ShellError> {
        Ok(self.cut(x)?.section)
    }
}

impl<'a> Cut<'a> {
    /// The shell.
    pub fn shell(&self) -> &'a Shell {
        self.shell
    }

    /// Without its shell.
    pub(crate) fn into_section(self) -> PlaneSection {
        PlaneSection {
            x: self.x,
            section: self.section,
            place: self.place,
        }
    }

    /// Position and derivatives of the finished surface at section parameter `v`.
    pub fn jet(&self, v: f64, side: Side) -> Jet {
        self.jet_at(self.place, v, side)
    }

    fn jet_at(&self, (patch, u): (usize, f64), v: f64, side: Side) -> Jet {
        match side {
            Side::Below => self.shell.patches[patch].jet_below(u, v),
            Side::Above => self.shell.patches[patch].jet(u, v),
        }
    }

    /// The surface moved inward by `depth` mm along its normal, at section parameter `v`.
    ///
    /// Newton's method in u on x(u, v) = x, to 1e-10 mm. `None` where the plane misses the inset surface (past a tip) or where the
    /// surface bends tighter than `depth`, so that the inset would turn back.
    pub fn inset(&self, v: f64, depth: f64, side: Side) -> Option<InsetPoint> {
        self.inset_from(self.place, v, depth, side).map(|p| p.0)
    }

    /// As [`inset`](Self::inset), starting the search at a place (patch and u); with the place where it ended.
    fn inset_from(
        &self,
        (mut patch, mut u): (usize, f64),
        v: f64,
        depth: f64,
        side: Side,
    ) -> Option<(InsetPoint, (usize, f64))> {
        let patches = &self.shell.patches;
        for _ in 0..40 {
            let jet = self.jet_at((patch, u), v, side);
            let (point, du, dv) = jet.inward(depth)?;
            let miss = point.x - self.x;
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
                let found = InsetPoint {
                    v,
                    point: Vector::<2>::new(point.y, point.z),
                    tangent: Vector::<2>::new(along.y, along.z),
                    fore: fore.normalize(),
                };
                return Some((found, (patch, u)));
            }
            // Near a tip dx/du of the inset may vanish or turn; the surface's own slope is a safe stand-in.
            let slope = if du.x > 0.2 * jet.du.x {
                du.x
            } else {
                jet.du.x
            };
            let (start, end) = patches[patch].u().domain();
            let next = u - miss / slope;
            if next < start && patch > 0 {
                patch -= 1;
                u = next.max(patches[patch].u().domain().0);
            } else if next > end && patch + 1 < patches.len() {
                patch += 1;
                u = next.min(patches[patch].u().domain().1);
            } else if (u == start && next < start) || (u == end && next > end) {
                return None;
            } else {
                u = next.clamp(start, end);
            }
        }
        None
    }

    /// Points of the inset section from parameter `from` to `to`, such that the cubic Hermite curve through them lies
    /// within about `accuracy` mm of the section; a crease between is entered from both sides.
    ///
    /// A Hermite piece over an arc of length L turning by θ misses it by L θ³ / 384 (the quartic remainder with the circle's
    /// fourth derivative); pieces are halved until that is below `accuracy`. Places that have no inset are left out.
    pub fn inset_line(&self, depth: f64, from: f64, to: f64, accuracy: f64) -> Vec<InsetPoint> {
        let line = Line {
            cut: self,
            depth,
            accuracy,
        };
        let mut ends = vec![from];
        let marks = self.shell.marks.iter().copied();
        ends.extend(marks.filter(|m| *m > from && *m < to));
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
    cut: &'a Cut<'a>,
    depth: f64,
    accuracy: f64,
}

/// Pieces a stretch between creases starts with, and how often one is halved.
const PIECES: usize = 4;
const HALVINGS: usize = 6;

/// A point, and the place (patch and u) it was found at, from where its neighbours are sought.
type Found = Option<(InsetPoint, (usize, f64))>;

impl Line<'_> {
    fn point(&self, v: f64, side: Side, near: Found) -> Found {
        let start = near.map_or(self.cut.place, |p| p.1);
        self.cut.inset_from(start, v, self.depth, side)
    }

    fn stretch(&self, from: f64, to: f64, out: &mut Vec<InsetPoint>) {
        let mut before = self.point(from, Side::Above, None);
        out.extend(before.map(|p| p.0));
        for i in 1..=PIECES {
            let v = from + (to - from) * i as f64 / PIECES as f64;
            let side = if i == PIECES {
                Side::Below
            } else {
                Side::Above
            };
            let here = self.point(v, side, before);
            self.halve(before, here, HALVINGS, out);
            out.extend(here.map(|p| p.0));
            before = here;
        }
    }

    /// Points between two neighbours, in order.
    fn halve(&self, before: Found, after: Found, levels: usize, out: &mut Vec<InsetPoint>) {
        let (Some((a, _)), Some((b, _))) = (before, after) else {
            return;
        };
        let turn = a.tangent.angle(&b.tangent);
        let length = (b.point - a.point).norm();
        if levels == 0 || length * turn.powi(3) / 384.0 <= self.accuracy {
            return;
        }
        let middle = self.point((a.v + b.v) / 2.0, Side::Above, before);
        self.halve(before, middle, levels - 1, out);
        out.extend(middle.map(|p| p.0));
        self.halve(middle, after, levels - 1, out);
    }
}
