//! The half section: a chain of cubic Béziers from the bottom's centre to the deck's.
//!
//! ```text
//!   deck centre ──────────── crown ────────╮
//!                                           │ apex (widest, upright tangent)
//!   bottom centre ── contour ── edge ─╯ tuck
//! ```
//!
//! The bottom is one cubic with y linear in its parameter, so roll, concave, vee and double concave are exact. The edge
//! is a round of the given radius between bottom and tuck: a hard edge is a small round, a soft edge a large one. Tuck
//! and upper rail meet the apex upright, so the apex line is the plan silhouette. The deck's own curve is [`Deck`].

use super::deck::Deck;
use crate::design::{Contour, Section};
use crate::geometry::curve::Vector;
use crate::geometry::solve::bisect;

/// The marks that every half section shares, and their parameter v.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Centre of the bottom (inner end of the bottom in a swallow tail).
    BottomCentre,
    /// Where the bottom ends and the round of the edge begins.
    EdgeInner,
    /// Where the round of the edge ends and the tuck begins.
    EdgeOuter,
    /// The widest point.
    Apex,
    /// Centre of the deck (inner end of the deck in a swallow tail).
    DeckCentre,
}

impl Mark {
    /// All marks in order round the section.
    pub const ALL: [Mark; 5] = [
        Mark::BottomCentre,
        Mark::EdgeInner,
        Mark::EdgeOuter,
        Mark::Apex,
        Mark::DeckCentre,
    ];

    /// The mark's parameter.
    pub const fn v(self) -> f64 {
        match self {
            Mark::BottomCentre => 0.0,
            Mark::EdgeInner => 0.4,
            Mark::EdgeOuter => 0.44,
            Mark::Apex => 0.56,
            Mark::DeckCentre => 1.0,
        }
    }
}

/// A section's character, free of size, so that it can be blended along the board and shrink into the tips.
///
/// Lengths are fractions of the vertical thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Character {
    /// Rise of the edge by roll (positive) or concave (negative).
    pub roll: f64,
    /// Rise of the edge by vee.
    pub vee: f64,
    /// Depth of a double concave.
    pub double: f64,
    /// Natural logarithm of the edge radius.
    pub ln_edge: f64,
    /// Width of the tuck.
    pub tuck: f64,
    /// Angle of the tuck to the bottom, radians.
    pub tuck_angle: f64,
    /// Height of the apex.
    pub apex: f64,
    /// Fullness, 0 to 1.
    pub fullness: f64,
    /// Fall of the deck half way out, as a fraction of its height above the apex.
    pub crown: f64,
}

/// Crown where the design is silent, as a fraction of the deck's height over the apex.
const SILENT_CROWN: f64 = 0.1;

impl Character {
    /// The character of `section`, whose vertical thickness is `thickness` mm.
    pub(super) fn of(section: &Section, thickness: f64) -> Self {
        let depth = section.contour_depth / thickness;
        let pick = |kinds: &[(Contour, f64)]| {
            kinds
                .iter()
                .find(|k| k.0 == section.contour)
                .map_or(0.0, |k| k.1)
        };
        Self {
            roll: pick(&[(Contour::Roll, depth), (Contour::Concave, -depth)]),
            vee: pick(&[(Contour::Vee, depth)]),
            double: pick(&[(Contour::DoubleConcave, depth)]),
            ln_edge: (section.edge_radius / thickness).ln(),
            tuck: section.tuck / thickness,
            tuck_angle: section.tuck_angle,
            apex: section.apex,
            fullness: section.fullness,
            crown: section.crown.map_or(SILENT_CROWN, |crown| {
                crown / (thickness * (1.0 - section.apex))
            }),
        }
    }

    /// As numbers to blend.
    pub(super) fn to_array(self) -> [f64; 9] {
        [
            self.roll,
            self.vee,
            self.double,
            self.ln_edge,
            self.tuck,
            self.tuck_angle,
            self.apex,
            self.fullness,
            self.crown,
        ]
    }

    /// From blended numbers.
    pub(super) fn from_array(a: [f64; 9]) -> Self {
        let [
            roll,
            vee,
            double,
            ln_edge,
            tuck,
            tuck_angle,
            apex,
            fullness,
            crown,
        ] = a;
        Self {
            roll,
            vee,
            double,
            ln_edge,
            tuck,
            tuck_angle,
            apex,
            fullness,
            crown,
        }
    }
}

/// The size and place of a half section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Frame {
    /// Half-width at the apex, mm.
    pub half_width: f64,
    /// Half-width of a cleft, 0 elsewhere, mm.
    pub inner: f64,
    /// Height of the bottom's centreline, mm.
    pub base: f64,
    /// Vertical thickness at the centre, mm.
    pub thickness: f64,
}

/// Most Bézier segments of a half section: bottom, round, tuck, and four of a flat deck.
const MOST_SEGMENTS: usize = 7;

/// A half section: Bézier points (y, z) of its segments, ends shared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HalfSection {
    points: [Vector<2>; 3 * MOST_SEGMENTS + 1],
    /// The parameter v at the segments' ends.
    breaks: [f64; MOST_SEGMENTS + 1],
    segments: usize,
}

/// The lesser of two positive numbers, rounded off smoothly where they are close; exact far from there and at zero.
fn smooth_min(a: f64, b: f64) -> f64 {
    let (least, greatest) = (a.min(b), a.max(b));
    if greatest <= 0.0 {
        return 0.0;
    }
    least * (1.0 + (least / greatest).powi(8)).powf(-0.125)
}

impl HalfSection {
    /// Draws the section of the given character in its frame.
    pub(super) fn new(c: &Character, f: &Frame) -> Self {
        let p = |y: f64, z: f64| Vector::<2>::new(y, z);
        let (w, t) = (f.half_width, f.thickness);
        let lobe = w - f.inner;
        let tuck = smooth_min(c.tuck * t, 0.7 * lobe);
        let edge_y = w - tuck;
        // Bottom height over the base: q τ² + v τ + d (27/4) τ² (1 - τ), with τ = y / edge_y.
        // Into a pointed tip the width shrinks faster than the thickness and the contour goes with it.
        let scale = smooth_min(t, lobe);
        let (q, v, d) = (c.roll * scale, c.vee * scale, c.double * scale * 6.75);
        let bottom = |tau: f64| f.base + (q + d) * tau * tau + v * tau - d * tau.powi(3);
        let slope = |tau: f64| {
            if edge_y > 0.0 {
                (2.0 * (q + d) * tau + v - 3.0 * d * tau * tau) / edge_y
            } else {
                0.0
            }
        };
        let apex = p(w, f.base + c.apex * t);
        let edge = p(edge_y, bottom(1.0));
        // The tuck's line must pass below the apex: limit its angle.
        let lean = slope(1.0).atan();
        let steepest = (0.85 * (apex.y - edge.y)).atan2(tuck);
        let angle = lean + smooth_min(c.tuck_angle, (steepest - lean).max(0.0));
        let turn = angle - lean;
        let (along, up) = (p(lean.cos(), lean.sin()), p(angle.cos(), angle.sin()));
        // Setback of the round from the corner, within the bottom and within the tuck.
        let wanted = c.ln_edge.exp() * t * (turn / 2.0).tan();
        let setback = smooth_min(wanted, 0.5 * smooth_min(tuck, lobe - tuck));
        let radius = if turn > 0.0 {
            setback / (turn / 2.0).tan()
        } else {
            0.0
        };
        let start_tau = if edge_y > 0.0 {
            (edge_y - setback * along.x) / edge_y
        } else {
            1.0
        };
        let inner = p(edge_y - setback * along.x, bottom(start_tau));
        // The round starts tangent to the bottom where it really is, not on the tangent at the corner.
        let start_lean = slope(start_tau).atan();
        let start_along = p(start_lean.cos(), start_lean.sin());
        let outer = edge + up * setback;
        let handle = 4.0 / 3.0 * (turn / 4.0).tan() * radius;
        // Tuck: handles along the two tangents towards their corner.
        let corner = p(w, outer.y + (w - outer.x) * angle.tan());
        const HANDLE: f64 = 0.6;
        // Bottom: the cubic in τ between the cleft and the round, as a Bézier by its end slopes.
        let first_tau = if edge_y > 0.0 { f.inner / edge_y } else { 0.0 };
        let third = (start_tau - first_tau) / 3.0 * edge_y;
        let first = p(f.inner, bottom(first_tau));
        let lower = [
            first,
            p(first.x + third, first.y + slope(first_tau) * third),
            p(inner.x - third, inner.y - slope(start_tau) * third),
            inner,
            inner + start_along * handle,
            outer - up * handle,
            outer,
            outer + (corner - outer) * HANDLE,
            apex + (corner - apex) * HANDLE,
            apex,
        ];
        let upper = upper(c, f, apex);
        let segments = 3 + (upper.points.len() - 1) / 3;
        let mut section = Self {
            points: [apex; 3 * MOST_SEGMENTS + 1],
            breaks: [Mark::DeckCentre.v(); MOST_SEGMENTS + 1],
            segments,
        };
        section.points[..10].copy_from_slice(&lower);
        for (point, deck) in section.points[10..]
            .iter_mut()
            .zip(upper.points.iter().rev().skip(1))
        {
            *point = *deck;
        }
        for (end, mark) in section.breaks.iter_mut().zip(&Mark::ALL[..4]) {
            *end = mark.v();
        }
        let (start, run) = (Mark::Apex.v(), Mark::DeckCentre.v() - Mark::Apex.v());
        for (end, left) in section.breaks[4..segments]
            .iter_mut()
            .zip(upper.inner.iter().rev())
        {
            *end = start + run * left;
        }
        section
    }

    /// The point (y, z) at parameter `v`.
    pub fn point(&self, v: f64) -> Vector<2> {
        let k = self.breaks[1..self.segments]
            .iter()
            .take_while(|end| **end <= v)
            .count();
        let (start, end) = (self.breaks[k], self.breaks[k + 1]);
        let t = (v - start) / (end - start);
        let s = 1.0 - t;
        let b = &self.points[3 * k..=3 * k + 3];
        b[0] * (s * s * s)
            + b[1] * (3.0 * s * s * t)
            + b[2] * (3.0 * s * t * t)
            + b[3] * (t * t * t)
    }

    /// Segments between the apex and the deck's centre.
    pub(super) fn deck_segments(&self) -> usize {
        self.segments - 3
    }

    /// The Bézier points, segments sharing their ends.
    pub fn points(&self) -> &[Vector<2>] {
        &self.points[..=3 * self.segments]
    }
}

/// The upper rail from the deck's inner end to the apex.
struct Upper {
    /// Bézier points.
    points: Vec<Vector<2>>,
    /// Where segments join, as fractions of the parameter from the apex to the deck's inner end, falling.
    inner: Vec<f64>,
}

fn upper(c: &Character, f: &Frame, apex: Vector<2>) -> Upper {
    let top = f.base + f.thickness;
    let height = top - apex.y;
    let place = |p: &Vector<2>| {
        // The deck's centre and its handle are at its top without rounding, the apex at its own height.
        let z = if p.y == 1.0 {
            top
        } else {
            apex.y + p.y * height
        };
        Vector::<2>::new(p.x * f.half_width, z)
    };
    let mut points: Vec<Vector<2>> = Deck::new(c.fullness, c.crown)
        .points()
        .iter()
        .map(place)
        .collect();
    let count = (points.len() - 1) / 3;
    let mut from = 0.0;
    if f.inner > 0.0 {
        // Trim at y = inner; y rises with the parameter.
        let y = |t: f64| {
            let (k, t) = within(count, t);
            tail_from(&points[3 * k..=3 * k + 3], t)[3].x
        };
        let [low, high] = bisect(0.0, 1.0, 60, |t| y(t) <= f.inner);
        from = (low + high) / 2.0;
        let (k, t) = within(count, from);
        let mut tail = tail_from(&points[3 * k..=3 * k + 3], t);
        tail.reverse();
        tail[0].x = f.inner;
        points.splice(..3 * k + 4, tail);
    }
    let first = within(count, from).0;
    let inner = (first + 1..count).map(|k| (1.0 - k as f64 / count as f64) / (1.0 - from));
    Upper {
        inner: inner.collect(),
        points,
    }
}

/// The segment of `count` equal ones that holds the parameter, and the parameter in it.
fn within(count: usize, t: f64) -> (usize, f64) {
    let t = t * count as f64;
    let k = (t as usize).min(count - 1);
    (k, t - k as f64)
}

/// The right-hand Bézier points, last first: `[end, …, point at t]` of the piece from `t` to 1.
fn tail_from(b: &[Vector<2>], t: f64) -> [Vector<2>; 4] {
    let mut p = [b[0], b[1], b[2], b[3]];
    let mut right = [p[3]; 4];
    for k in 1..4 {
        for i in 0..4 - k {
            p[i] = p[i] * (1.0 - t) + p[i + 1] * t;
        }
        right[k] = p[3 - k];
    }
    right
}
