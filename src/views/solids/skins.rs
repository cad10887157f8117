//! Skins as bodies in place.

use crate::board::Board;
use crate::geometry::curve::Vector;
use crate::geometry::lofted::{Lofted, Slice};
use crate::geometry::parallel;
use crate::shape::{ShellError, SkinFace, at_depth};

/// Greatest distance of columns, mm: on the tightest bend a skin takes by default, 120 mm, their chords miss it by 0.01 mm.
const COLUMN: f64 = 3.0;
/// Greatest miss of chords that leave columns out, mm: within that of the columns themselves.
const CHORD: f64 = 0.005;
/// Planes nearer to each other than this, mm, are one.
const APART: f64 = 0.5;
/// Tips this long, mm, are shaped as one with their blocks.
const TIP: f64 = 12.0;
/// Thickness, mm, of a skin where its faces would cross.
const FEATHER: f64 = 0.01;
/// How closely sections are followed, mm.
const ACCURACY: f64 = 1e-4;

/// Bottom and deck skin as bodies, out to the finished outline; bent, and not yet trimmed to the finished rail.
///
/// Sections stand in the rail's planes and those of the end blocks, to 12 mm short of the ends and as far as a swallow tail's cleft lets them
/// reach across; beyond the land the skin goes on straight, as it does in the rail.
pub fn skin_bodies(board: &Board) -> Result<[Lofted; 2], ShellError> {
    let c = &board.design.construction;
    let horns = board.family.plan().cleft_depth().unwrap_or(0.0);
    let (tail, nose) = board.shell.x_range();
    let blocks = board.blocks.iter().flat_map(|b| b.bodies.first());
    let mut rows: Vec<f64> = blocks
        .flat_map(|body| body.slices.iter().map(|s| s.x))
        .filter(|x| (horns.max(tail + TIP)..=nose - TIP).contains(x))
        .collect();
    rows.extend(board.rail.stacks.iter().map(|s| s.x));
    rows.sort_by(f64::total_cmp);
    rows.dedup_by(|a, b| *a - *b < APART);
    let widest = board.measures.width / 2.0;
    let columns = (widest / COLUMN).ceil().max(2.0) as usize;
    let cuts = parallel::try_map(&rows, |&x| board.shell.cut(x))?;
    let body = |name: &str, bottom: bool, thickness: f64| -> Lofted {
        let sections = parallel::map(&cuts, |cut| {
            let at = |depth| at_depth(cut, c, bottom, depth, ACCURACY);
            let (outer, inner) = (at(0.0)?, at(thickness)?);
            let edge = board.shell.half_width(cut.x);
            let faces = if bottom {
                [outer, inner]
            } else {
                [inner, outer]
            };
            Some(Section::new(cut.x, edge, &faces, columns))
        });
        let sections: Vec<Section> = sections.into_iter().flatten().collect();
        let kept = kept_columns(&sections);
        Lofted {
            name: name.into(),
            slices: sections.iter().map(|s| s.ring(&kept)).collect(),
        }
    };
    Ok([
        body("bottom-skin", true, c.bottom_skin),
        body("deck-skin", false, c.deck_skin),
    ])
}

/// Half a section between two faces, in columns that share its width evenly.
struct Section {
    x: f64,
    /// Half-breadths, mm, from 0 to the edge.
    places: Vec<f64>,
    /// Heights of the lower and the upper face there, mm.
    heights: Vec<[f64; 2]>,
}

impl Section {
    /// Out to `edge` in so many columns. Where the faces, straight on from their lands, would cross short of the edge, the skin runs out to [`FEATHER`].
    fn new(x: f64, edge: f64, [low, high]: &[SkinFace; 2], columns: usize) -> Self {
        let places = (0..=columns).map(|i| edge * i as f64 / columns as f64);
        let places: Vec<f64> = places.collect();
        let heights = places.iter().map(|&y| {
            let lower = low.height(y);
            [lower, high.height(y).max(lower + FEATHER)]
        });
        let heights = heights.collect();
        Self { x, places, heights }
    }

    /// Both halves with these columns: along the lower face to starboard, back along the upper.
    fn ring(&self, kept: &[usize]) -> Slice {
        let across = |face: usize| -> Vec<Vector<2>> {
            let starboard = kept
                .iter()
                .map(|&i| Vector::<2>::new(self.places[i], self.heights[i][face]));
            let starboard: Vec<Vector<2>> = starboard.collect();
            let port = starboard.iter().skip(1).rev();
            let port = port.map(|p| Vector::<2>::new(-p.x, p.y));
            port.chain(starboard.iter().copied()).collect()
        };
        let mut ring = across(0);
        ring.extend(across(1).into_iter().rev());
        Slice { x: self.x, ring }
    }

    /// Whether chords from one column to another miss neither face by more than [`CHORD`].
    fn is_straight(&self, from: usize, to: usize) -> bool {
        let (a, b) = (self.heights[from], self.heights[to]);
        (from + 1..to).all(|i| {
            let t = (i - from) as f64 / (to - from) as f64;
            (0..2).all(|face| {
                (a[face] + (b[face] - a[face]) * t - self.heights[i][face]).abs() <= CHORD
            })
        })
    }

    /// Whether the two triangles of a field between two columns of this section and the next lie within [`CHORD`] of a surface that is straight
    /// both ways: in its middle they miss it by a quarter of its twist.
    fn is_flat(&self, next: &Self, from: usize, to: usize) -> bool {
        (0..2).all(|face| {
            let step = |s: &Self| s.heights[to][face] - s.heights[from][face];
            (step(self) - step(next)).abs() / 4.0 <= CHORD
        })
    }
}

/// The columns, from the middle to the edge, without which some section's chords would miss its faces.
fn kept_columns(sections: &[Section]) -> Vec<usize> {
    let last = sections.first().map_or(0, |s| s.places.len() - 1);
    let holds = |from: usize, to: usize| {
        sections.iter().all(|s| s.is_straight(from, to))
            && sections.windows(2).all(|w| w[0].is_flat(&w[1], from, to))
    };
    let mut kept = vec![0];
    let mut at = 0;
    while at < last {
        // One column is always a step: what it misses, no finer choice of these would better.
        at = (at + 2..=last)
            .take_while(|&to| holds(at, to))
            .last()
            .unwrap_or(at + 1);
        kept.push(at);
    }
    kept
}
