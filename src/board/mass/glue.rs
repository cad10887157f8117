//! What is glued to what, by area.
//!
//! Counted are the skins' seams, the rail's strips on each other and on bottom and deck, the frame's lands and half-laps, the blocks
//! under both skins and layer on layer, and the pads on the skins.

use super::parts::BoardParts;
use crate::geometry::curve::Vector;
use crate::rail::{CourseKind, Stack, Strip};

/// A group of joints.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Glued {
    pub name: &'static str,
    /// Area glued, mm².
    pub area: f64,
    /// Its centre (x, z), mm.
    pub centre: [f64; 2],
}

/// Sums of areas with their moments.
#[derive(Default)]
struct Sum {
    area: f64,
    along: f64,
    high: f64,
}

impl Sum {
    fn add(&mut self, area: f64, [x, z]: [f64; 2]) {
        self.area += area;
        self.along += area * x;
        self.high += area * z;
    }

    fn glued(self, name: &'static str) -> Option<Glued> {
        (self.area > 0.0).then(|| Glued {
            name,
            area: self.area,
            centre: [self.along / self.area, self.high / self.area],
        })
    }
}

/// Every group of joints of a board.
pub(super) fn glued(board: &BoardParts<'_>) -> Vec<Glued> {
    let all = [
        seams(board).glued("glue in the skins' seams"),
        rail(board).glued("glue of the rail"),
        frame(board).glued("glue of the frame"),
        blocks(board).glued("glue of the blocks"),
        pads(board).glued("glue of the pads"),
    ];
    all.into_iter().flatten().collect()
}

fn seams(board: &BoardParts<'_>) -> Sum {
    let mut sum = Sum::default();
    for panel in &board.panels.panels {
        let middle =
            panel.skin.points.iter().sum::<Vector<3>>() / panel.skin.points.len().max(1) as f64;
        sum.add(panel.seams() * panel.skin.thickness, [middle.x, middle.z]);
    }
    sum
}

fn rail(board: &BoardParts<'_>) -> Sum {
    let c = &board.design.construction;
    let mut sum = Sum::default();
    for strip in board.strips {
        let wide = match strip.kind {
            // On what lies below, and lamination to lamination.
            CourseKind::Starter => c.starter.size * c.starter.laminations as f64,
            CourseKind::BeadOnly => c.strip.thickness,
            // Along the cove's arc.
            CourseKind::BeadAndCove => {
                let r = c.strip.cove_radius;
                2.0 * r * (c.strip.cove_half_chord() / r).clamp(-1.0, 1.0).asin()
            }
        };
        sum.add(2.0 * wide * strip.length, middle(strip));
    }
    // The planed top under the deck.
    for w in board.rail.stacks.windows(2) {
        let top = |s: &Stack| Vector::<3>::new(s.x, s.faces[1].land.x, s.faces[1].land.y);
        let (a, b) = (top(&w[0]), top(&w[1]));
        let at = (a + b) / 2.0;
        sum.add(2.0 * c.strip.thickness * (b - a).norm(), [at.x, at.z]);
    }
    sum
}

/// Middle of a strip, (x, z).
fn middle(strip: &Strip) -> [f64; 2] {
    const PLACES: usize = 9;
    let at = |k: usize| {
        let share = (k as f64 + 0.5) / PLACES as f64;
        strip
            .path
            .point(strip.ends[0] + (strip.ends[1] - strip.ends[0]) * share)
    };
    let sum = (0..PLACES).map(at).sum::<Vector<3>>() / PLACES as f64;
    [sum.x, sum.z]
}

fn frame(board: &BoardParts<'_>) -> Sum {
    let mut sum = Sum::default();
    for rib in board.ribs {
        let middle = (rib.heights[0] + rib.heights[1]) / 2.0;
        sum.add(rib.lands.total(), [rib.x, middle]);
    }
    let spine = board.spine;
    let bounds = spine.outline.bounds();
    let at = [
        (bounds.min.x + bounds.max.x) / 2.0,
        (bounds.min.y + bounds.max.y) / 2.0,
    ];
    sum.add(spine.lands.total(), at);
    sum
}

/// Blocks under bottom and deck skin, by their plan, and layer on layer.
fn blocks(board: &BoardParts<'_>) -> Sum {
    const PLACES: usize = 12;
    let c = &board.design.construction;
    let (tail, nose) = board.shell.x_range();
    let mut sum = Sum::default();
    for (from, to) in [(tail, c.tail_block), (nose - c.nose_block, nose)] {
        let wide = (to - from) / PLACES as f64;
        for k in 0..PLACES {
            let x = from + wide * (k as f64 + 0.5);
            let [bottom, deck] = board.shell.centre_heights(x);
            let area = 2.0 * board.shell.half_width(x) * wide;
            sum.add(2.0 * area, [x, (bottom + deck) / 2.0]);
        }
    }
    for block in board.blocks {
        for layers in block.layers.windows(2) {
            let z = layers[0].z[1];
            for [area, moment] in block.bodies.iter().map(|b| b.level_cut(z)) {
                if area > 0.0 {
                    sum.add(area, [moment / area, z]);
                }
            }
        }
    }
    sum
}

/// Pads on the skins.
fn pads(board: &BoardParts<'_>) -> Sum {
    let mut sum = Sum::default();
    let pads = board.pads.fittings.iter().filter_map(|f| f.pad.as_ref());
    for piece in pads.flat_map(|pad| &pad.pieces) {
        if let Some([x, _, z]) = piece.body.centroid() {
            sum.add(piece.outline.area().abs(), [x, z]);
        }
    }
    sum
}
