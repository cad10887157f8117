//! The immersed part of a shell under a given waterline.

use crate::geometry::curve::gauss_legendre;
use crate::geometry::solve::root;
use crate::geometry::surface::Patch;
use crate::shape::{Shell, ShellError};

/// The plane of the water's surface in the board's coordinates: z = height + slope · x. It does not heel.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Waterline {
    /// Height over the base plane at the tail's end, x = 0, mm.
    pub height: f64,
    /// Rise of the water towards the nose over the length; positive: the nose is down.
    pub slope: f64,
}

impl Waterline {
    /// Height of the water over the base plane at `x`, mm.
    pub fn at(&self, x: f64) -> f64 {
        self.height + self.slope * x
    }
}

/// Integrals over the immersed part of the whole board, both sides. Lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Immersed {
    /// Volume, mm³.
    pub volume: f64,
    /// ∭ x dV and ∭ z dV, mm⁴.
    pub moment: [f64; 2],
    /// Waterplane in plan: ∬ dA, mm².
    pub plane: f64,
    /// ∬ x dA, mm³.
    pub plane_moment: f64,
    /// ∬ x² dA, mm⁴.
    pub plane_second: f64,
    /// ∬ y² dA, mm⁴.
    pub plane_across: f64,
}

impl std::ops::AddAssign for Immersed {
    fn add_assign(&mut self, o: Self) {
        self.volume += o.volume;
        self.moment[0] += o.moment[0];
        self.moment[1] += o.moment[1];
        self.plane += o.plane;
        self.plane_moment += o.plane_moment;
        self.plane_second += o.plane_second;
        self.plane_across += o.plane_across;
    }
}

/// A shell cut into sections at the Gauss points of every knot span, ready to be put in water.
#[derive(Debug, Clone)]
pub struct Hull {
    sections: Vec<Section>,
    /// Least and greatest x, mm.
    pub reach: (f64, f64),
    /// Volume of the whole, mm³.
    pub volume: f64,
}

/// One half section with its weight along x.
#[derive(Debug, Clone)]
struct Section {
    x: f64,
    weight: f64,
    /// Half-breadth of a cleft there.
    inner: f64,
    pieces: Vec<Piece>,
}

/// A cubic piece of a section by powers of t in 0..1.
#[derive(Debug, Clone, Copy)]
struct Piece {
    y: [f64; 4],
    z: [f64; 4],
    /// Bounds of z from its Bézier points.
    range: [f64; 2],
}

/// Gauss points along each part of a knot span of the loft. The water's edge begins and ends like a square root, which only short
/// parts catch: none is longer than this share of the length, which leaves about 2e-5 of the waterplane.
const POINTS: usize = 4;
const SHORT: f64 = 1.0 / 600.0;

/// The breaks along a patch with every span divided evenly, to parts no longer than `most` mm.
fn parts(patch: &Patch, most: f64) -> Vec<f64> {
    let breaks = patch.u().breaks();
    let mut out = vec![breaks[0]];
    for w in breaks.windows(2) {
        let length = patch.point(w[1], 0.0).x - patch.point(w[0], 0.0).x;
        let count = (length / most).ceil().clamp(1.0, 1000.0) as usize;
        out.extend((1..=count).map(|k| w[0] + (w[1] - w[0]) * k as f64 / count as f64));
    }
    out
}

fn value(c: &[f64; 4], t: f64) -> f64 {
    c[0] + t * (c[1] + t * (c[2] + t * c[3]))
}

fn slope(c: &[f64; 4], t: f64) -> f64 {
    c[1] + t * (2.0 * c[2] + t * 3.0 * c[3])
}

/// Powers from Bézier points of degree 3 at most.
fn powers(b: &[f64]) -> [f64; 4] {
    match *b {
        [p] => [p, 0.0, 0.0, 0.0],
        [p, q] => [p, q - p, 0.0, 0.0],
        [p, q, r] => [p, 2.0 * (q - p), p - 2.0 * q + r, 0.0],
        [p, q, r, s, ..] => [
            p,
            3.0 * (q - p),
            3.0 * (p - 2.0 * q + r),
            s - p + 3.0 * (q - r),
        ],
        [] => [0.0; 4],
    }
}

impl Hull {
    /// Cuts `shell` into sections.
    ///
    /// # Errors
    ///
    /// [`ShellError`] where a section cannot be taken.
    pub fn new(shell: &Shell) -> Result<Self, ShellError> {
        let rule = gauss_legendre(POINTS);
        let mut sections = Vec::new();
        for (index, patch) in shell.patches.iter().enumerate() {
            let inside = index == 0 && shell.wall.is_some();
            for w in parts(patch, SHORT * shell.length()).windows(2) {
                let half = (w[1] - w[0]) / 2.0;
                for &(a, weight) in &rule {
                    let u = w[0] + half * (a + 1.0);
                    let curve = patch.across(u).map_err(ShellError::curve("section"))?;
                    let pieces = curve
                        .beziers()
                        .iter()
                        .map(|b| {
                            let coordinate =
                                |k: usize| -> Vec<f64> { b.points.iter().map(|p| p[k]).collect() };
                            let (y, z) = (coordinate(1), coordinate(2));
                            Piece {
                                y: powers(&y),
                                z: powers(&z),
                                range: [
                                    z.iter().copied().fold(f64::INFINITY, f64::min),
                                    z.iter().copied().fold(f64::NEG_INFINITY, f64::max),
                                ],
                            }
                        })
                        .collect();
                    let first = curve.points().first().copied().unwrap_or_default();
                    sections.push(Section {
                        x: first.x,
                        weight: weight * half * patch.jet(u, 0.0).du.x,
                        inner: if inside { first.y } else { 0.0 },
                        pieces,
                    });
                }
            }
        }
        let mut hull = Self {
            sections,
            reach: shell.x_range(),
            volume: 0.0,
        };
        hull.volume = hull
            .immersed(&Waterline {
                height: f64::INFINITY,
                slope: 0.0,
            })
            .volume;
        Ok(hull)
    }

    /// Integrals over what lies under `water`.
    pub fn immersed(&self, water: &Waterline) -> Immersed {
        let mut sum = Immersed::default();
        for section in &self.sections {
            let level = if water.height.is_finite() {
                water.at(section.x)
            } else {
                water.height
            };
            section.add(level, &mut sum);
        }
        sum
    }

    /// Least and greatest height of the board over the base plane, mm, to the sections' control points.
    pub fn heights(&self) -> [f64; 2] {
        let ranges = || {
            self.sections
                .iter()
                .flat_map(|s| s.pieces.iter().map(|p| p.range))
        };
        [
            ranges().map(|r| r[0]).fold(f64::INFINITY, f64::min),
            ranges().map(|r| r[1]).fold(f64::NEG_INFINITY, f64::max),
        ]
    }

    /// Greatest depth under `water`, square to it, mm, over the sections' Gauss points along and a fine division across.
    pub fn draught(&self, water: &Waterline) -> f64 {
        let across = |s: &Section| {
            let depth = |p: &Piece| {
                let at = |k: usize| water.at(s.x) - value(&p.z, k as f64 / 8.0);
                (0..=8).map(at).fold(f64::NEG_INFINITY, f64::max)
            };
            s.pieces.iter().map(depth).fold(f64::NEG_INFINITY, f64::max)
        };
        let deepest = self
            .sections
            .iter()
            .map(across)
            .fold(f64::NEG_INFINITY, f64::max);
        deepest / water.slope.hypot(1.0)
    }
}

impl Section {
    /// Adds this section's share, both sides, of what lies under `level`.
    ///
    /// By Green's theorem: area ∮ y dz and moment ∮ z y dz along the immersed stretches; the waterline and the centre plane (or the
    /// cleft's wall) add nothing. Half-breadths count positive where the section leaves the water and negative where it
    /// goes under again, joints of pieces included.
    fn add(&self, level: f64, sum: &mut Immersed) {
        let (mut area, mut high) = (0.0, 0.0);
        let (mut breadth, mut cube) = (0.0, 0.0);
        let mut wet_before = None;
        for piece in &self.pieces {
            let cuts = if piece.range[0] < level && level < piece.range[1] {
                piece.crossings(level)
            } else {
                Vec::new()
            };
            let mut from = 0.0;
            for &to in cuts.iter().chain(&[1.0]) {
                if to <= from {
                    continue;
                }
                let wet = piece.range[1] < level || value(&piece.z, (from + to) / 2.0) < level;
                if wet {
                    piece.add(from, to, self.inner, &mut area, &mut high);
                }
                if wet_before.is_some_and(|before| before != wet) {
                    let y = value(&piece.y, from);
                    let sign = if wet { -1.0 } else { 1.0 };
                    breadth += sign * (y - self.inner);
                    cube += sign * (y.powi(3) - self.inner.powi(3)) / 3.0;
                }
                (wet_before, from) = (Some(wet), to);
            }
        }
        let weight = 2.0 * self.weight;
        sum.volume += weight * area;
        sum.moment[0] += weight * area * self.x;
        sum.moment[1] += weight * high;
        sum.plane += weight * breadth;
        sum.plane_moment += weight * breadth * self.x;
        sum.plane_second += weight * breadth * self.x * self.x;
        sum.plane_across += weight * cube;
    }
}

impl Piece {
    /// ∫ (y − inner) dz and ∫ z (y − inner) dz over a stretch of t: degree 8 at most, exact with 5 Gauss points.
    fn add(&self, from: f64, to: f64, inner: f64, area: &mut f64, high: &mut f64) {
        let half = (to - from) / 2.0;
        for (node, weight) in GAUSS {
            let t = from + half * (node + 1.0);
            let flux = (value(&self.y, t) - inner) * slope(&self.z, t) * weight * half;
            *area += flux;
            *high += flux * value(&self.z, t);
        }
    }

    /// Where z goes through `level`, rising in t: between the turning points of the cubic by safeguarded Newton steps.
    fn crossings(&self, level: f64) -> Vec<f64> {
        let [_, c, b, a] = [self.z[0], self.z[1], 2.0 * self.z[2], 3.0 * self.z[3]];
        let mut stops = vec![0.0];
        let square = b * b - 4.0 * a * c;
        if square > 0.0 {
            let q = -0.5 * (b + square.sqrt() * if b < 0.0 { -1.0 } else { 1.0 });
            let mut turns = [q / a, c / q];
            turns.sort_by(f64::total_cmp);
            stops.extend(turns.into_iter().filter(|t| *t > 0.0 && *t < 1.0));
        }
        stops.push(1.0);
        let f = |t: f64| (value(&self.z, t) - level, slope(&self.z, t));
        let mut out = Vec::new();
        for w in stops.windows(2) {
            let t = root(f, w[0], w[1], 1e-14);
            if let Some(t) = t.filter(|t| out.last().is_none_or(|last| t - last > 1e-12)) {
                out.push(t);
            }
        }
        out
    }
}

/// Gauss–Legendre of 5 points (Abramowitz & Stegun, table 25.4).
const GAUSS: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_08),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.906_179_845_938_664, 0.236_926_885_056_189_08),
];
