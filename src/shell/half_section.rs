//! The half section: four cubic Béziers from the bottom's centre to the deck's.
//!
//! ```text
//!   deck centre ──────────── crown ────────╮
//!                                           │ apex (widest, upright tangent)
//!   bottom centre ── contour ── edge ─╯ tuck
//! ```
//!
//! The bottom is one cubic with y linear in its parameter, so roll, concave, vee and double concave are exact. The edge
//! is a round of the given radius between bottom and tuck: a hard edge is a small round, a soft edge a large one. Tuck
//! and upper rail meet the apex upright, so the apex line is the plan silhouette.

use crate::curve::Vector;
use crate::design::{Contour, Section};

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

    /// Upper rail handle at the apex, as a fraction of the deck's height above it.
    fn rise(&self) -> f64 {
        0.4 + 0.5 * self.fullness
    }

    /// Upper rail handle at the deck's centre, as a fraction of the half-width, before it is limited.
    ///
    /// The upper rail is the Bézier (0, H), (b w, H), (w, a H), (w, 0) above the apex, H high. `crown` fixes the
    /// parameter t where the deck has fallen by crown·H; b then follows from y(t) = w / 2.
    pub(super) fn reach(&self) -> f64 {
        let fall = |t: f64| (1.0 - self.rise()) * 3.0 * (1.0 - t) * t * t + t.powi(3) - self.crown;
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let t = (low + high) / 2.0;
            if fall(t) > 0.0 { high = t } else { low = t }
        }
        let t = (low + high) / 2.0;
        (0.5 - 3.0 * (1.0 - t) * t * t - t.powi(3)) / (3.0 * (1.0 - t).powi(2) * t)
    }
}

/// Limits of [`Character::reach`] that keep the deck convex and the rail in its frame.
pub(super) const REACH: [f64; 2] = [0.2, 0.98];

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

/// A half section: thirteen Bézier points (y, z), the segments' ends shared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HalfSection {
    points: [Vector<2>; 13],
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
        let upper = Self::upper(c, f, apex);
        Self {
            points: [
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
                upper[2],
                upper[1],
                upper[0],
            ],
        }
    }

    /// The upper rail from the deck's inner end to the apex.
    fn upper(c: &Character, f: &Frame, apex: Vector<2>) -> [Vector<2>; 4] {
        let top = f.base + f.thickness;
        let height = top - apex.y;
        let reach = c.reach().clamp(REACH[0], REACH[1]);
        let full = [
            Vector::<2>::new(0.0, top),
            Vector::<2>::new(reach * f.half_width, top),
            Vector::<2>::new(f.half_width, apex.y + c.rise() * height),
            apex,
        ];
        if f.inner <= 0.0 {
            return full;
        }
        // Trim at y = inner; y rises with the parameter.
        let y = |t: f64| de_casteljau(&full, t)[3].x;
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let t = (low + high) / 2.0;
            if y(t) > f.inner { high = t } else { low = t }
        }
        let mut tail = de_casteljau(&full, (low + high) / 2.0);
        tail.reverse();
        tail[0].x = f.inner;
        [tail[0], tail[1], tail[2], apex]
    }

    /// The point (y, z) at parameter `v`.
    pub fn point(&self, v: f64) -> Vector<2> {
        let k = Mark::ALL[1..4].iter().take_while(|m| m.v() <= v).count();
        let (start, end) = (Mark::ALL[k].v(), Mark::ALL[k + 1].v());
        let t = (v - start) / (end - start);
        let s = 1.0 - t;
        let b = &self.points[3 * k..=3 * k + 3];
        b[0] * (s * s * s)
            + b[1] * (3.0 * s * s * t)
            + b[2] * (3.0 * s * t * t)
            + b[3] * (t * t * t)
    }

    /// The Bézier points, segments sharing their ends.
    pub fn points(&self) -> &[Vector<2>; 13] {
        &self.points
    }
}

/// The right-hand Bézier points, last first: `[end, …, point at t]` of the piece from `t` to 1.
fn de_casteljau(b: &[Vector<2>; 4], t: f64) -> [Vector<2>; 4] {
    let mut p = *b;
    let mut right = [p[3]; 4];
    for k in 1..4 {
        for i in 0..4 - k {
            p[i] = p[i] * (1.0 - t) + p[i + 1] * t;
        }
        right[k] = p[3 - k];
    }
    right
}
