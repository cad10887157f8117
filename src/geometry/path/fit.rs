//! Lines and arcs that follow a planar curve within a tolerance.

use super::arc::{self, biarc};
use super::distance::Placed;
use super::segment::ours;
use super::{Path, Point, Primitive, Segment};
use crate::geometry::curve::{BSpline, CurveError};
use lyon_geom::CubicBezierSegment;

/// Points at which a pair of arcs is compared with its piece of curve.
const SAMPLES: usize = 48;

/// What the measured deviation may use of the tolerance; the rest is for what lies between the samples.
const SHARE: f64 = 0.95;

/// An arc with less rise than this share of the tolerance becomes a line.
const FLAT: f64 = 0.01;

/// An arc that rises less than this, mm, becomes a line where the tolerance has room for it: no machine shows half a micrometre, and some
/// controllers refuse radii of kilometres.
const STRAIGHT: f64 = 5e-4;

/// The rise, mm, below which an arc becomes a line.
fn flat(tolerance: f64) -> f64 {
    (FLAT * tolerance).max(STRAIGHT.min(0.1 * tolerance))
}

/// Ratios of the tangent lengths that are tried: even ones first, which are best on spirals, then those that suit a fast
/// change of curvature within a piece.
const RATIOS: [f64; 5] = [1.0, 0.7, 1.4, 0.5, 2.0];

/// Lines and arcs along a planar curve, never more than `tolerance` mm from it.
///
/// `f` gives the point and a tangent of any length at parameters from `a` to `b`. Biarcs that share the curve's points and
/// tangents, each as long as the tolerance allows (bisection; Meek & Walton, *Approximating smooth planar curves by arc
/// splines*, 1995), so neighbouring pieces are tangent, except that arcs rising less than 1 % of the tolerance above their
/// chord, or less than 0.5 µm where that is within 10 % of it, become lines. The deviation is measured at 48 points a biarc and held below 95 % of the tolerance there.
///
/// # Errors
/// [`CurveError::Tolerance`]; [`CurveError::NotFinite`] when `f` gives such a point; [`CurveError::NotReached`] when the curve
/// jumps.
pub fn arcs_along(
    f: impl Fn(f64) -> (Point, Point),
    a: f64,
    b: f64,
    tolerance: f64,
) -> Result<Path, CurveError> {
    check(tolerance)?;
    let state = |u: f64| {
        let (point, tangent) = f(u);
        let tangent = tangent.try_normalize(0.0).or_else(|| {
            // Standing still: look a little way ahead, at the end back.
            let step = (b - a) * if (u - a) / (b - a) < 0.5 { 1e-6 } else { -1e-6 };
            ((f(u + step).0 - point) * step.signum() * (b - a).signum()).try_normalize(0.0)
        });
        (point, tangent.unwrap_or_else(|| Point::new(1.0, 0.0)))
    };
    let attempt = |u: f64, v: f64| {
        let ((p, s), (q, t)) = (state(u), state(v));
        let samples = (1..SAMPLES).map(|i| f(u + (v - u) * i as f64 / SAMPLES as f64).0);
        follow((p, s), (q, t), samples, tolerance)
    };
    let start = f(a).0;
    if !start.iter().chain(f(b).0.iter()).all(|c| c.is_finite()) {
        return Err(CurveError::NotFinite(0));
    }
    let mut pieces: Vec<Segment> = Vec::new();
    let (mut u, mut step) = (a, (b - a) / 16.0);
    while u != b {
        let from = pieces.last().map_or(start, Segment::to);
        let (v, found) = longest(u, b, step, &attempt).ok_or(CurveError::NotReached {
            tolerance,
            reached: (f(u + (b - a) * 1e-9).0 - from).norm(),
        })?;
        pieces.extend(found);
        (u, step) = (v, v - u);
    }
    Ok(joined(start, pieces, tolerance))
}

/// The longest piece from `u` on that `attempt` can follow, by doubling and bisection.
fn longest<T>(
    u: f64,
    b: f64,
    step: f64,
    attempt: &impl Fn(f64, f64) -> Option<T>,
) -> Option<(f64, T)> {
    let ahead = |step: f64| {
        if (b - u).abs() <= step.abs() {
            b
        } else {
            u + step
        }
    };
    let mut step = step;
    let mut best = None;
    let mut fails = b;
    // Shrink until something fits, else grow until nothing does.
    for _ in 0..60 {
        let v = ahead(step);
        if v == u {
            break;
        }
        match attempt(u, v) {
            Some(found) => {
                let done = v == b;
                best = Some((v, found));
                if done {
                    return best;
                }
                if fails != b {
                    break;
                }
                step *= 2.0;
            }
            None => {
                fails = v;
                if best.is_some() {
                    break;
                }
                step *= 0.5;
            }
        }
    }
    let (mut v, mut found) = best?;
    for _ in 0..10 {
        let mid = 0.5 * (v + fails);
        match attempt(u, mid) {
            Some(better) => (v, found) = (mid, better),
            None => fails = mid,
        }
    }
    Some((v, found))
}

/// A biarc between two states that stays near the samples between them, if one does.
fn follow(
    start: (Point, Point),
    end: (Point, Point),
    samples: impl Iterator<Item = Point>,
    tolerance: f64,
) -> Option<[Segment; 2]> {
    let samples: Vec<_> = samples.collect();
    // How far they lead from start to end.
    let (walked, last) = samples.iter().fold((0.0, start.0), |(sum, last), p| {
        (sum + (p - last).norm(), *p)
    });
    let walked = walked + (end.0 - last).norm();
    RATIOS.iter().find_map(|&ratio| {
        let pair = biarc(start, end, ratio)?;
        near(start.0, pair, &samples, walked, tolerance)
    })
}

/// Samples looked at first.
const SCOUTS: usize = 8;

/// The pair of arcs, slight ones straightened, if it stays near the samples and leads no longer way than they do.
fn near(
    p: Point,
    [first, second]: [Segment; 2],
    samples: &[Point],
    walked: f64,
    tolerance: f64,
) -> Option<[Segment; 2]> {
    let joint = first.to();
    let first = straightened(first, p, flat(tolerance));
    let second = straightened(second, joint, flat(tolerance));
    let placed = [Placed::new(p, &first), Placed::new(joint, &second)];
    // NaN is not near.
    let holds = |sample: &Point| {
        placed
            .iter()
            .any(|arc| arc.distance(*sample) < SHARE * tolerance)
    };
    // A pair that fails mostly does so all over: a few samples spread wide tell it.
    let mut scouts = samples.iter().step_by(samples.len() / SCOUTS + 1);
    if !(scouts.all(holds) && samples.iter().all(holds)) {
        return None;
    }
    // An arc the long way round passes near all samples too, but it is longer.
    let length = |from, piece: &Segment| arc::length(from, piece.to(), piece.bulge());
    let arcs = length(p, &first) + length(joint, &second);
    let turn = 4.0 * (first.bulge().atan().abs() + second.bulge().atan().abs());
    let strays = turn > SHARP && stray([(p, first), (joint, second)], samples, tolerance);
    (arcs <= 1.05 * walked + tolerance && !strays).then_some([first, second])
}

/// A pair of arcs that turns by more than this, radians, is looked at from its side too: where the curve all but stops and turns, each
/// sample may lie near an arc that swings out beyond them.
const SHARP: f64 = std::f64::consts::FRAC_PI_2;

/// Whether points along the arcs lie farther than `tolerance` from the curve through the samples, as far as these show it: a curve
/// rises over the chord of two samples by about an eighth of their second difference.
fn stray(arcs: [(Point, Segment); 2], samples: &[Point], tolerance: f64) -> bool {
    const PROBES: usize = 12;
    let rises: Vec<f64> = samples
        .windows(3)
        .map(|w| (w[0] - 2.0 * w[1] + w[2]).norm() / 8.0)
        .collect();
    let rise = |i: usize| {
        let near = rises.get(i.saturating_sub(1)..(i + 1).min(rises.len()));
        near.into_iter().flatten().copied().fold(0.0, f64::max)
    };
    let off = |q: Point| {
        let chords = samples.windows(2).enumerate();
        let beyond = chords.map(|(i, w)| Segment::Line { to: w[1] }.distance(w[0], q) - rise(i));
        beyond.fold(f64::INFINITY, f64::min)
    };
    let probes = arcs.iter().flat_map(|(from, arc)| {
        (1..PROBES).map(move |k| arc.point(*from, k as f64 / PROBES as f64))
    });
    let ends = [samples.first(), samples.last()];
    probes
        .filter(|q| {
            ends.iter()
                .flatten()
                .all(|end| (*q - *end).norm() > tolerance)
        })
        .any(|q| off(q) > SHARE * tolerance)
}

/// A line instead of an arc that rises less than `sagitta` mm above its chord.
fn straightened(arc: Segment, from: Point, sagitta: f64) -> Segment {
    let rise = arc.bulge() * 0.5 * (arc.to() - from).norm();
    if rise.abs() <= sagitta {
        Segment::Line { to: arc.to() }
    } else {
        arc
    }
}

/// Joins neighbours on one line or circle.
fn joined(start: Point, pieces: Vec<Segment>, tolerance: f64) -> Path {
    let mut out: Vec<Segment> = Vec::with_capacity(pieces.len());
    // Where the last piece kept starts.
    let mut from = start;
    for piece in pieces {
        let at = out.last().map_or(start, Segment::to);
        if let Some(last) = out.last_mut()
            && let Some(union) = union(from, *last, piece, FLAT * tolerance)
        {
            *last = union;
            continue;
        }
        if piece.to() != at {
            from = at;
            out.push(piece);
        }
    }
    Path {
        start,
        segments: out,
        closed: false,
    }
}

/// One piece for two, if it is within `room` of both and turns by no more than half a circle.
fn union(from: Point, a: Segment, b: Segment, room: f64) -> Option<Segment> {
    if (a.bulge() == 0.0) != (b.bulge() == 0.0) || a.bulge() * b.bulge() < 0.0 {
        return None;
    }
    let angle = a.bulge().atan() + b.bulge().atan();
    let union = Segment::curved(b.to(), angle.tan());
    let probes = [a.point(from, 0.5), a.to(), b.point(a.to(), 0.5)];
    let near = probes.iter().all(|&p| union.distance(from, p) <= room);
    (angle.abs() <= std::f64::consts::FRAC_PI_4 && near).then_some(union)
}

fn check(tolerance: f64) -> Result<(), CurveError> {
    if tolerance.is_finite() && tolerance > 0.0 {
        Ok(())
    } else {
        Err(CurveError::Tolerance(tolerance))
    }
}

impl BSpline<2> {
    /// Lines and arcs along the curve, never more than `tolerance` mm from it; creases stay corners.
    ///
    /// # Errors
    /// As [`arcs_along`].
    pub fn arcs(&self, tolerance: f64) -> Result<Path, CurveError> {
        let (start, end) = self.domain();
        let mut path = Path {
            start: self.point(start),
            segments: Vec::new(),
            closed: false,
        };
        let creases =
            |u: &f64| *u == start || *u == end || self.knots().multiplicity(*u) >= self.degree();
        let marks: Vec<f64> = self.knots().breaks().into_iter().filter(creases).collect();
        for w in marks.windows(2) {
            let last = self.knots().span_before(w[1]);
            let f = |u: f64| {
                let [c, d] = if u >= w[1] {
                    self.derivatives_on::<2>(last, u)
                } else {
                    self.derivatives::<2>(u)
                };
                (c, d)
            };
            path.segments
                .extend(arcs_along(f, w[0], w[1], tolerance)?.segments);
        }
        Ok(path)
    }
}

impl Path {
    /// The path with every cubic replaced by lines and arcs within `tolerance` mm of it, as by [`arcs_along`]. Lines and arcs stay as they
    /// are, and so do end points and tangents.
    ///
    /// # Errors
    /// As [`arcs_along`].
    pub fn with_arcs(&self, tolerance: f64) -> Result<Self, CurveError> {
        let mut segments = Vec::with_capacity(self.segments.len());
        for (from, segment) in self.pieces() {
            let Primitive::Cubic(cubic) = segment.primitive(from) else {
                segments.push(*segment);
                continue;
            };
            let f = |t: f64| (ours(cubic.sample(t)), tangent(&cubic, t));
            segments.extend(arcs_along(f, 0.0, 1.0, tolerance)?.segments);
            // Evaluation rounds; the path's own end is exact.
            if let Some(last) = segments.last_mut() {
                last.end_at(segment.to());
            }
        }
        Ok(Self {
            start: self.start,
            segments,
            closed: self.closed,
        })
    }
}

/// A tangent of a cubic, at its ends along the first leg of its control polygon that is long enough to have a direction.
fn tangent(cubic: &CubicBezierSegment<f64>, t: f64) -> Point {
    let legs = if t == 0.0 {
        [cubic.ctrl1, cubic.ctrl2, cubic.to].map(|p| p - cubic.from)
    } else if t == 1.0 {
        [cubic.ctrl2, cubic.ctrl1, cubic.from].map(|p| cubic.to - p)
    } else {
        [cubic.derivative(t); 3]
    };
    let found = legs.into_iter().find(|leg| leg.length() > 1e-9);
    found.map_or_else(Point::zeros, |leg| Point::new(leg.x, leg.y))
}

/// Lines and arcs along a polyline, never more than `tolerance` mm from it.
///
/// Vertices at which it turns by more than `corner` radians stay corners; between them it is taken for a dense picture of a
/// smooth curve, whose tangents are those of circles through three neighbours, and followed as by [`arcs_along`]. Where the
/// vertices are too sparse for that, its own edges remain. A polyline whose last vertex repeats the first is closed: its
/// tangent at the seam looks across it, and so is its path.
///
/// # Errors
/// [`CurveError::Tolerance`], [`CurveError::TooFew`] for less than two different vertices, [`CurveError::NotFinite`].
pub fn arcs_of_polyline(
    vertices: &[Point],
    corner: f64,
    tolerance: f64,
) -> Result<Path, CurveError> {
    check(tolerance)?;
    if let Some(index) = vertices
        .iter()
        .position(|p| !p.iter().all(|c| c.is_finite()))
    {
        return Err(CurveError::NotFinite(index));
    }
    let mut points = vertices.to_vec();
    points.dedup();
    let n = points.len();
    if n < 2 {
        return Err(CurveError::TooFew { got: n, need: 2 });
    }
    let closed = n > 3 && points[0] == points[n - 1];
    // Edges before and after a vertex.
    let edges = |i: usize| {
        let before = match i {
            0 => closed.then(|| points[n - 1] - points[n - 2]),
            _ => Some(points[i] - points[i - 1]),
        };
        let after = match i {
            _ if i + 1 < n => Some(points[i + 1] - points[i]),
            _ => closed.then(|| points[1] - points[0]),
        };
        (before, after)
    };
    let smooth = |i: usize| match edges(i) {
        (Some(a), Some(b)) if a.angle(&b) <= corner => circle_tangent(a, b),
        _ => None,
    };
    let mut pieces: Vec<Segment> = Vec::new();
    let mut i = 0;
    while i + 1 < n {
        let stop = (i + 1..n - 1)
            .find(|&k| smooth(k).is_none())
            .unwrap_or(n - 1);
        // Ends of a run at a corner: on a circle, tangents mirror each other about the chord.
        let state = |k: usize| {
            let tangent = smooth(k).or_else(|| {
                let (a, b) = if k == stop { (k - 1, k) } else { (k, k + 1) };
                let chord = (points[b] - points[a]).try_normalize(0.0)?;
                let other = smooth(if k == stop { a } else { b });
                Some(other.map_or(chord, |t| chord * (2.0 * t.dot(&chord)) - t))
            });
            tangent.map(|t| (points[k], t))
        };
        while i < stop {
            let attempt = |j: usize| {
                let samples = (i..j).flat_map(|k| {
                    let edge = points[k + 1] - points[k];
                    let from = points[k];
                    (0..4).map(move |m| from + edge * (0.25 * f64::from(m)))
                });
                follow(state(i)?, state(j)?, samples.skip(1), tolerance)
            };
            let Some((j, found)) = longest_run(i, stop, &attempt) else {
                pieces.push(Segment::Line { to: points[i + 1] });
                i += 1;
                continue;
            };
            pieces.extend(found);
            i = j;
        }
    }
    Ok(Path {
        closed,
        ..joined(points[0], pieces, tolerance)
    })
}

/// Tangent at the middle of the circle through three points, from its two chords.
fn circle_tangent(a: Point, b: Point) -> Option<Point> {
    let (la, lb) = (a.norm(), b.norm());
    (a * (lb / la) + b * (la / lb)).try_normalize(0.0)
}

/// The furthest vertex up to `stop` that `attempt` can reach, by doubling and bisection.
fn longest_run<T>(
    i: usize,
    stop: usize,
    attempt: &impl Fn(usize) -> Option<T>,
) -> Option<(usize, T)> {
    let (mut good, mut best) = (i, None);
    let mut bad = stop + 1;
    let mut step = 1;
    while good + step < bad || (good < stop && bad > stop) {
        let j = (good + step).min(stop);
        match attempt(j) {
            Some(found) => {
                (good, best) = (j, Some(found));
                step *= 2;
            }
            None => {
                bad = j;
                break;
            }
        }
        if good == stop {
            break;
        }
    }
    while bad - good > 1 && bad <= stop {
        let mid = (good + bad) / 2;
        match attempt(mid) {
            Some(found) => (good, best) = (mid, Some(found)),
            None => bad = mid,
        }
    }
    best.map(|found| (good, found))
}
