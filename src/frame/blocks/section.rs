//! A block's section in a plane of constant x.

use crate::design::Construction;
use crate::geometry::curve::{BSpline, Vector, polyline};
use crate::geometry::solve::bisect;
use crate::shape::{Shell, SkinFace, at_depth};

/// How closely, mm, the skins' inner faces are followed.
const FOLLOWED: f64 = 1e-4;
/// Pieces along either skin, and along the finished surface between them.
const SKIN_PIECES: usize = 32;
const SIDE_PIECES: usize = 48;
/// Points of the finished surface between which the skins' edges are sought.
const PROBES: usize = 96;
/// Least height of the hollow at the inner end of the section, mm.
const LOWEST: f64 = 0.3;

/// Half a block's section (y, z): along the bottom skin outboard, up the finished surface, along the deck skin inboard. Always
/// equally many points.
pub(super) fn half(shell: &Shell, c: &Construction, x: f64) -> Option<Vec<Vector<2>>> {
    let cut = shell.cut(x).ok()?;
    let bottom = at_depth(&cut, c, true, c.bottom_skin, FOLLOWED)?;
    let deck = at_depth(&cut, c, false, c.deck_skin, FOLLOWED)?;
    let inner = flat(&cut.section, 0.0).x.max(0.0);
    if deck.height(inner) - bottom.height(inner) < LOWEST {
        return None;
    }
    let side = side(&cut.section, &bottom, &deck, inner)?;
    let (first, last) = (side.first()?, side.last()?);
    let mut ring = Vec::with_capacity(2 * SKIN_PIECES + SIDE_PIECES + 1);
    let along = |face: &SkinFace, end: f64, k: usize| {
        let y = inner + (end - inner) * k as f64 / SKIN_PIECES as f64;
        Vector::<2>::new(y, face.height(y))
    };
    ring.extend((0..SKIN_PIECES).map(|k| along(&bottom, first.x, k)));
    ring.extend_from_slice(&side);
    ring.extend((0..SKIN_PIECES).rev().map(|k| along(&deck, last.x, k)));
    let finite = ring.iter().all(|p| p.iter().all(|c| c.is_finite()));
    // Wood everywhere between the skins, not only at the inner end.
    (finite && first.x > inner && open(&ring)).then_some(ring)
}

/// Whether a half section is open: the deck skin above the bottom skin wherever both are.
pub(super) fn open(half: &[Vector<2>]) -> bool {
    let (bottom, rest) = half.split_at(SKIN_PIECES.min(half.len()));
    let deck: Vec<_> = rest.iter().rev().take(SKIN_PIECES).copied().collect();
    bottom
        .iter()
        .all(|p| polyline::height(&deck, p.x).is_none_or(|z| z > p.y))
        && deck
            .iter()
            .all(|p| polyline::height(bottom, p.x).is_none_or(|z| z < p.y))
}

/// Half the whole finished section, for the last millimetres of a tip.
pub(super) fn whole(shell: &Shell, x: f64) -> Option<Vec<Vector<2>>> {
    let section = shell.section(x).ok()?;
    let at = |k: usize| flat(&section, k as f64 / PROBES as f64);
    Some((0..=PROBES).map(at).collect())
}

fn flat(section: &BSpline<3>, v: f64) -> Vector<2> {
    let p = section.point(v);
    Vector::<2>::new(p.y, p.z)
}

/// The finished surface between the skins' inner faces; where these meet inside it, that place again and again.
fn side(
    section: &BSpline<3>,
    bottom: &SkinFace,
    deck: &SkinFace,
    inner: f64,
) -> Option<Vec<Vector<2>>> {
    let at = |k: usize| {
        let v = bottom.land_v + (deck.land_v - bottom.land_v) * k as f64 / PROBES as f64;
        (v, flat(section, v))
    };
    let over_bottom = |v: f64| bottom.inside(&flat(section, v));
    let under_deck = |v: f64| deck.inside(&flat(section, v));
    let first = (1..=PROBES).find(|&k| bottom.inside(&at(k).1) >= 0.0);
    let last = (0..PROBES).rev().find(|&k| deck.inside(&at(k).1) >= 0.0);
    if let (Some(first), Some(last)) = (first, last) {
        let from = crossing(at(first - 1).0, at(first).0, over_bottom);
        let to = crossing(at(last + 1).0, at(last).0, under_deck);
        if from < to {
            return Some(even(section, from, to));
        }
    }
    // The faces meet inboard of the surface.
    let room = |y: f64| deck.height(y) - bottom.height(y);
    let reach = flat(section, (bottom.land_v + deck.land_v) / 2.0)
        .x
        .max(bottom.land.x);
    if room(reach) > 0.0 {
        return None;
    }
    let [open, _] = bisect(inner, reach, 50, |y| room(y) > 0.0);
    Some(vec![
        Vector::<2>::new(open, bottom.height(open));
        SIDE_PIECES + 1
    ])
}

/// Where `f` turns from negative at `outside` to not negative at `inside`, by bisection.
fn crossing(outside: f64, inside: f64, f: impl Fn(f64) -> f64) -> f64 {
    if f(outside) >= 0.0 {
        return outside;
    }
    bisect(outside, inside, 50, |v| f(v) < 0.0)[1]
}

/// Points of the section from `from` to `to`, evenly spaced along it.
fn even(section: &BSpline<3>, from: f64, to: f64) -> Vec<Vector<2>> {
    const FINE: usize = 4 * SIDE_PIECES;
    let points: Vec<Vector<2>> = (0..=FINE)
        .map(|k| flat(section, from + (to - from) * k as f64 / FINE as f64))
        .collect();
    let mut along = vec![0.0];
    for w in points.windows(2) {
        along.push(along[along.len() - 1] + (w[1] - w[0]).norm());
    }
    let total = along[FINE];
    (0..=SIDE_PIECES)
        .map(|k| {
            let want = total * k as f64 / SIDE_PIECES as f64;
            let next = along.partition_point(|s| *s < want).clamp(1, FINE);
            let span = along[next] - along[next - 1];
            let t = if span > 0.0 {
                (want - along[next - 1]) / span
            } else {
                0.0
            };
            let share = (next as f64 - 1.0 + t) / FINE as f64;
            flat(section, from + (to - from) * share)
        })
        .collect()
}
