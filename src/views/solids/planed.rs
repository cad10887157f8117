//! Strips as they are once the bottom is bevelled and the top planed for the deck.

use std::ops::Range;

use super::lofted_solid;
use super::strips::strip_name;
use crate::board::Board;
use crate::geometry::curve::Vector;
use crate::geometry::lofted::{Lofted, Slice};
use crate::geometry::mesh::{Mesh, MeshError, triangulate_ring};
use crate::geometry::parallel;
use crate::geometry::polygon;
use crate::rail::{Stack, Strip, slice};
use crate::shape::SkinFace;

/// Chord tolerance of bead and cove, mm.
const TOLERANCE: f64 = 0.004;
/// Corners of a section are no further apart than this, mm, so that a cut finds one nearby.
const CORNER: f64 = 0.6;
/// Longest edge of a strip's section, mm: twice the widest strip and the largest starter that can be entered.
const LONGEST: f64 = 250.0;
/// Planes nearer to each other than this, mm, are one.
const APART: f64 = 0.5;
/// A section with less left than this, mm², ends the strip.
const LEAST: f64 = 1.0;
/// A corner this near to a skin, mm, lies on it.
const ON: f64 = 1e-6;
/// Thickness of the web between pieces that the plane has parted, mm: too little to matter to any fit.
const WEB: f64 = 0.005;

/// The starboard rail's strips as closed solids between the skins' inner faces, in the order of the board's; `None` for one of which
/// nothing is left. Sections stand in the rail's planes.
pub fn planed_strips(board: &Board) -> Result<Vec<Option<Mesh>>, MeshError> {
    parallel::try_map(&board.strips, |s| planed(board, s))
}

fn planed(board: &Board, strip: &Strip) -> Result<Option<Mesh>, MeshError> {
    let mut sections: Vec<Slice> = Vec::new();
    // Every section has the same corners.
    let mut counts: Vec<usize> = Vec::new();
    for &plane in &strip.planes {
        let stack = &board.rail.stacks[plane];
        if sections.last().is_some_and(|s| stack.x - s.x < APART) {
            continue;
        }
        let Some(slice) = slice(stack, strip.course, &board.design.construction) else {
            continue;
        };
        let corners = slice.profile.flatten(TOLERANCE);
        if counts.is_empty() {
            counts = divisions(&corners).ok_or_else(|| MeshError::Far {
                part: strip_name(strip),
                at: [stack.x, slice.frame.origin.x, slice.frame.origin.y],
            })?;
        }
        let corners = divided(&corners, &counts);
        let ring: Vec<Vector<2>> = corners.into_iter().map(|p| slice.frame.plane(p)).collect();
        let rest = between_skins(ring, stack).filter(|r| polygon::area(r) > LEAST);
        match rest {
            Some(ring) => sections.push(Slice { x: stack.x, ring }),
            None if sections.is_empty() => {}
            None => break,
        }
    }
    // Where next to nothing is left, the two lips of a cove and the web between may be no ring that can be closed.
    while sections.last().is_some_and(|s| !closes(s)) {
        sections.pop();
    }
    sections.drain(..sections.iter().position(closes).unwrap_or(0));
    if sections.len() < 2 {
        return Ok(None);
    }
    let body = Lofted {
        name: strip_name(strip),
        slices: sections,
    };
    lofted_solid(&body).map(Some)
}

/// Whether a section can be an end.
fn closes(section: &Slice) -> bool {
    triangulate_ring(&section.ring).is_ok()
}

/// Into how many pieces every edge of the ring is to be divided; `None` where one is longer than [`LONGEST`].
fn divisions(ring: &[Vector<2>]) -> Option<Vec<usize>> {
    let edge = |i: usize| (ring[(i + 1) % ring.len()] - ring[i]).norm();
    (0..ring.len())
        .map(|i| (edge(i) <= LONGEST).then(|| (edge(i) / CORNER).ceil().max(1.0) as usize))
        .collect()
}

/// The ring with its edges divided.
fn divided(ring: &[Vector<2>], counts: &[usize]) -> Vec<Vector<2>> {
    let mut out = Vec::new();
    for (i, (a, &count)) in ring.iter().zip(counts).enumerate() {
        let b = ring[(i + 1) % ring.len()];
        out.extend((0..count).map(|k| a + (b - a) * (k as f64 / count as f64)));
    }
    out
}

fn between_skins(ring: Vec<Vector<2>>, stack: &Stack) -> Option<Vec<Vector<2>>> {
    let ring = cut(ring, &stack.faces[0])?;
    cut(ring, &stack.faces[1])
}

/// What of the ring lies on the hollow's side of a skin, with as many corners as before: those beyond spread along the cut.
///
/// Where the cut leaves several pieces, as it does between the lips of a cove, a web of [`WEB`] joins them, so that sections before and
/// after have the same corners too. A single corner beyond the skin comes to lie in the middle of the cut, which takes a corner of less than
/// half its spacing.
fn cut(ring: Vec<Vector<2>>, face: &SkinFace) -> Option<Vec<Vector<2>>> {
    let n = ring.len();
    let inside: Vec<f64> = ring.iter().map(|p| face.inside(p)).collect();
    let beyond = |i: usize, level: f64| inside[i % n] < level;
    if (0..n).all(|i| beyond(i, ON)) {
        return None;
    }
    let farthest = (0..n).min_by(|&a, &b| inside[a].total_cmp(&inside[b]))?;
    if !beyond(farthest, -ON) {
        return Some(ring);
    }
    let back = (1..n).take_while(|k| beyond(farthest + n - k, -ON)).count();
    let on = (1..n).take_while(|k| beyond(farthest + k, -ON)).count();
    let mut cut = ring.clone();
    spread(
        &ring,
        &inside,
        farthest + n - back,
        back + 1 + on,
        0.0,
        &mut cut,
    );
    // The other pieces beyond, from one end of this one round to the other.
    let others = on + 1..n - back;
    for piece in runs(others.clone(), |k| beyond(farthest + k, WEB)) {
        if piece.start > others.start && piece.end < others.end {
            let first = farthest + piece.start;
            spread(&ring, &inside, first, piece.len(), WEB, &mut cut);
            continue;
        }
        // Too near to this one for a web.
        for part in runs(piece, |k| beyond(farthest + k, -ON)) {
            let first = farthest + part.start;
            spread(&ring, &inside, first, part.len(), 0.0, &mut cut);
        }
    }
    Some(cut)
}

/// The runs of places in `range` for which `holds`.
fn runs(range: Range<usize>, holds: impl Fn(usize) -> bool) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    for k in range.filter(|k| holds(*k)) {
        match out.last_mut().filter(|run| run.end == k) {
            Some(run) => run.end += 1,
            None => out.push(k..k + 1),
        }
    }
    out
}

/// Spreads `count` corners from `first` along the line where `inside` is `level`.
fn spread(
    ring: &[Vector<2>],
    inside: &[f64],
    first: usize,
    count: usize,
    level: f64,
    cut: &mut [Vector<2>],
) {
    let n = ring.len();
    let crossing = |within: usize, out: usize| {
        let (a, b) = (inside[within % n] - level, inside[out % n] - level);
        let share = if a > b {
            (a / (a - b)).clamp(0.0, 1.0)
        } else {
            0.0
        };
        ring[within % n] + (ring[out % n] - ring[within % n]) * share
    };
    let (from, to) = (
        crossing(first + n - 1, first),
        crossing(first + count, first + count - 1),
    );
    for k in 0..count {
        let share = if count == 1 {
            0.5
        } else {
            k as f64 / (count - 1) as f64
        };
        cut[(first + k) % n] = from + (to - from) * share;
    }
}
