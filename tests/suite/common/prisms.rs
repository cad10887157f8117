//! Boards of one straight-sided or round-railed section, tapering or not, and a construction to try on them.

use boardwright::design::{Construction, parse};
use boardwright::geometry::curve::Vector;
use boardwright::shape::{End, Family};

/// A board with straight sides in plan whose section is level at bottom and deck; the rail is upright or a half circle.
pub struct Prism {
    pub length: f64,
    /// Half-width of the level part at the tail and at the nose.
    pub half: [f64; 2],
    pub height: f64,
    /// Half-circular rails of radius height / 2; upright ones otherwise.
    pub round: bool,
}

impl Family for Prism {
    fn breaks(&self) -> Vec<f64> {
        vec![0.0, 1.0]
    }
    fn rows(&self) -> Vec<f64> {
        vec![]
    }
    fn marks(&self) -> Vec<f64> {
        vec![0.0, 0.4, 0.5, 0.6, 1.0]
    }
    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>> {
        let half = self.half[0] + (self.half[1] - self.half[0]) * u;
        let (h, x) = (self.height, self.length * u);
        v.iter()
            .map(|&v| {
                let (y, z) = if v <= 0.4 {
                    (half * v / 0.4, 0.0)
                } else if v >= 0.6 {
                    (half * (1.0 - v) / 0.4, h)
                } else if self.round {
                    let angle = std::f64::consts::PI * (v - 0.4) / 0.2;
                    (half + h / 2.0 * angle.sin(), h / 2.0 * (1.0 - angle.cos()))
                } else {
                    (half, h * (v - 0.4) / 0.2)
                };
                Vector::<3>::new(x, y, z)
            })
            .collect()
    }
    fn ends(&self) -> [End; 2] {
        [End::Face; 2]
    }
    fn apex(&self) -> f64 {
        0.5
    }
}

/// The default construction: strips 6 × 12.7 mm, two 8 mm starters, skins of 4 mm.
pub fn construction() -> Construction {
    let text = "name = \"t\"\n[outline]\nlength = 2000\nwidth = 520\nnose_width = 300\ntail_width = 360\n\
                [rocker]\nnose = 120\ntail = 50\n[foil]\ncentre = 66\nnose = 38\ntail = 42\n";
    let design = parse(text, "t.toml").expect("a plain board");
    design.construction.clone()
}
