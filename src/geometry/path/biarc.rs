//! Cubics as chains of tangent arcs, for machines that know no other curve.
//!
//! A biarc joins two points with given tangents by two arcs that share a tangent where they meet; here the
//! one with equal tangent lengths at both ends (Bolton, "Biarc curves", Computer-Aided Design 7, 1975).
//! The curve is halved until the measured distance of each biarc from it is within tolerance.

use super::segment::{CentreArc, lyon_cubic};
use super::{Path, Point, Segment};
use lyon_geom::CubicBezierSegment;
use nalgebra::Vector2;

/// Places on a piece where its distance from the curve is measured.
const SAMPLES: u32 = 16;
/// Share of the tolerance allowed at the samples; the rest is for what lies between them.
const SHARE: f64 = 0.9;
/// Halvings at most; a piece is then 1/4096 of its cubic.
const MAX_DEPTH: u32 = 12;

impl Path {
    /// The path with every cubic replaced by lines and arcs within `tolerance` mm of it. Lines and arcs
    /// stay as they are, and so do end points and tangents.
    pub fn with_arcs(&self, tolerance: f64) -> Self {
        let mut segments = Vec::with_capacity(self.segments.len());
        for (from, segment) in self.pieces() {
            match *segment {
                Segment::Cubic { c1, c2, to } => {
                    let cubic = lyon_cubic(from, c1, c2, to);
                    fit(&cubic, from, to, tolerance.max(1e-6), 0, &mut segments);
                }
                other => segments.push(other),
            }
        }
        Self {
            start: self.start,
            segments,
            closed: self.closed,
        }
    }
}

/// Appends arcs along `cubic`, whose end points are `from` and `to`.
fn fit(
    cubic: &CubicBezierSegment<f64>,
    from: Point,
    to: Point,
    tolerance: f64,
    depth: u32,
    out: &mut Vec<Segment>,
) {
    let chord = [Segment::Line { to }];
    if deviation(cubic, from, &chord) <= tolerance * 0.05 || depth >= MAX_DEPTH {
        out.extend(chord);
        return;
    }
    if let Some(pair) = biarc(from, start_tangent(cubic), to, end_tangent(cubic))
        && deviation(cubic, from, &pair) <= tolerance * SHARE
    {
        out.extend(pair);
        return;
    }
    let (left, right) = cubic.split(0.5);
    let middle = Point::new(left.to.x, left.to.y);
    fit(&left, from, middle, tolerance, depth + 1, out);
    fit(&right, middle, to, tolerance, depth + 1, out);
}

fn start_tangent(cubic: &CubicBezierSegment<f64>) -> Vector2<f64> {
    first_direction([cubic.ctrl1, cubic.ctrl2, cubic.to].map(|p| p - cubic.from))
}

fn end_tangent(cubic: &CubicBezierSegment<f64>) -> Vector2<f64> {
    first_direction([cubic.ctrl2, cubic.ctrl1, cubic.from].map(|p| cubic.to - p))
}

/// The first of three legs that is long enough to have a direction.
fn first_direction(legs: [lyon_geom::Vector<f64>; 3]) -> Vector2<f64> {
    legs.into_iter()
        .map(|leg| Vector2::new(leg.x, leg.y))
        .find_map(|leg| leg.try_normalize(1e-9))
        .unwrap_or_else(Vector2::zeros)
}

/// The two arcs; `None` when the ends and tangents allow none.
fn biarc(p: Point, t: Vector2<f64>, q: Point, u: Vector2<f64>) -> Option<[Segment; 2]> {
    let v = q - p;
    let sum = t + u;
    let (a, b, c) = (2.0 * (1.0 - t.dot(&u)), 2.0 * v.dot(&sum), v.norm_squared());
    // Tangent length d solves a d² + b d = c; this root stays exact when a vanishes.
    let root = b + (b * b + 4.0 * a * c).sqrt();
    if c == 0.0 || root <= 1e-12 * c.sqrt() {
        return None;
    }
    let d = 2.0 * c / root;
    let joint = nalgebra::center(&(p + t * d), &(q - u * d));
    let first = arc_bulge(joint - p, t)?;
    let second = -arc_bulge(joint - q, -u)?;
    Some([
        Segment::Arc {
            to: joint,
            bulge: first,
        },
        Segment::Arc {
            to: q,
            bulge: second,
        },
    ])
}

/// Bulge of the arc that leaves along `tangent` and ends at `chord`: tan of half the angle between them.
fn arc_bulge(chord: Vector2<f64>, tangent: Vector2<f64>) -> Option<f64> {
    let length = chord.norm();
    if length < 1e-9 {
        return None;
    }
    let sin = tangent.perp(&chord) / length;
    let cos = tangent.dot(&chord) / length;
    // Beyond a half circle the piece needs halving anyway.
    (cos > 1e-3).then(|| sin / (1.0 + cos))
}

/// Greatest distance from places on the curve to the chain of pieces that starts at `from`.
fn deviation(cubic: &CubicBezierSegment<f64>, from: Point, pieces: &[Segment]) -> f64 {
    let mut chain = Vec::with_capacity(pieces.len());
    let mut start = from;
    for piece in pieces {
        let arc = match *piece {
            Segment::Arc { to, bulge } => CentreArc::new(start, to, bulge),
            _ => None,
        };
        chain.push((start, piece.to(), arc));
        start = piece.to();
    }
    (1..SAMPLES)
        .map(|i| {
            let at = cubic.sample(f64::from(i) / f64::from(SAMPLES));
            let at = Point::new(at.x, at.y);
            chain
                .iter()
                .map(|(from, to, arc)| distance(at, *from, *to, arc.as_ref()))
                .fold(f64::INFINITY, f64::min)
        })
        .fold(0.0, f64::max)
}

/// Distance from `at` to a line or an arc.
fn distance(at: Point, from: Point, to: Point, arc: Option<&CentreArc>) -> f64 {
    let ends = (at - from).norm().min((at - to).norm());
    if let Some(arc) = arc {
        let offset = at - arc.centre;
        if arc.passes(offset.y.atan2(offset.x)) {
            return (offset.norm() - arc.radius).abs().min(ends);
        }
        return ends;
    }
    let chord = to - from;
    let along = (at - from).dot(&chord) / chord.norm_squared();
    if (0.0..=1.0).contains(&along) {
        (at - (from + chord * along)).norm()
    } else {
        ends
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn cubic_path(numbers: [f64; 8]) -> Path {
        let [a, b, c, d, e, f, g, h] = numbers;
        Path {
            start: Point::new(a, b),
            segments: vec![Segment::Cubic {
                c1: Point::new(c, d),
                c2: Point::new(e, f),
                to: Point::new(g, h),
            }],
            closed: false,
        }
    }

    /// Hausdorff distance between two fine point chains, the second taken as chords.
    fn one_way(a: &[Point], b: &[Point]) -> f64 {
        a.iter()
            .map(|&at| {
                b.windows(2)
                    .map(|w| distance(at, w[0], w[1], None))
                    .fold(f64::INFINITY, |m, d| if d.is_nan() { m } else { m.min(d) })
            })
            .fold(0.0, f64::max)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]
        #[test]
        fn arcs_keep_within_tolerance_both_ways(numbers in prop::array::uniform8(-200.0..200.0f64)) {
            let path = cubic_path(numbers);
            let arcs = path.with_arcs(0.02);
            let (curve, chain) = (path.flatten(5e-4), arcs.flatten(5e-4));
            let left_over = arcs.segments.iter().any(|s| matches!(s, Segment::Cubic { .. }));
            prop_assert!(!left_over);
            prop_assert!(one_way(&curve, &chain) <= 0.02 + 1e-3);
            prop_assert!(one_way(&chain, &curve) <= 0.02 + 1e-3);
            prop_assert_eq!(arcs.end(), path.end());
        }
    }

    #[test]
    fn a_rib_like_curve_needs_few_arcs() {
        let path = cubic_path([0.0, 0.0, 80.0, 40.0, 200.0, 60.0, 260.0, 20.0]);
        let arcs = path.with_arcs(0.02);
        assert!(arcs.segments.len() <= 24, "{}", arcs.segments.len());
    }

    #[test]
    fn straight_and_collapsed_cubics_become_lines() {
        let straight = cubic_path([0.0, 0.0, 10.0, 10.0, 20.0, 20.0, 30.0, 30.0]);
        assert_eq!(
            straight.with_arcs(0.02).segments,
            vec![Segment::Line { to: straight.end() }]
        );
        let blunt = cubic_path([0.0, 0.0, 0.0, 0.0, 30.0, 0.0, 30.0, 0.0]);
        assert_eq!(blunt.with_arcs(0.02).segments.len(), 1);
    }
}
