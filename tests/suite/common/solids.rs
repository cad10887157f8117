//! Families of sections whose solids have closed forms.

use boardwright::geometry::curve::Vector;
use boardwright::shape::{End, Family};

/// A superellipsoid |x/a|ⁿ + |y/b|ⁿ + |z/c|ⁿ = 1-like board: outline, profile and sections are superellipses of one
/// exponent; n = 2 is the ellipsoid. x runs from 0 to 2a.
pub struct Superellipsoid {
    pub semi: [f64; 3],
    pub exponent: f64,
}

impl Superellipsoid {
    /// Point at polar angle `t` of the unit superellipse, starting on the first axis.
    fn unit(&self, t: f64) -> [f64; 2] {
        let n = self.exponent;
        let (s, c) = t.sin_cos();
        let r = (s.abs().powf(n) + c.abs().powf(n)).powf(-1.0 / n);
        [r * c, r * s]
    }
}

impl Family for Superellipsoid {
    fn breaks(&self) -> Vec<f64> {
        vec![0.0, 1.0]
    }
    fn rows(&self) -> Vec<f64> {
        (1..8).map(|i| f64::from(i) / 8.0).collect()
    }
    fn marks(&self) -> Vec<f64> {
        vec![0.0, 0.5, 1.0]
    }
    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>> {
        use std::f64::consts::PI;
        let [a, b, c] = self.semi;
        let [x, scale] = self.unit(PI * (1.0 - u));
        let scale = if u == 0.0 || u == 1.0 { 0.0 } else { scale };
        v.iter()
            .map(|v| {
                let [y, z] = self.unit(PI * (v - 0.5));
                let y = if *v == 0.0 || *v == 1.0 { 0.0 } else { y };
                Vector::<3>::new(a * (1.0 + x), b * scale * y, c * scale * z)
            })
            .collect()
    }
    fn ends(&self) -> [End; 2] {
        [End::Closed; 2]
    }
    fn apex(&self) -> f64 {
        0.5
    }
}

/// Wigley's parabolic hull y = (B/2)(1 − ξ²)(1 − ζ²), closed above by a flat deck at z = 0.
pub struct Wigley {
    pub length: f64,
    pub beam: f64,
    pub draught: f64,
}

impl Family for Wigley {
    fn breaks(&self) -> Vec<f64> {
        vec![0.0, 1.0]
    }
    fn rows(&self) -> Vec<f64> {
        vec![]
    }
    fn marks(&self) -> Vec<f64> {
        vec![0.0, 0.5, 1.0]
    }
    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>> {
        let xi = 2.0 * u - 1.0;
        let breadth = self.beam / 2.0 * (1.0 - xi * xi);
        v.iter()
            .map(|v| {
                let (y, z) = if *v <= 0.5 {
                    let zeta = 1.0 - 2.0 * v;
                    (breadth * (1.0 - zeta * zeta), -self.draught * zeta)
                } else {
                    (breadth * (2.0 - 2.0 * v), 0.0)
                };
                Vector::<3>::new(self.length * u, y, z)
            })
            .collect()
    }
    fn ends(&self) -> [End; 2] {
        [End::Closed; 2]
    }
    fn apex(&self) -> f64 {
        0.5
    }
}

/// A box of length, beam and height on the base plane.
pub struct Block(pub [f64; 3]);

impl Family for Block {
    fn breaks(&self) -> Vec<f64> {
        vec![0.0, 1.0]
    }
    fn rows(&self) -> Vec<f64> {
        vec![]
    }
    fn marks(&self) -> Vec<f64> {
        vec![0.0, 0.25, 0.5, 0.75, 1.0]
    }
    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>> {
        let [length, beam, height] = self.0;
        v.iter()
            .map(|&v| {
                let up = ((v - 0.25) * 2.0).clamp(0.0, 1.0);
                let out = (4.0 * v).min(4.0 - 4.0 * v).min(1.0);
                Vector::from([length * u, beam / 2.0 * out, height * up])
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
