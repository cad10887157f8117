//! What cut-outs for fittings take from the parts they go through.

use super::Region;
use super::parts::{BoardParts, polygon};
use crate::design::Through;
use crate::geometry::curve::Vector;
use crate::geometry::polygon::intersection;

/// Wood taken away, by part.
#[derive(Debug, Default)]
pub(super) struct Removed {
    /// From bottom and deck skin.
    pub skins: [Region; 2],
    /// From the spine.
    pub spine: Region,
    /// From tail and nose block.
    pub blocks: [Region; 2],
    /// From the pad of each fitting.
    pub pads: Vec<Region>,
}

impl Removed {
    /// Volume of it all, mm³.
    pub fn volume(&self) -> f64 {
        let regions = self.skins.iter().chain(&self.blocks).chain(&self.pads);
        regions.chain([&self.spine]).map(|r| r.size).sum()
    }
}

/// What the cut-outs of all fittings take.
///
/// A cut-out goes to its depth through the skin and then, as seen from above, into a block behind its face, into the spine where that
/// runs, and for the rest into the pad. Its sides are taken for upright, its floor for the skin's surface moved inward.
pub(super) fn removed(board: &BoardParts<'_>) -> Removed {
    /// Farther out than any board reaches, mm.
    const FAR: f64 = 1e4;
    let c = &board.design.construction;
    let half = board.spine.thickness / 2.0;
    let [from, to] = board.spine.ends;
    let faces = [c.tail_block, board.shell.x_range().1 - c.nose_block];
    let mut out = Removed::default();
    for fitting in &board.pads.fittings {
        let (slot, thickness, inward) = match fitting.through {
            Through::Bottom => (0, c.bottom_skin, 1.0),
            Through::Deck => (1, c.deck_skin, -1.0),
        };
        let skin = thickness.min(fitting.depth);
        // Between two depths, an area of the plan.
        let prism = |plan: Region, from: f64, to: f64| {
            let x = plan.along / plan.size.max(f64::MIN_POSITIVE);
            let z = board.shell.centre_heights(x)[slot] + inward * (from + to) / 2.0;
            Region {
                high: plan.size * z,
                ..plan
            }
            .times(to - from)
        };
        let below = |plan: Region| prism(plan, skin, fitting.depth);
        let mut pad = Region::default();
        for cut in &fitting.cuts {
            let cut = polygon(cut);
            let whole = Region::of_side(&cut);
            out.skins[slot] += prism(whole, 0.0, skin);
            let tail = within(&cut, [-FAR, faces[0]], [-FAR, FAR]);
            let nose = within(&cut, [faces[1], FAR], [-FAR, FAR]);
            let spine = within(&cut, [from, to], [-half, half]);
            out.blocks[0] += below(tail);
            out.blocks[1] += below(nose);
            out.spine += below(spine);
            pad += below(whole.less(tail).less(nose).less(spine));
        }
        let held = fitting.pad.is_some();
        out.pads.push(if held { pad } else { Region::default() });
    }
    out
}

/// The part of an area of the plan between two x and two y, mm.
fn within(area: &[Vector<2>], x: [f64; 2], y: [f64; 2]) -> Region {
    let corners = [(0, 0), (1, 0), (1, 1), (0, 1)];
    let rectangle = corners.map(|(i, j)| Vector::<2>::new(x[i], y[j]));
    intersection(area, &rectangle).map_or_else(Region::default, |part| Region::of_side(&part))
}
