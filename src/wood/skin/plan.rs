//! The plan shape of a panel: the finished outline and the overhang round it.

use crate::geometry::curve::{Vector, polyline};
use crate::shape::{End, Shell};

/// The starboard half of a panel's plan.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Plan {
    /// The finished outline from tail to nose, closed to the centreline at flat ends, (x, y) mm.
    pub outline: Vec<Vector<2>>,
    /// The cleft's edge from its tip to its root; empty without a cleft.
    pub cleft: Vec<Vector<2>>,
    overhang: f64,
}

/// Samples of the outline on every knot span of the loft.
const SAMPLES: usize = 8;

impl Plan {
    pub fn new(shell: &Shell, overhang: f64) -> Self {
        let line = |patch: &crate::geometry::surface::Patch, v: f64| -> Vec<Vector<2>> {
            let breaks = patch.u().breaks();
            let mut out = Vec::new();
            for w in breaks.windows(2) {
                for k in 0..=SAMPLES {
                    let p = patch.point(w[0] + (w[1] - w[0]) * k as f64 / SAMPLES as f64, v);
                    out.push(Vector::<2>::new(p.x, p.y));
                }
            }
            out
        };
        let mut outline: Vec<Vector<2>> = shell
            .patches
            .iter()
            .flat_map(|p| line(p, shell.apex))
            .collect();
        let cleft = match (&shell.wall, shell.patches.first()) {
            (Some(_), Some(patch)) => line(patch, 0.0),
            _ => Vec::new(),
        };
        let (tail, nose) = shell.x_range();
        if shell.ends[0] == End::Face {
            let inner = cleft.first().map_or(0.0, |p| p.y);
            outline.insert(0, Vector::<2>::new(tail, inner));
        }
        if shell.ends[1] == End::Face {
            outline.push(Vector::<2>::new(nose, 0.0));
        }
        outline.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
        Self {
            outline,
            cleft,
            overhang,
        }
    }

    /// Half-width of the panel with its overhang at `x`, mm; 0 beyond its ends. A cleft is spanned.
    ///
    /// The widest reach of discs of the overhang's radius along the outline's chords and the tail's face.
    pub fn half_width(&self, x: f64) -> f64 {
        let h = self.overhang;
        let disc = |p: &Vector<2>| {
            let d = x - p.x;
            if d.abs() <= h {
                p.y + (h * h - d * d).sqrt()
            } else {
                0.0
            }
        };
        let mut widest = self.outline.iter().map(disc).fold(0.0, f64::max);
        for w in self.outline.windows(2) {
            let along = w[1] - w[0];
            let length = along.norm();
            let out = Vector::<2>::new(-along.y, along.x) * (h / length);
            let t = (x - w[0].x - out.x) / along.x;
            if (0.0..=1.0).contains(&t) {
                widest = widest.max(w[0].y + out.y + along.y * t);
            }
        }
        widest
    }

    /// Half-width of the finished outline at `x`, mm.
    pub fn finished(&self, x: f64) -> f64 {
        polyline::heights(&self.outline, x).fold(0.0, f64::max)
    }

    /// Whether a place lies on the finished board, port or starboard, off its border and out of a cleft.
    pub fn covers(&self, x: f64, y: f64) -> bool {
        let cleft = polyline::height(&self.cleft, x).unwrap_or(0.0);
        y.abs() < self.finished(x) && y.abs() >= cleft
    }

    /// Half the panel's contour with overhang, from the tail's centreline to the nose's, steps of about `step` mm at most.
    pub fn contour(&self, tail: f64, nose: f64, step: f64) -> Vec<Vector<2>> {
        let (start, end) = (tail - self.overhang, nose + self.overhang);
        let mut out = vec![Vector::<2>::new(start, 0.0)];
        let count = ((end - start) / step).ceil().max(8.0) as usize;
        // Crowded to the ends, where the contour runs across.
        for i in 0..=count {
            let t = i as f64 / count as f64;
            let x = start + (end - start) * (1.0 - (std::f64::consts::PI * t).cos()) / 2.0;
            out.push(Vector::<2>::new(x, self.half_width(x)));
        }
        out.push(Vector::<2>::new(end, 0.0));
        out.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
        out
    }
}
