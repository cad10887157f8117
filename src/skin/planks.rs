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

/// Scarfs the planks that are longer than the stock, neighbours staggered: every second one begins with a piece shorter by the stagger.
///
/// `false`, with nothing changed, where a piece would be too short to begin with.
pub(super) fn scarf(planks: &mut [Plank], how: &Scarfed) -> bool {
    let gain = how.stock - how.scarf;
    let begin = [how.stock, how.stock - how.stagger];
    if begin[1] < how.shortest.max(how.scarf) + how.scarf || gain <= how.scarf {
        return planks.iter().all(|p| p.length() <= how.stock);
    }
    for (i, plank) in planks.iter_mut().enumerate() {
        if plank.length() <= how.stock {
            continue;
        }
        // Middles of the scarfs from the plank's tail end, the first piece as long as said, the others of full stock.
        let lay = |first: f64| {
            let mut at = first - how.scarf / 2.0;
            let mut middles = Vec::new();
            while at + how.scarf / 2.0 < plank.length() - 1e-9 {
                middles.push(at);
                at += gain;
            }
            middles
        };
        let mut middles = lay(begin[i % 2]);
        let left = |m: &[f64]| plank.length() - m.last().map_or(0.0, |x| x - how.scarf / 2.0);
        let short = how.shortest - left(&middles);
        if short > 0.0 && begin[i % 2] - short >= how.shortest {
            middles = lay(begin[i % 2] - short);
        }
        plank.scarfs = middles.iter().map(|m| plank.reach[0] + m).collect();
    }
    true
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
