//! A pad fitted into the hollow.

use super::room::{BELOW, Room, across, x_range, y_range};
use super::{FittingKind, Pad, PadPiece, PlacedFitting};
use crate::design::Through;
use crate::geometry::curve::Vector;
use crate::geometry::curve::polyline::height_on;
use crate::geometry::lofted::{Lofted, Slice};
use crate::geometry::path::{Path, Point};

/// Greatest distance of the planes a pad is drawn through, mm.
const STEP: f64 = 4.0;
/// Pieces across a pad between points on the skin, and of its ends.
const PIECES: usize = 16;
/// Thinnest pad, mm: one thinner splits (common practice, no published source).
const THINNEST: f64 = 5.0;
/// Narrowest and shortest piece worth fitting, mm.
const SMALLEST: f64 = 3.0;

/// The pad of a fitting; `None` where nothing of it fits.
pub(super) fn pad(room: &Room<'_>, fitting: &PlacedFitting) -> Option<Pad> {
    let margin = margin(room, fitting.kind);
    let rectangle = widened(&fitting.shadow, margin);
    let thickness = thickness(room, fitting);
    let flat = Flat::new(room, fitting.through, &rectangle, thickness)?;
    let mut pieces = Vec::new();
    // A cut-out beside the spine needs no wood beyond it.
    let half = room.construction().spine / 2.0;
    let [low, high] = y_range(&fitting.shadow);
    let sides = [(1.0, high > half), (-1.0, low < -half)];
    for (side, _) in sides.into_iter().filter(|s| s.1) {
        // Port is worked out in the mirror.
        let corners = rectangle.map(|p| Vector::<2>::new(p.x, side * p.y));
        for bay in room.bays() {
            for slices in runs(room, &corners, bay, fitting.through, &flat, side) {
                let name = format!("pad-{}-{}", fitting.name, pieces.len() + 1);
                let body = Lofted { name, slices };
                let body = if side < 0.0 {
                    body.mirrored(body.name.clone())
                } else {
                    body
                };
                pieces.push(PadPiece {
                    outline: outline(&body),
                    body,
                });
            }
        }
    }
    let [a, b, c, _] = rectangle;
    (!pieces.is_empty()).then(|| Pad {
        rectangle,
        size: [(b - a).norm(), (c - b).norm()],
        thickness,
        stock: flat.stock,
        pieces,
    })
}

/// Width of the pad all round the cut-outs, mm.
pub(super) fn margin(room: &Room<'_>, kind: FittingKind) -> f64 {
    let of = |hole: &Option<crate::design::Hole>| hole.map_or(0.0, |h| h.margin);
    match kind {
        FittingKind::Fin => room.design.fins.margin,
        FittingKind::Plug => of(&room.design.plug),
        FittingKind::Vent => of(&room.design.vent),
    }
}

/// Wood asked for beyond the cut-outs, mm.
pub(super) fn floor(room: &Room<'_>, kind: FittingKind) -> f64 {
    match kind {
        FittingKind::Fin => room.design.fins.floor,
        FittingKind::Plug => room.design.plug.map_or(0.0, |h| h.floor),
        FittingKind::Vent => 0.0,
    }
}

/// Depth to which wood is cut, a leaning fin's corner included, mm.
pub(super) fn reach(fitting: &PlacedFitting) -> f64 {
    let [a, _, _, d] = fitting.shadow;
    let (s, c) = fitting.cant.sin_cos();
    let width = (d - a).norm() - fitting.depth * s;
    fitting.depth * c + width / 2.0 * s
}

/// Thickness of the skin a fitting is let into, mm.
pub(super) fn skin(room: &Room<'_>, through: Through) -> f64 {
    match through {
        Through::Bottom => room.construction().bottom_skin,
        Through::Deck => room.construction().deck_skin,
    }
}

/// Least thickness of a fitting's pad, mm.
pub(super) fn thickness(room: &Room<'_>, fitting: &PlacedFitting) -> f64 {
    let under = reach(fitting) - skin(room, fitting.through) + floor(room, fitting.kind);
    under.max(THINNEST)
}

/// A rectangle grown on all sides.
fn widened(corners: &[Vector<2>; 4], by: f64) -> [Vector<2>; 4] {
    let [a, b, _, d] = *corners;
    let (along, out) = ((b - a).normalize() * by, (d - a).normalize() * by);
    let signs = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let mut widened = *corners;
    for (p, (s, t)) in widened.iter_mut().zip(signs) {
        *p += along * s + out * t;
    }
    widened
}

/// The pad's flat face.
struct Flat {
    at: [f64; 2],
    height: f64,
    slope: [f64; 2],
    stock: f64,
}

impl Flat {
    /// The plane along the skin at the pad's middle, raised until the pad is nowhere thinner than `thickness`.
    fn new(
        room: &Room<'_>,
        through: Through,
        rectangle: &[Vector<2>; 4],
        thickness: f64,
    ) -> Option<Self> {
        const STEPS: usize = 6;
        let ([from, to], [low, high]) = (x_range(rectangle), y_range(rectangle));
        let [hollow_from, hollow_to] = room.hollow();
        let (from, to) = (from.max(hollow_from), to.min(hollow_to));
        if to <= from {
            return None;
        }
        let index = usize::from(through == Through::Deck);
        let mut points: Vec<[f64; 3]> = Vec::new();
        for i in 0..=STEPS {
            let x = from + (to - from) * i as f64 / STEPS as f64;
            let plane = room.plane(x)?;
            for j in 0..=STEPS {
                let y = low + (high - low) * j as f64 / STEPS as f64;
                points.push([x, y, plane.heights(y).get(index).copied()?]);
            }
        }
        let n = points.len() as f64;
        let mean = |k: usize| points.iter().filter_map(|p| p.get(k)).sum::<f64>() / n;
        let at = [mean(0), mean(1)];
        let level = mean(2);
        // The grid is rectangular, so that each slope is a regression of its own.
        let slope = [0, 1].map(|k| {
            let (mut up, mut down) = (0.0, 0.0);
            for p in &points {
                let (Some(c), Some(m)) = (p.get(k), at.get(k)) else {
                    continue;
                };
                up += (c - m) * (p[2] - level);
                down += (c - m).powi(2);
            }
            if down > 0.0 { up / down } else { 0.0 }
        });
        let lean = slope[0].hypot(slope[1]).hypot(1.0);
        let sign = if through == Through::Bottom {
            1.0
        } else {
            -1.0
        };
        let off = |p: &[f64; 3]| {
            sign * (p[2] - level - slope[0] * (p[0] - at[0]) - slope[1] * (p[1] - at[1]))
        };
        let offs = || points.iter().map(off);
        let highest = offs().fold(f64::NEG_INFINITY, f64::max);
        let lowest = offs().fold(f64::INFINITY, f64::min);
        Some(Self {
            at,
            height: level + sign * (highest + thickness * lean),
            slope,
            stock: thickness + (highest - lowest) / lean,
        })
    }

    fn height(&self, x: f64, y: f64) -> f64 {
        self.height + self.slope[0] * (x - self.at[0]) + self.slope[1] * (y - self.at[1])
    }
}

/// Slices of the pieces of one bay on one side of the spine; `corners` are mirrored for port.
fn runs(
    room: &Room<'_>,
    corners: &[Vector<2>; 4],
    bay: [f64; 2],
    through: Through,
    flat: &Flat,
    side: f64,
) -> Vec<Vec<Slice>> {
    let spine = room.construction().spine / 2.0;
    let [low, high] = x_range(corners);
    let (from, to) = (low.max(bay[0]), high.min(bay[1]));
    if to - from < SMALLEST {
        return Vec::new();
    }
    let mut stops = vec![from, to];
    let mut ends: Vec<f64> = corners.iter().map(|p| p.x).collect();
    ends.sort_by(f64::total_cmp);
    // From corner to corner of a turned end the whole width comes in, over a few millimetres.
    for w in ends.windows(2) {
        stops.extend((0..=PIECES).map(|k| w[0] + (w[1] - w[0]) * k as f64 / PIECES as f64));
    }
    // Where a side of the rectangle crosses the spine's face.
    let next = corners.iter().cycle().skip(1);
    stops.extend(
        corners
            .iter()
            .zip(next)
            .filter(|(a, b)| (a.y - spine) * (b.y - spine) < 0.0)
            .map(|(a, b)| height_on(a.yx(), b.yx(), spine)),
    );
    let count = ((to - from) / STEP).ceil() as usize;
    stops.extend((1..count).map(|k| from + (to - from) * k as f64 / count as f64));
    stops.retain(|x| (from..=to).contains(x));
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| (*a - *b).abs() < 1e-3);
    let mut runs = vec![Vec::new()];
    for x in stops {
        match slice(room, corners, x, through, flat, side) {
            Some(slice) => {
                if let Some(run) = runs.last_mut() {
                    run.push(slice);
                }
            }
            None => runs.push(Vec::new()),
        }
    }
    runs.retain(|run: &Vec<Slice>| {
        let width = |s: &Slice| {
            let [low, high] = {
                let ys = s.ring.iter().map(|p| p.x);
                ys.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], y| {
                    [l.min(y), h.max(y)]
                })
            };
            high - low
        };
        let long = match (run.first(), run.last()) {
            (Some(a), Some(b)) => b.x - a.x >= SMALLEST,
            _ => false,
        };
        long && run.iter().any(|s| width(s) >= SMALLEST)
    });
    runs
}

fn slice(
    room: &Room<'_>,
    corners: &[Vector<2>; 4],
    x: f64,
    through: Through,
    flat: &Flat,
    side: f64,
) -> Option<Slice> {
    let [inner, outer] = across(corners, x)?;
    let inner = inner.max(room.construction().spine / 2.0);
    if outer < inner {
        return None;
    }
    let plane = room.plane(x)?;
    let faces = |y: f64| {
        let [bottom, deck] = plane.heights(y);
        let flat = flat.height(x, side * y);
        match through {
            Through::Bottom => [bottom, flat.min(deck)],
            Through::Deck => [flat.max(bottom), deck],
        }
    };
    let [low, high] = faces(inner);
    let [outer_low, outer_high] = faces(outer);
    let outer = room
        .strips(x, low.min(outer_low) - BELOW, high.max(outer_high) + BELOW)
        .map_or(outer, |limit| outer.min(limit));
    if outer < inner {
        return None;
    }
    let at = |k: usize| inner + (outer - inner) * k as f64 / PIECES as f64;
    let mut ring: Vec<Vector<2>> = Vec::with_capacity(2 * PIECES + 2);
    for k in 0..=PIECES {
        ring.push(Vector::<2>::new(at(k), faces(at(k))[0]));
    }
    for k in (0..=PIECES).rev() {
        let [low, high] = faces(at(k));
        // The hollow may be lower than nothing where the skins meet.
        ring.push(Vector::<2>::new(at(k), high.max(low)));
    }
    ring.iter()
        .all(|p| p.iter().all(|c| c.is_finite()))
        .then_some(Slice { x, ring })
}

/// A piece's contour seen from above.
fn outline(body: &Lofted) -> Path {
    let mut out = Vec::new();
    let mut back = Vec::new();
    for s in &body.slices {
        let [low, high] = {
            let ys = s.ring.iter().map(|p| p.x);
            ys.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], y| {
                [l.min(y), h.max(y)]
            })
        };
        out.push(Point::new(s.x, low));
        back.push(Point::new(s.x, high));
    }
    back.reverse();
    out.extend(back);
    Path::polyline(&straightened(&out), true)
}

/// A ring with no more corners than keep it within 0.01 mm.
fn straightened(ring: &[Point]) -> Vec<Point> {
    const OFF: f64 = 0.01;
    let mut points = ring.to_vec();
    points.dedup_by(|a, b| (*a - *b).norm() < 1e-3);
    while points.len() > 3
        && points
            .first()
            .zip(points.last())
            .is_some_and(|(a, b)| (a - b).norm() < 1e-3)
    {
        points.pop();
    }
    let straight = |from: usize, to: usize| {
        let (Some(a), Some(b)) = (points.get(from), points.get(to)) else {
            return false;
        };
        let chord = (b - a).normalize();
        points.get(from + 1..to).unwrap_or(&[]).iter().all(|p| {
            let d = p - a;
            chord.perp(&d).abs() <= OFF && d.dot(&chord) >= 0.0 && (b - p).dot(&chord) >= 0.0
        })
    };
    let mut kept = Vec::new();
    let mut here = 0;
    while let Some(p) = points.get(here) {
        kept.push(*p);
        let mut next = here + 1;
        while next + 1 < points.len() && straight(here, next + 1) {
            next += 1;
        }
        here = next;
    }
    kept
}
