//! The spine's contour, whole and in pieces.

use super::chain::arcs;
use super::edges::Edges;
use super::joint::{PieceJoint, Plan, SpineKey};
use super::{FrameError, Rib, relief};
use crate::geometry::curve::{BSpline, Vector};
use crate::geometry::path::{Path, Segment, close, line};

/// A piece of the spine.
#[derive(Debug, Clone, PartialEq)]
pub struct SpinePiece {
    /// Its number from the tail, starting with 1.
    pub number: usize,
    /// Its ends, mm from the tail, a key's tongue included.
    pub ends: [f64; 2],
    /// Its contour.
    pub outline: Path,
}

/// How a piece ends.
#[derive(Debug, Clone, Copy)]
pub(super) enum End {
    /// Upright, at this place.
    Straight(f64),
    /// With this key's tongue, towards the nose.
    Tongue(SpineKey),
    /// With this key's socket, open towards the tail.
    Socket(SpineKey),
}

impl End {
    fn x(self) -> f64 {
        match self {
            Self::Straight(x) => x,
            Self::Tongue(key) => key.x,
            Self::Socket(key) => key.x + key.gap,
        }
    }
}

impl Edges<'_> {
    /// The pieces that the joints make of the spine.
    pub fn pieces(&self, plan: &Plan) -> Result<Vec<SpinePiece>, FrameError> {
        let mut starts = vec![End::Straight(plan.ends[0])];
        let mut stops = Vec::new();
        for joint in &plan.joints {
            match *joint {
                PieceJoint::Key(key) => {
                    stops.push(End::Tongue(key));
                    starts.push(End::Socket(key));
                }
                PieceJoint::Scarf { x, length } => {
                    stops.push(End::Straight(x + length / 2.0));
                    starts.push(End::Straight(x - length / 2.0));
                }
            }
        }
        stops.push(End::Straight(plan.ends[1]));
        let both = starts.into_iter().zip(stops).enumerate();
        both.map(|(i, (start, stop))| {
            let number = i + 1;
            let outline = self.piece(&format!("piece {number} of the spine"), [start, stop])?;
            let bounds = outline.bounds();
            Ok(SpinePiece {
                number,
                ends: [bounds.min.x, bounds.max.x],
                outline,
            })
        })
        .collect()
    }

    /// The contour between two ends, with the slots that lie between them.
    pub fn piece(&self, part: &str, [start, stop]: [End; 2]) -> Result<Path, FrameError> {
        let [from, to] = [start.x(), stop.x()];
        let slot_width = self.c.rib + self.c.slot_clearance;
        let at = |x: f64, y: f64| Vector::<2>::new(x, y);
        let first = self.bottom.point(from);
        let mut segments = arcs(part, &stretch(&self.bottom, from, to))?;
        segments.extend(match stop {
            End::Tongue(key) => key.upward(0.0),
            _ => Vec::new(),
        });
        segments.push(line(to, self.deck.point(to).y));
        let mut last = to;
        let between = |r: &&&Rib| r.x > from && r.x < to;
        for rib in self.ribs.iter().rev().filter(between) {
            let [aft, fore] = [rib.x - slot_width / 2.0, rib.x + slot_width / 2.0];
            segments.extend(backward(part, &self.deck, fore, last)?);
            segments.extend(relief::slot(
                [
                    at(fore, self.deck.point(fore).y),
                    at(aft, self.deck.point(aft).y),
                ],
                [at(fore, rib.slot_top), at(aft, rib.slot_top)],
                self.c.frame.relief,
                self.c.frame.cutter / 2.0,
            ));
            last = aft;
        }
        segments.extend(backward(part, &self.deck, from, last)?);
        if let End::Socket(key) = start {
            segments.extend(key.downward(key.gap));
        }
        Ok(close(first, segments))
    }
}

/// Lines and arcs along `curve` from x = `to` back to x = `from`.
fn backward(
    part: &str,
    curve: &BSpline<2>,
    from: f64,
    to: f64,
) -> Result<Vec<Segment>, FrameError> {
    let mut points = stretch(curve, from, to);
    points.reverse();
    arcs(part, &points)
}

/// Dense points of `curve`, whose parameter is x.
pub(super) fn stretch(curve: &BSpline<2>, from: f64, to: f64) -> Vec<Vector<2>> {
    // A millimetre and a half apart: on a radius of 300 mm the chord error is 0.001 mm.
    let count = ((to - from) / 1.5).ceil().max(2.0) as usize;
    (0..=count)
        .map(|i| curve.point(from + (to - from) * i as f64 / count as f64))
        .collect()
}
