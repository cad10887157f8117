//! Skins as bodies in place.

use crate::board::Board;
use crate::geometry::curve::Vector;
use crate::geometry::lofted::{Lofted, Slice};
use crate::geometry::parallel;
use crate::shape::ShellError;
use crate::shape::{SkinFace, at_depth};

/// Greatest distance of columns, mm: on the tightest bend a skin takes by default, 120 mm, their chords miss it by 0.01 mm.
const COLUMN: f64 = 3.0;
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
        let slices = parallel::map(&cuts, |cut| {
            let at = |depth| at_depth(cut, c, bottom, depth, ACCURACY);
            let (outer, inner) = (at(0.0)?, at(thickness)?);
            let edge = board.shell.half_width(cut.x);
            let faces = if bottom {
                [outer, inner]
            } else {
                [inner, outer]
            };
            Some(ring(cut.x, edge, &faces, columns))
        });
        Lofted {
            name: name.into(),
            slices: slices.into_iter().flatten().collect(),
        }
    };
    Ok([
        body("bottom-skin", true, c.bottom_skin),
        body("deck-skin", false, c.deck_skin),
    ])
}

/// A section between two faces out to `edge` on either side: along the lower to starboard, back along the upper. Where the faces, straight on from
/// their lands, would cross short of the edge, the skin runs out to [`FEATHER`].
fn ring(x: f64, edge: f64, [low, high]: &[SkinFace; 2], half: usize) -> Slice {
    let across = |height: &dyn Fn(f64) -> f64| -> Vec<Vector<2>> {
        let places = (0..=half).map(|i| edge * i as f64 / half as f64);
        let starboard = places.map(|y| Vector::<2>::new(y, height(y)));
        let starboard: Vec<Vector<2>> = starboard.collect();
        let port = starboard.iter().skip(1).rev();
        let port = port.map(|p| Vector::<2>::new(-p.x, p.y));
        port.chain(starboard.iter().copied()).collect()
    };
    let upper = |y: f64| high.height(y).max(low.height(y) + FEATHER);
    let mut ring = across(&|y| low.height(y));
    ring.extend(across(&upper).into_iter().rev());
    Slice { x, ring }
}
