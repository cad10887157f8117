//! The finished board shared out between skins, rail and what lies between, by sections in planes of constant x.

use super::Region;
use crate::design::Construction;
use crate::geometry::curve::{BSpline, Vector};
use crate::geometry::parallel;
use crate::geometry::polygon;
use crate::rail::{CourseKind, Rail, Stack, slices};
use crate::shape::{Shell, ShellError, SkinFace, at_depth};

/// One plane's areas, both sides of the board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Share {
    /// Place, mm from the tail.
    pub x: f64,
    /// The whole section.
    pub whole: Region,
    /// Under the bottom skin's inner face.
    pub bottom: Region,
    /// Over the deck skin's inner face.
    pub deck: Region,
    /// Between the skins' inner faces.
    pub inner: Region,
    /// What is left of the rail's strips when they are planed to the finished surface, by kind.
    pub rail: [Region; 3],
}

/// The finished board by volumes, both sides.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shares {
    /// The whole.
    pub whole: Region,
    /// Bottom skin.
    pub bottom: Region,
    /// Deck skin.
    pub deck: Region,
    /// Rail by kind: starters, bead-only, bead-and-cove.
    pub rail: [Region; 3],
    /// Between the skins from the tail's end to the tail block's face, and from the nose block's face to the nose.
    pub ends: [Region; 2],
    /// Between the skins from block to block, rail included.
    pub middle: Region,
}

/// Planes of the rail nearer to each other than this are passed over, mm: strips change slowly along the board.
const APART: f64 = 18.0;
/// Planes in a block.
const IN_BLOCK: usize = 14;
/// Greatest distance of a section's polygon from it, mm.
const SAGITTA: f64 = 0.004;
/// Most halvings of a knot span.
const HALVINGS: u32 = 7;
/// Greatest distance of a strip's polygon from its arcs, mm.
const TOLERANCE: f64 = 0.02;
/// How closely inner faces are followed, mm.
const ACCURACY: f64 = 0.01;
/// Distance of points taken on an inner face, mm.
const STEP: f64 = 8.0;
/// Farther than any board reaches, mm.
const FAR: f64 = 3000.0;

/// Shares out the finished board by the trapezium rule over planes some 20 mm apart, closer in the blocks.
///
/// # Errors
///
/// [`ShellError`] where a section cannot be taken.
pub fn shares(shell: &Shell, c: &Construction, rail: &Rail) -> Result<Shares, ShellError> {
    let (tail, nose) = shell.x_range();
    let mut planes: Vec<(f64, Option<&Stack>)> = Vec::new();
    for stack in &rail.stacks {
        if planes.last().is_none_or(|p| stack.x - p.0 >= APART) {
            planes.push((stack.x, Some(stack)));
        }
    }
    // The hollow ends where the blocks begin.
    if let Some(last) = rail.stacks.last() {
        planes.retain(|p| p.0 <= last.x - APART / 2.0);
        planes.push((last.x, Some(last)));
    }
    // Where the rail begins and ends, which is at the blocks unless the board is too thin there to be hollow.
    let faces = match (planes.first(), planes.last()) {
        (Some(first), Some(last)) => [first.0, last.0],
        _ => [(tail + nose) / 2.0; 2],
    };
    // In a block, planes close up towards the end, where a board rounds off.
    let inside = |face: f64, end: f64| {
        (0..=IN_BLOCK).map(move |k| {
            let t = k as f64 / IN_BLOCK as f64;
            face + (end - face) * (std::f64::consts::FRAC_PI_2 * t).sin()
        })
    };
    let [mut aft, fore] = [(faces[0], tail), (faces[1], nose)]
        .map(|(face, end)| inside(face, end).map(|x| (x, None)).collect::<Vec<_>>());
    aft.reverse();
    let runs = [aft.len(), planes.len()];
    let all = [aft, planes, fore].concat();
    let all = parallel::try_map(&all, |(x, stack)| share(shell, c, *x, *stack))?;
    let (aft, rest) = all.split_at(runs[0]);
    let (strip, fore) = rest.split_at(runs[1]);
    let [aft, middle, fore] = [aft, strip, fore].map(sum);
    let mut all = Shares {
        rail: middle.rail,
        ends: [aft.inner, fore.inner],
        middle: middle.inner,
        ..Shares::default()
    };
    for part in [aft, middle, fore] {
        all.whole += part.whole;
        all.bottom += part.bottom;
        all.deck += part.deck;
    }
    Ok(all)
}

/// The trapezium rule over planes of rising x.
fn sum(run: &[Share]) -> Share {
    let mut total = Share::default();
    for (i, s) in run.iter().enumerate() {
        let before = if i > 0 { s.x - run[i - 1].x } else { 0.0 };
        let after = run.get(i + 1).map_or(0.0, |n| n.x - s.x);
        let weight = (before + after) / 2.0;
        total.whole += s.whole.slice(s.x, weight);
        total.bottom += s.bottom.slice(s.x, weight);
        total.deck += s.deck.slice(s.x, weight);
        total.inner += s.inner.slice(s.x, weight);
        for (t, r) in total.rail.iter_mut().zip(s.rail) {
            *t += r.slice(s.x, weight);
        }
    }
    total
}

fn share(
    shell: &Shell,
    c: &Construction,
    x: f64,
    stack: Option<&Stack>,
) -> Result<Share, ShellError> {
    let cut = shell.cut(x)?;
    let outline = outline(&cut.section);
    let whole = Region::of_polygon(&outline);
    let face = |bottom: bool| {
        let depth = if bottom { c.bottom_skin } else { c.deck_skin };
        at_depth(&cut, c, bottom, depth, ACCURACY)
    };
    let own = match stack {
        Some(_) => None,
        None => face(true).zip(face(false)),
    };
    let pair = match (stack, &own) {
        (Some(stack), _) => Some((&stack.faces[0], &stack.faces[1])),
        (None, Some((bottom, deck))) => Some((bottom, deck)),
        (None, None) => None,
    };
    // Too thin for skins: the block comes to the surface.
    let Some((bottom, deck)) = pair else {
        return Ok(Share {
            x,
            whole: whole.times(2.0),
            inner: whole.times(2.0),
            ..Share::default()
        });
    };
    let above = polygon::intersection(&outline, &side(bottom, FAR)).unwrap_or_default();
    let between = polygon::intersection(&above, &side(deck, -FAR)).unwrap_or_default();
    let (over_bottom, inner) = (Region::of_polygon(&above), Region::of_polygon(&between));
    let mut rail = [Region::default(); 3];
    if let Some(stack) = stack {
        for slice in slices(stack, c) {
            let planed = slice.planed(stack, TOLERANCE);
            let wood = polygon::intersection(&planed, &outline).unwrap_or_default();
            rail[slot(slice.kind)] += Region::of_polygon(&wood).times(2.0);
        }
    }
    Ok(Share {
        x,
        whole: whole.times(2.0),
        bottom: whole.less(over_bottom).times(2.0),
        deck: over_bottom.less(inner).times(2.0),
        inner: inner.times(2.0),
        rail,
    })
}

/// Place of a kind in [`Share::rail`].
pub(super) fn slot(kind: CourseKind) -> usize {
    match kind {
        CourseKind::Starter => 0,
        CourseKind::BeadOnly => 1,
        CourseKind::BeadAndCove => 2,
    }
}

/// Half a section, closed on its inner end, as a polygon in (y, z) within [`SAGITTA`] of it.
fn outline(section: &BSpline<3>) -> Vec<Vector<2>> {
    let at = |v: f64| {
        let p = section.point(v);
        Vector::<2>::new(p.y, p.z)
    };
    let mut out = vec![at(section.domain().0)];
    for w in section.knots().breaks().windows(2) {
        // Halves first, so that a span with a turning point in its middle is not taken for straight.
        let middle = (w[0] + w[1]) / 2.0;
        for (from, to) in [(w[0], middle), (middle, w[1])] {
            halve(&at, (from, at(from)), (to, at(to)), HALVINGS, &mut out);
        }
    }
    out
}

/// Adds the points after `from` up to `to`.
fn halve(
    at: &impl Fn(f64) -> Vector<2>,
    from: (f64, Vector<2>),
    to: (f64, Vector<2>),
    levels: u32,
    out: &mut Vec<Vector<2>>,
) {
    let v = (from.0 + to.0) / 2.0;
    let middle = at(v);
    let chord = to.1 - from.1;
    let off = (middle - from.1).perp(&chord).abs();
    if levels == 0 || off <= SAGITTA * chord.norm() {
        out.push(to.1);
        return;
    }
    halve(at, from, (v, middle), levels - 1, out);
    halve(at, (v, middle), to, levels - 1, out);
}

/// All that lies on one side of an inner face, as far as `far` up (or down).
fn side(face: &SkinFace, far: f64) -> Vec<Vector<2>> {
    let mut line = face.line.places(STEP);
    // From the centre outward.
    if line
        .first()
        .zip(line.last())
        .is_some_and(|(a, b)| a.x > b.x)
    {
        line.reverse();
    }
    if let Some(first) = line.first().copied() {
        line.insert(0, Vector::<2>::new(-1.0, first.y));
    }
    let out = face.land + face.outboard * (FAR / 3.0);
    line.extend([
        face.land,
        out,
        Vector::<2>::new(out.x, out.y + far),
        Vector::<2>::new(-1.0, far),
    ]);
    line
}
