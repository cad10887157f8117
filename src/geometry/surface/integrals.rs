//! Surface integrals by Gauss–Legendre per knot span.

use super::Patch;
use crate::geometry::curve::{KnotVector, Vector, gauss_legendre};

/// Least number of pieces the rule is applied to, each way.
const PIECES: usize = 8;

/// What a patch contributes to the measures of the solid it bounds.
///
/// By the divergence theorem with the fields (0, y, 0) and its moments, so faces in planes of constant x or z, and the
/// plane y = 0, contribute nothing to `volume`; a half board's outer patch alone gives the half volume.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Integrals {
    /// ∬ y n_y dA, mm³.
    pub volume: f64,
    /// Volume moments ∭ (x, y, z) dV by the same field, mm⁴.
    pub moment: Vector<3>,
    /// ∬ dA, mm².
    pub area: f64,
    /// Area moments ∬ (x, y, z) dA, mm³.
    pub area_moment: Vector<3>,
}

impl std::ops::Add for Integrals {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            volume: self.volume + other.volume,
            moment: self.moment + other.moment,
            area: self.area + other.area,
            area_moment: self.area_moment + other.area_moment,
        }
    }
}

/// Integrals over the whole of `patch`.
///
/// Volume and volume moments of bicubic patches are polynomial integrals of degree at most 11 a span and come out exact
/// to rounding (6 points a span are exact to degree 11); area is not polynomial and converges with the pieces, of which
/// a patch with few knots is given at least eight each way.
pub fn integrals(patch: &Patch) -> Integrals {
    let rule = gauss_legendre(6);
    let (us, vs) = (pieces(patch.u()), pieces(patch.v()));
    let mut sum = Integrals {
        volume: 0.0,
        moment: Vector::zeros(),
        area: 0.0,
        area_moment: Vector::zeros(),
    };
    for u in us.windows(2) {
        for v in vs.windows(2) {
            let (hu, hv) = ((u[1] - u[0]) / 2.0, (v[1] - v[0]) / 2.0);
            for &(a, wa) in &rule {
                for &(b, wb) in &rule {
                    let jet = patch.jet(u[0] + hu * (a + 1.0), v[0] + hv * (b + 1.0));
                    let vector = jet.area_vector() * (wa * wb * hu * hv);
                    let (p, flux, area) = (jet.point, vector.y, vector.norm());
                    sum.volume += p.y * flux;
                    sum.moment += Vector::<3>::new(p.x * p.y, p.y * p.y / 2.0, p.z * p.y) * flux;
                    sum.area += area;
                    sum.area_moment += p * area;
                }
            }
        }
    }
    sum
}

/// The spans of `knots`, divided where they are few.
fn pieces(knots: &KnotVector) -> Vec<f64> {
    let breaks = knots.breaks();
    let each = PIECES.div_ceil(breaks.len() - 1);
    let mut out = vec![breaks[0]];
    for w in breaks.windows(2) {
        out.extend((1..=each).map(|k| w[0] + (w[1] - w[0]) * k as f64 / each as f64));
    }
    out
}
