//! Planks across a panel.

use super::Skin;
use super::lines::half_width_at;

/// One plank of a flat panel.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Plank {
    /// Its edges from the centreline in the flat, mm, port negative, rising.
    pub edges: [f64; 2],
    /// Where it begins and ends along the flat panel, mm.
    pub reach: [f64; 2],
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

impl Skin {
    /// Planks `width` mm wide at most, edge to edge from port to starboard, a seam on the centreline so that planks may be
    /// book-matched there. All are full but the outermost, which are ripped to what is left; a leaf narrower than a quarter plank
    /// (common practice, no published source) is evened out with its neighbour. Empty unless `width` is at least 10 mm.
    pub fn planks(&self, width: f64) -> Vec<Plank> {
        let contour = self.contour();
        let half = contour.iter().map(|p| p.y).fold(0.0, f64::max);
        if !(width >= 10.0 && half > 0.0) {
            return Vec::new();
        }
        let count = (half / width).ceil().max(1.0) as usize;
        let mut edges: Vec<f64> = (0..count).map(|k| k as f64 * width).collect();
        edges.push(half);
        if count > 1 && half - edges[count - 1] < width / 4.0 {
            edges[count - 1] = (edges[count - 2] + half) / 2.0;
        }
        let starboard: Vec<Plank> = edges
            .windows(2)
            .map(|w| {
                // The widest part of the panel over this plank is along its inner edge.
                let (from, to) = contour_reach(&contour, w[0]);
                Plank {
                    edges: [w[0], w[1]],
                    reach: [from, to],
                }
            })
            .collect();
        let port = starboard.iter().rev().map(|p| Plank {
            edges: [-p.edges[1], -p.edges[0]],
            reach: p.reach,
        });
        port.chain(starboard.iter().copied()).collect()
    }

    /// Half-width of the flat contour at `x` in the flat, mm.
    pub fn flat_half_width(&self, x: f64) -> f64 {
        half_width_at(&self.contour(), x)
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
