//! The B-spline curve: control points over a knot vector.

use super::{CurveError, KnotVector, Vector};

/// A clamped non-uniform B-spline curve in `D` dimensions.
#[derive(Debug, Clone, PartialEq)]
pub struct BSpline<const D: usize> {
    knots: KnotVector,
    points: Vec<Vector<D>>,
}

impl<const D: usize> BSpline<D> {
    /// Joins knots and control points, which must be finite and of the right count.
    pub fn new(knots: KnotVector, points: Vec<Vector<D>>) -> Result<Self, CurveError> {
        if points.len() != knots.count() {
            return Err(CurveError::Count {
                knots: knots.knots().len(),
                degree: knots.degree(),
                points: points.len(),
            });
        }
        match points.iter().position(|p| !p.iter().all(|c| c.is_finite())) {
            Some(index) => Err(CurveError::NotFinite(index)),
            None => Ok(Self { knots, points }),
        }
    }

    /// The knot vector.
    pub fn knots(&self) -> &KnotVector {
        &self.knots
    }

    /// The control points.
    pub fn points(&self) -> &[Vector<D>] {
        &self.points
    }

    /// Degree.
    pub fn degree(&self) -> usize {
        self.knots.degree()
    }

    /// First and last parameter.
    pub fn domain(&self) -> (f64, f64) {
        self.knots.domain()
    }

    /// The point at `u`, clamped to the domain.
    pub fn point(&self, u: f64) -> Vector<D> {
        self.derivatives::<1>(u)[0]
    }

    /// The point and the first `K - 1` derivatives by the parameter at `u` (A3.2).
    pub fn derivatives<const K: usize>(&self, u: f64) -> [Vector<D>; K] {
        let (start, end) = self.domain();
        let u = u.clamp(start, end);
        self.derivatives_on(self.knots.span(u), u)
    }

    /// As [`derivatives`](Self::derivatives), of the polynomial piece on a knot span whether or not `u` lies in it.
    #[inline]
    pub(in crate::geometry) fn derivatives_on<const K: usize>(
        &self,
        span: usize,
        u: f64,
    ) -> [Vector<D>; K] {
        let basis = self.knots.basis_on::<K>(span, u);
        let local = &self.points[basis.first..=basis.first + self.degree()];
        std::array::from_fn(|k| {
            local
                .iter()
                .zip(&basis.values[k])
                .fold(Vector::zeros(), |sum, (p, b)| sum + p * *b)
        })
    }
}
