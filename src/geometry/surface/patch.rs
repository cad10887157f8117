//! The tensor-product patch: a net of control points over two knot vectors.

use super::Jet;
use crate::geometry::curve::{BSpline, CurveError, KnotVector, Vector};

/// A tensor-product B-spline patch S(u, v).
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    u: KnotVector,
    v: KnotVector,
    /// Control points, the v index running fastest.
    net: Vec<Vector<3>>,
}

impl Patch {
    /// Joins knots and a control net given with the v index running fastest.
    pub fn new(u: KnotVector, v: KnotVector, net: Vec<Vector<3>>) -> Result<Self, CurveError> {
        if net.len() != u.count() * v.count() {
            return Err(CurveError::Count {
                knots: u.knots().len(),
                degree: u.degree(),
                points: net.len() / v.count(),
            });
        }
        match net.iter().position(|p| !p.iter().all(|c| c.is_finite())) {
            Some(index) => Err(CurveError::NotFinite(index)),
            None => Ok(Self { u, v, net }),
        }
    }

    /// Knots in the first direction.
    pub fn u(&self) -> &KnotVector {
        &self.u
    }

    /// Knots in the second direction.
    pub fn v(&self) -> &KnotVector {
        &self.v
    }

    /// The control net, v index running fastest.
    pub fn net(&self) -> &[Vector<3>] {
        &self.net
    }

    /// The point at `(u, v)`.
    pub fn point(&self, u: f64, v: f64) -> Vector<3> {
        let (bu, bv) = (self.u.basis::<1>(u), self.v.basis::<1>(v));
        let mut sum = Vector::zeros();
        for i in 0..=self.u.degree() {
            let row = &self.net[(bu.first + i) * self.v.count() + bv.first..];
            let mut inner = Vector::<3>::zeros();
            for (j, p) in row.iter().enumerate().take(self.v.degree() + 1) {
                inner += p * bv.values[0][j];
            }
            sum += inner * bu.values[0][i];
        }
        sum
    }

    /// The point with first and second derivatives at `(u, v)` (A3.6).
    ///
    /// On a v knot where the patch has a crease the side of rising v counts; see [`jet_below`](Self::jet_below).
    pub fn jet(&self, u: f64, v: f64) -> Jet {
        self.jet_on(u, v, self.v.span(v))
    }

    /// As [`jet`](Self::jet), taking the side of falling v where `v` is a knot.
    pub fn jet_below(&self, u: f64, v: f64) -> Jet {
        let span = self.v.span(v);
        let p = self.v.degree();
        let mut below = span;
        while below > p && self.v.knots()[below] >= v {
            below -= 1;
        }
        self.jet_on(u, v, below)
    }

    fn jet_on(&self, u: f64, v: f64, v_span: usize) -> Jet {
        let (start, end) = self.v.domain();
        let (bu, bv) = (
            self.u.basis::<3>(u),
            self.v.basis_on::<3>(v_span, v.clamp(start, end)),
        );
        let mut sums = [[Vector::<3>::zeros(); 3]; 3];
        for i in 0..=self.u.degree() {
            let row = &self.net[(bu.first + i) * self.v.count() + bv.first..];
            let mut inner = [Vector::<3>::zeros(); 3];
            for (j, p) in row.iter().enumerate().take(self.v.degree() + 1) {
                for (k, sum) in inner.iter_mut().enumerate() {
                    *sum += p * bv.values[k][j];
                }
            }
            for (k, sums) in sums.iter_mut().enumerate() {
                for (l, sum) in sums.iter_mut().enumerate().take(3 - k) {
                    *sum += inner[l] * bu.values[k][i];
                }
            }
        }
        Jet {
            point: sums[0][0],
            du: sums[1][0],
            dv: sums[0][1],
            duu: sums[2][0],
            duv: sums[1][1],
            dvv: sums[0][2],
        }
    }

    /// The outward unit normal; at a pole the limit from inside the patch along u.
    ///
    /// The limit is Richardson-extrapolated from two places near the pole: a ten-thousandth of the patch away, or farther if
    /// those are degenerate themselves, as at a corner where all derivatives vanish. `None` where even a hundredth is.
    pub fn normal(&self, u: f64, v: f64) -> Option<Vector<3>> {
        const STEPS: [f64; 3] = [1e-4, 1e-3, 1e-2];
        if let Some(normal) = self.jet(u, v).normal() {
            return Some(normal);
        }
        let (start, end) = self.u.domain();
        let inward = if u - start < end - u { 1.0 } else { -1.0 };
        STEPS.iter().find_map(|share| {
            let step = share * (end - start) * inward;
            let near = self.jet(u + step, v).normal()?;
            let far = self.jet(u + 2.0 * step, v).normal()?;
            (near * 2.0 - far).try_normalize(0.5)
        })
    }

    /// The curve v ↦ S(u, v), exact.
    pub fn across(&self, u: f64) -> Result<BSpline<3>, CurveError> {
        let basis = self.u.basis::<1>(u);
        let n = self.v.count();
        let points = (0..n)
            .map(|j| {
                (0..=self.u.degree()).fold(Vector::zeros(), |sum, i| {
                    sum + self.net[(basis.first + i) * n + j] * basis.values[0][i]
                })
            })
            .collect();
        BSpline::new(self.v.clone(), points)
    }

    /// The curve u ↦ S(u, v), exact.
    pub fn along(&self, v: f64) -> Result<BSpline<3>, CurveError> {
        let basis = self.v.basis::<1>(v);
        let n = self.v.count();
        let points = (0..self.u.count())
            .map(|i| {
                (0..=self.v.degree()).fold(Vector::zeros(), |sum, j| {
                    sum + self.net[i * n + basis.first + j] * basis.values[0][j]
                })
            })
            .collect();
        BSpline::new(self.u.clone(), points)
    }
}
