//! The hollow a pad has to fit into.

use super::PlacedFitting;
use crate::design::{Construction, Design};
use crate::frame::Rib;
use crate::geometry::curve::Vector;
use crate::geometry::curve::polyline::height_on;
use crate::rail::{Rail, Stack};
use crate::shape::{PlanShape, Shell, SkinFace, at_depth};

/// How closely, mm, the skins' inner faces are followed.
const FOLLOWED: f64 = 1e-3;

/// Depth below a cut-out's outer edge, mm, from which strips count: their feet stand inboard of it, where the skin may lie lower.
pub(super) const BELOW: f64 = 5.0;

/// Everything pads are fitted into.
pub(super) struct Room<'a> {
    pub shell: &'a Shell,
    pub plan: &'a PlanShape,
    pub design: &'a Design,
    pub rail: &'a Rail,
    pub ribs: &'a [Rib],
}

/// Inner faces of bottom and deck in a plane of constant x.
pub(super) struct Plane {
    bottom: SkinFace,
    deck: SkinFace,
}

impl Plane {
    /// Heights of both inner faces at half-breadth |y|, mm.
    pub(super) fn heights(&self, y: f64) -> [f64; 2] {
        [self.bottom.height(y.abs()), self.deck.height(y.abs())]
    }
}

impl Room<'_> {
    pub(super) fn construction(&self) -> &Construction {
        &self.design.construction
    }

    /// The faces in the plane at `x`.
    pub(super) fn plane(&self, x: f64) -> Option<Plane> {
        let c = self.construction();
        let cut = self.shell.cut(x).ok()?;
        Some(Plane {
            bottom: at_depth(&cut, c, true, c.bottom_skin, FOLLOWED)?,
            deck: at_depth(&cut, c, false, c.deck_skin, FOLLOWED)?,
        })
    }

    /// Where the hollow begins and ends: the blocks' faces.
    pub(super) fn hollow(&self) -> [f64; 2] {
        let c = self.construction();
        [c.tail_block, self.design.length - c.nose_block]
    }

    /// Stretches of the hollow between blocks and ribs.
    pub(super) fn bays(&self) -> Vec<[f64; 2]> {
        let [mut from, end] = self.hollow();
        let mut bays = Vec::new();
        for rib in self.ribs {
            let half = rib.thickness / 2.0;
            bays.push([from, rib.x - half]);
            from = rib.x + half;
        }
        bays.push([from, end]);
        bays
    }

    /// Least half-breadth of the strips' inner faces at `x` between two heights, mm; `None` outside the hollow.
    pub(super) fn strips(&self, x: f64, low: f64, high: f64) -> Option<f64> {
        let [from, to] = self.hollow();
        if x < from - 1e-6 || x > to + 1e-6 {
            return None;
        }
        let stacks = &self.rail.stacks;
        let next = stacks
            .partition_point(|s| s.x <= x)
            .clamp(1, stacks.len().max(2) - 1);
        let (a, b) = (stacks.get(next - 1)?, stacks.get(next)?);
        let (p, q) = (least(a, low, high)?, least(b, low, high)?);
        let place = |x: f64, y: f64| Vector::<2>::new(x, y);
        Some(height_on(place(a.x, p), place(b.x, q), x.clamp(a.x, b.x)))
    }

    /// Whether the cut-outs lie wholly in a block.
    pub(super) fn held_by_block(&self, fitting: &PlacedFitting) -> bool {
        let [from, to] = x_range(&fitting.shadow);
        let [hollow_from, hollow_to] = self.hollow();
        to <= hollow_from || from >= hollow_to
    }
}

/// Least half-breadth of a stack's inner side between two heights.
fn least(stack: &Stack, low: f64, high: f64) -> Option<f64> {
    let side = stack.inner_boundary()?;
    let mut found = f64::INFINITY;
    for p in &side {
        if (low..=high).contains(&p.y) {
            found = found.min(p.x);
        }
    }
    for w in side.windows(2) {
        for level in [low, high] {
            if (w[0].y - level) * (w[1].y - level) < 0.0 {
                found = found.min(height_on(w[0].yx(), w[1].yx(), level));
            }
        }
    }
    if found.is_finite() {
        return Some(found);
    }
    // The range lies below or above the whole side: its nearer end counts.
    side.iter()
        .min_by(|a, b| {
            let far = |p: &Vector<2>| (p.y - (low + high) / 2.0).abs();
            far(a).total_cmp(&far(b))
        })
        .map(|p| p.x)
}

/// Least and greatest x of a polygon's corners.
pub(super) fn x_range(corners: &[Vector<2>]) -> [f64; 2] {
    range(corners.iter().map(|p| p.x))
}

/// Places along a polygon: its corners, and others evenly between the first and the last.
pub(super) fn places(corners: &[Vector<2>]) -> Vec<f64> {
    const STEPS: usize = 8;
    let [from, to] = x_range(corners);
    let even = (0..=STEPS).map(|k| from + (to - from) * k as f64 / STEPS as f64);
    even.chain(corners.iter().map(|p| p.x)).collect()
}

/// Least and greatest y of a polygon's corners.
pub(super) fn y_range(corners: &[Vector<2>]) -> [f64; 2] {
    range(corners.iter().map(|p| p.y))
}

fn range(values: impl Iterator<Item = f64>) -> [f64; 2] {
    values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| {
        [low.min(v), high.max(v)]
    })
}

/// Least and greatest y of a convex polygon on the line of constant `x`.
pub(super) fn across(corners: &[Vector<2>], x: f64) -> Option<[f64; 2]> {
    let next = corners.iter().cycle().skip(1);
    let mut found = [f64::INFINITY, f64::NEG_INFINITY];
    let mut see = |y: f64| found = [found[0].min(y), found[1].max(y)];
    for (a, b) in corners.iter().zip(next) {
        if (a.x - x).abs() < 1e-9 {
            see(a.y);
        }
        if (a.x - x) * (b.x - x) < 0.0 {
            see(height_on(*a, *b, x));
        }
    }
    (found[0] <= found[1]).then_some(found)
}
