//! Planks across a panel.

use super::Skin;
use super::lines::half_width_at;
use crate::design::PanelCentre;

/// One plank of a flat panel.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Plank {
    /// Its edges from the centreline in the flat, mm, port negative, rising.
    pub edges: [f64; 2],
    /// Where it begins and ends along the flat panel, mm.
    pub reach: [f64; 2],
    /// Middles of the scarfs it is made longer by, along the flat panel, mm.
    pub scarfs: Vec<f64>,
}

impl Plank {
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
pub struct Scarfed {
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
    pub fn planks(&self, width: f64, centre: PanelCentre) -> Vec<Plank> {
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
            Plank {
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

/// Places tried for the first line of scarfs.
const TRIED: usize = 60;

/// Scarfs the planks that are longer than the stock, on lines across the panel one full piece apart, every second plank's lines moved
/// by the stagger (half a piece at most). The lines lie where the fewest pieces are shorter than wanted, then where there are fewest.
pub(super) fn scarf(planks: &mut [Plank], how: &Scarfed) {
    let gain = how.stock - how.scarf;
    let start = planks
        .iter()
        .map(|p| p.reach[0])
        .fold(f64::INFINITY, f64::min);
    if !(gain > how.scarf && start.is_finite()) {
        return;
    }
    let stagger = how.stagger.min(gain / 2.0);
    let lay = |offset: f64| -> Vec<Vec<f64>> {
        let of = |(i, plank): (usize, &Plank)| {
            let first = start + offset + if i % 2 == 1 { stagger } else { 0.0 };
            plank.scarfed(first, gain, how)
        };
        planks.iter().enumerate().map(of).collect()
    };
    let cost = |scarfs: &[Vec<f64>]| {
        let pieces = planks
            .iter()
            .zip(scarfs)
            .flat_map(|(p, s)| p.pieces(s, how.scarf));
        let short = pieces.filter(|p| *p < how.shortest).count();
        (short, scarfs.iter().map(Vec::len).sum::<usize>())
    };
    let tried = (0..TRIED).map(|k| lay(gain * k as f64 / TRIED as f64));
    let best = tried.min_by_key(|scarfs| cost(scarfs)).unwrap_or_default();
    for (plank, scarfs) in planks.iter_mut().zip(best) {
        plank.scarfs = scarfs;
    }
}

impl Plank {
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
    fn scarfed(&self, first: f64, gain: f64, how: &Scarfed) -> Vec<f64> {
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
fn contour_reach(contour: &[crate::curve::Vector<2>], y: f64) -> (f64, f64) {
    let (mut from, mut to) = (f64::INFINITY, f64::NEG_INFINITY);
    for w in contour.windows(2) {
        let (a, b) = (w[0], w[1]);
        for p in [a, b] {
            if p.y >= y {
                (from, to) = (from.min(p.x), to.max(p.x));
            }
        }
        if (a.y - y) * (b.y - y) < 0.0 {
            let x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
            (from, to) = (from.min(x), to.max(x));
        }
    }
    (from, to)
}
