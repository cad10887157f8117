//! Planks across a panel.

use super::Skin;
use super::lines::half_width_at;
use crate::design::PanelCentre;
use crate::geometry::curve::Vector;
use crate::geometry::curve::polyline::height_on;

/// One plank of a flat panel.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct FlatPlank {
    /// Its edges from the centreline in the flat, mm, port negative, rising.
    pub edges: [f64; 2],
    /// Where it begins and ends along the flat panel, mm.
    pub reach: [f64; 2],
    /// Middles of the scarfs it is made longer by, along the flat panel, mm.
    pub scarfs: Vec<f64>,
}

impl FlatPlank {
    /// Its width, mm.
    pub fn width(&self) -> f64 {
        self.edges[1] - self.edges[0]
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        self.reach[1] - self.reach[0]
    }
}

/// How planks are scarfed; all mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlankScarfs {
    /// Longest piece to be had.
    pub stock: f64,
    /// Length of a scarf.
    pub scarf: f64,
    /// Least distance between scarfs of neighbours.
    pub stagger: f64,
    /// Shortest piece wanted.
    pub shortest: f64,
}

impl Skin {
    /// Planks `width` mm wide at most, edge to edge from port to starboard, a seam or the middle of a plank on the centreline. All are
    /// full but the outermost, which are ripped to what is left; a leaf narrower than a quarter plank (common practice, no published
    /// source) is evened out with its neighbour. Empty unless `width` is at least 10 mm.
    pub fn planks(&self, width: f64, centre: PanelCentre) -> Vec<FlatPlank> {
        let contour = self.contour();
        let half = contour.iter().map(|p| p.y).fold(0.0, f64::max);
        if !(width >= 10.0 && half > 0.0) {
            return Vec::new();
        }
        // Outer edges of the starboard planks; the first begins at `inner`.
        let inner = match centre {
            PanelCentre::Seam => 0.0,
            PanelCentre::Plank => (width / 2.0).min(half),
        };
        let count = ((half - inner) / width).ceil() as usize;
        let mut edges: Vec<f64> = (0..count).map(|k| inner + k as f64 * width).collect();
        edges.push(half);
        if count > 1 && half - edges[count - 1] < width / 4.0 {
            edges[count - 1] = (edges[count - 2] + half) / 2.0;
        }
        let plank = |edges: [f64; 2]| {
            // The longest part of the panel over a plank is along its inner edge.
            let inner = edges.iter().fold(f64::INFINITY, |m, y| m.min(y.abs()));
            let inner = if edges[0] < 0.0 && edges[1] > 0.0 {
                0.0
            } else {
                inner
            };
            let (from, to) = contour_reach(&contour, inner);
            FlatPlank {
                edges,
                reach: [from, to],
                scarfs: Vec::new(),
            }
        };
        let starboard = || edges.windows(2);
        let middle = (inner > 0.0).then(|| plank([-inner, inner]));
        let port = starboard().rev().map(|w| plank([-w[1], -w[0]]));
        port.chain(middle)
            .chain(starboard().map(|w| plank([w[0], w[1]])))
            .collect()
    }

    /// Half-width of the flat contour at `x` in the flat, mm.
    pub fn flat_half_width(&self, x: f64) -> f64 {
        half_width_at(&self.contour(), x)
    }
}

/// Places tried for a plank's first scarf.
const TRIED: usize = 60;

/// Scarfs the planks that are longer than the stock, one full piece apart. Plank by plank from port the scarfs go where the fewest
/// pieces are shorter than wanted and the fewest scarfs lie nearer than the stagger to those of the plank before; of such places, to
/// the one with the fewest scarfs and then the longest first piece.
pub(super) fn scarf(planks: &mut [FlatPlank], how: &PlankScarfs) {
    let gain = how.stock - how.scarf;
    if gain <= how.scarf || gain.is_nan() {
        return;
    }
    let mut before: Vec<f64> = Vec::new();
    for plank in planks {
        let tried = (0..TRIED).map(|k| {
            let first = plank.reach[0] + how.stock - how.scarf / 2.0;
            plank.scarfed(first - gain * k as f64 / TRIED as f64, gain, how)
        });
        let cost = |scarfs: &Vec<f64>| {
            let pieces = plank.pieces(scarfs, how.scarf);
            let short = pieces.iter().filter(|p| **p < how.shortest).count();
            let near = |x: &&f64| before.iter().any(|y| (*x - y).abs() < how.stagger);
            (short + scarfs.iter().filter(near).count(), scarfs.len())
        };
        plank.scarfs = tried.min_by_key(cost).unwrap_or_default();
        before.clone_from(&plank.scarfs);
    }
}

impl FlatPlank {
    /// Lengths of the pieces of a plank with these scarfs, from the tail, mm.
    pub fn pieces(&self, scarfs: &[f64], scarf: f64) -> Vec<f64> {
        let mut from = self.reach[0];
        let mut out = Vec::with_capacity(scarfs.len() + 1);
        for x in scarfs {
            out.push(x + scarf / 2.0 - from);
            from = x - scarf / 2.0;
        }
        out.push(self.reach[1] - from);
        out
    }

    /// Scarfs on lines `gain` apart through `first`, without those that stock serves without.
    fn scarfed(&self, first: f64, gain: f64, how: &PlankScarfs) -> Vec<f64> {
        if self.length() <= how.stock {
            return Vec::new();
        }
        let [from, to] = self.reach.map(|x| x.clamp(-1e6, 1e6));
        let before = ((from + how.scarf / 2.0 - first) / gain).ceil();
        let lines = (0..)
            .map(|k| first + gain * (before + f64::from(k)))
            .take_while(|x| *x < to - how.scarf / 2.0);
        let mut scarfs: Vec<f64> = lines.collect();
        let longest = |scarfs: &[f64]| {
            self.pieces(scarfs, how.scarf)
                .into_iter()
                .fold(0.0, f64::max)
        };
        for k in (0..scarfs.len()).rev() {
            let mut fewer = scarfs.clone();
            fewer.remove(k);
            if longest(&fewer) <= how.stock {
                scarfs = fewer;
            }
        }
        scarfs
    }
}

/// Where a half contour lies outside `y`.
fn contour_reach(contour: &[Vector<2>], y: f64) -> (f64, f64) {
    let (mut from, mut to) = (f64::INFINITY, f64::NEG_INFINITY);
    for w in contour.windows(2) {
        let (a, b) = (w[0], w[1]);
        for p in [a, b] {
            if p.y >= y {
                (from, to) = (from.min(p.x), to.max(p.x));
            }
        }
        if (a.y - y) * (b.y - y) < 0.0 {
            let x = height_on(a.yx(), b.yx(), y);
            (from, to) = (from.min(x), to.max(x));
        }
    }
    (from, to)
}
