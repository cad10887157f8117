//! The skins' inner faces and their land lines in a plane of constant x.

use super::plane_line::PlaneLine;
use crate::design::Construction;
use crate::geometry::curve::{BSpline, Vector};
use crate::geometry::solve::bisect;
use crate::shape::{Cut, InsetPoint, Mark, Side};

/// A skin's inner face in a plane of constant x: along the inset surface to the land line, then straight on along its
/// tangent.
#[derive(Debug, Clone, PartialEq)]
pub struct SkinFace {
    /// The inset surface from the centre to the land, nodes in rising parameter.
    pub line: PlaneLine,
    /// Section parameter where the skin leaves the surface.
    pub land_v: f64,
    /// The inner face's point at the land, (y, z), mm.
    pub land: Vector<2>,
    /// Unit direction outboard beyond the land.
    pub outboard: Vector<2>,
    /// +1 where the hollow lies above the face (bottom), −1 where below (deck).
    up: f64,
}

impl SkinFace {
    /// Distance in the plane, mm, of a point from the face, positive on the hollow's side.
    ///
    /// Beyond the land it is the distance from the straight continuation; before it, from the inset line at equal y.
    pub fn inside(&self, point: &Vector<2>) -> f64 {
        let normal = Vector::<2>::new(-self.outboard.y, self.outboard.x) * self.up;
        let d = point - self.land;
        if d.dot(&self.outboard) >= 0.0 || self.line.is_empty() {
            return d.dot(&normal);
        }
        self.up * (point.y - self.height(point.x)) * self.outboard.x
    }

    /// Height of the face at half-breadth `y`, mm.
    pub fn height(&self, y: f64) -> f64 {
        if y >= self.land.x || self.line.is_empty() {
            return self.land.y + (y - self.land.x) * self.outboard.y / self.outboard.x;
        }
        // y is monotone in v from centre to land, rising for the bottom and falling for the deck.
        let v = if self.up > 0.0 {
            self.line.only_rise(|p| p.x - y)
        } else {
            self.line.only_rise(|p| y - p.x)
        };
        let centre = if self.up > 0.0 {
            self.line.nodes().first()
        } else {
            self.line.nodes().last()
        };
        match (v, centre) {
            (Some(v), _) => self.line.point(v).y,
            (None, Some(node)) => node.point.y,
            (None, None) => self.land.y,
        }
    }

    /// The face's normal turned into the hollow, unit, beyond the land.
    pub fn normal(&self) -> Vector<2> {
        Vector::<2>::new(-self.outboard.y, self.outboard.x) * self.up
    }
}

/// Inner faces of bottom and deck in a plane, followed within `accuracy` mm; `None` where the board is too thin for its skins.
pub(crate) fn faces(
    cut: &Cut,
    construction: &Construction,
    accuracy: f64,
) -> Option<[SkinFace; 2]> {
    let (bottom, deck) = (construction.bottom_skin, construction.deck_skin);
    Some([
        at_depth(cut, construction, true, bottom, accuracy)?,
        at_depth(cut, construction, false, deck, accuracy)?,
    ])
}

/// Where a surface inside bottom or deck skin, `depth` mm under the finished surface, leaves the inset: `None` where the board is too thin
/// for it.
pub(crate) fn land_at_depth(
    cut: &Cut,
    construction: &Construction,
    bottom: bool,
    depth: f64,
) -> Option<InsetPoint> {
    let v = land(&cut.section, construction, cut.shell().apex, bottom);
    let side = if bottom { Side::Below } else { Side::Above };
    cut.inset(v, depth, side)
}

/// A surface inside bottom or deck skin, `depth` mm under the finished surface, in a plane: along the inset to the land, then
/// straight on. Followed within `accuracy` mm; `None` where the board is too thin for it.
pub(crate) fn at_depth(
    cut: &Cut,
    construction: &Construction,
    bottom: bool,
    depth: f64,
    accuracy: f64,
) -> Option<SkinFace> {
    let edge = land_at_depth(cut, construction, bottom, depth)?;
    let land_v = edge.v;
    let (from, to) = if bottom { (0.0, land_v) } else { (land_v, 1.0) };
    let nodes = cut.inset_line(depth, from, to, accuracy);
    let tangent = edge.tangent.normalize() * if bottom { 1.0 } else { -1.0 };
    (tangent.x > 0.0).then(|| SkinFace {
        line: PlaneLine::new(nodes),
        land_v,
        land: edge.point,
        outboard: tangent,
        up: if bottom { 1.0 } else { -1.0 },
    })
}

/// Where a skin stops following the section: outboard of it the tangent has turned by more than `skin_turn` from that at the centre, or the
/// section bends tighter than `skin_bend_radius`.
///
/// Sought from the edge (deck: from the apex) inboard, so that a ridge or a dome near the centre, which the skin is relieved for, does not take the
/// land there within a hand's breadth. Where the whole section is too tight the skin leaves it where it bends least. The turn is measured in the
/// section, so that rocker does not count as turn.
fn land(section: &BSpline<3>, construction: &Construction, apex: f64, bottom: bool) -> f64 {
    let start = if bottom { 0.0 } else { 1.0 };
    let direction = |d: &Vector<3>| {
        if bottom {
            d.z.atan2(d.y)
        } else {
            d.z.atan2(-d.y)
        }
    };
    let centre = direction(&section.derivatives::<2>(start)[1]);
    let turns = |v: f64| direction(&section.derivatives::<2>(v)[1]) - centre;
    let bend = |v: f64| {
        let [_, d, c] = section.derivatives::<3>(v);
        (d.y * c.z - d.z * c.y) / d.norm().powi(3) * construction.skin_bend_radius
    };
    let follows = |v: f64| turns(v) <= construction.skin_turn;
    let holds = |v: f64| follows(v) && bend(v) <= 1.0;
    let between = |good: f64, bad: f64| bisect(good, bad, 40, holds)[0];
    // Samples inside each segment, so that curvature on a crease is never asked for.
    const STEPS: usize = 32;
    let breaks = section.knots().breaks();
    let inside = |w: &[f64], i: usize| {
        let t = (i as f64 + 0.5) / STEPS as f64;
        if bottom {
            w[0] + (w[1] - w[0]) * t
        } else {
            w[1] - (w[1] - w[0]) * t
        }
    };
    // From the centre out; the bottom's own surface ends at its edge.
    let mut segments: Vec<&[f64]> = breaks
        .windows(2)
        .filter(|w| if bottom { w[1] <= apex } else { w[0] >= apex })
        .collect();
    if !bottom {
        segments.reverse();
    }
    let outer_end = |w: &[f64]| if bottom { w[1] } else { w[0] };
    let own = segments
        .iter()
        .take_while(|w| !bottom || outer_end(w) <= Mark::EdgeInner.v() + 1e-12)
        .count();
    let (own, round) = segments.split_at(own);
    // A section without that mark is followed from the centre out.
    let edge = own.last().map_or(start, |w| outer_end(w));
    let mut least = (f64::INFINITY, start);
    let mut last = own.is_empty().then_some(start);
    'own: for w in own.iter().rev() {
        for i in (0..STEPS).rev() {
            let v = inside(w, i);
            if holds(v) {
                last = Some(match i + 1 {
                    STEPS => outer_end(w),
                    next => between(v, inside(w, next)),
                });
                break 'own;
            }
            if follows(v) && bend(v) < least.0 {
                least = (bend(v), v);
            }
        }
    }
    let Some(last) = last else {
        return least.1;
    };
    if last != edge {
        return last;
    }
    for w in round {
        let mut good = None;
        for i in 0..STEPS {
            let v = inside(w, i);
            if !holds(v) {
                // At the first sample of a segment the crease itself is the land.
                return good.map_or(if bottom { w[0] } else { w[1] }, |good| between(good, v));
            }
            good = Some(v);
        }
    }
    apex
}
