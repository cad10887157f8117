//! Clamped knot vectors and their basis functions.

use super::{CurveError, MAX_DEGREE};

const W: usize = MAX_DEGREE + 1;

/// The `degree + 1` basis functions that do not vanish on a span, with derivatives.
///
/// `values[k][j]` is the `k`-th derivative of basis function `first + j`.
#[derive(Debug, Clone, Copy)]
pub struct BasisValues<const K: usize> {
    /// Index of the first basis function that does not vanish.
    pub first: usize,
    /// Derivatives by order, then function.
    pub values: [[f64; W]; K],
}

/// A clamped, non-decreasing knot vector of a given degree.
#[derive(Debug, Clone, PartialEq)]
pub struct KnotVector {
    degree: usize,
    knots: Vec<f64>,
}

impl KnotVector {
    /// Checks and keeps `knots`: finite, non-decreasing, the ends repeated `degree + 1` times, inner knots at most `degree` times.
    pub fn new(degree: usize, knots: Vec<f64>) -> Result<Self, CurveError> {
        if degree == 0 || degree > MAX_DEGREE {
            return Err(CurveError::Degree(degree));
        }
        let fault = |index, reason| Err(CurveError::Knots { index, reason });
        if knots.len() < 2 * (degree + 1) {
            return fault(knots.len(), "too few knots for the degree");
        }
        if let Some(index) = knots.iter().position(|k| !k.is_finite()) {
            return fault(index, "not finite");
        }
        if let Some(index) = knots.windows(2).position(|w| w[1] < w[0]) {
            return fault(index + 1, "it falls");
        }
        let last = knots.len() - 1;
        if knots[degree] > knots[0] {
            return fault(degree, "the start is not repeated degree + 1 times");
        }
        if knots[last - degree] < knots[last] {
            return fault(last - degree, "the end is not repeated degree + 1 times");
        }
        if let Some(index) = (1..last - degree).find(|&i| knots[i] >= knots[i + degree]) {
            return fault(index, "repeated more often than the degree");
        }
        Ok(Self { degree, knots })
    }

    /// A clamped vector with the given inner knots (each as often as it is listed) between `start` and `end`.
    pub fn clamped(degree: usize, start: f64, inner: &[f64], end: f64) -> Result<Self, CurveError> {
        let ends = degree + 1;
        let knots = std::iter::repeat_n(start, ends)
            .chain(inner.iter().copied())
            .chain(std::iter::repeat_n(end, ends))
            .collect();
        Self::new(degree, knots)
    }

    /// `spans` equal spans from `start` to `end`.
    pub fn uniform(degree: usize, start: f64, end: f64, spans: usize) -> Result<Self, CurveError> {
        Self::divided(degree, &[start, end], spans)
    }

    /// Simple knots at the rising `breaks` and at the points that divide every gap between them in `pieces`.
    ///
    /// With the breaks at the parameters of given points and two or three pieces a gap, a [`FairCurve`](super::FairCurve)
    /// has room to be fair between them.
    pub fn divided(degree: usize, breaks: &[f64], pieces: usize) -> Result<Self, CurveError> {
        let [start, .., end] = *breaks else {
            return Err(CurveError::TooFew {
                got: breaks.len(),
                need: 2,
            });
        };
        let pieces = pieces.max(1);
        let mut inner = Vec::with_capacity(breaks.len() * pieces);
        for pair in breaks.windows(2) {
            if pair[1] <= pair[0] {
                return Err(CurveError::Coincident(inner.len() / pieces + 1));
            }
            let step = (pair[1] - pair[0]) / pieces as f64;
            inner.extend((0..pieces).map(|i| pair[0] + step * i as f64));
        }
        Self::clamped(degree, start, &inner[1..], end)
    }

    /// Knots for interpolation at rising `parameters`: averages of `degree` neighbours (*The NURBS Book*, eq. 9.8).
    pub fn averaged(degree: usize, parameters: &[f64]) -> Result<Self, CurveError> {
        let n = parameters.len();
        if n < degree + 1 {
            return Err(CurveError::TooFew {
                got: n,
                need: degree + 1,
            });
        }
        let inner: Vec<f64> = (1..n - degree)
            .map(|j| parameters[j..j + degree].iter().sum::<f64>() / degree as f64)
            .collect();
        Self::clamped(degree, parameters[0], &inner, parameters[n - 1])
    }

    /// Degree.
    pub fn degree(&self) -> usize {
        self.degree
    }

    /// The knots, ends repeated.
    pub fn knots(&self) -> &[f64] {
        &self.knots
    }

    /// Number of control points.
    pub fn count(&self) -> usize {
        self.knots.len() - self.degree - 1
    }

    /// First and last parameter.
    pub fn domain(&self) -> (f64, f64) {
        (self.knots[0], self.knots[self.knots.len() - 1])
    }

    /// The distinct knots in rising order, ends included.
    pub fn breaks(&self) -> Vec<f64> {
        let mut breaks = self.knots.clone();
        breaks.dedup();
        breaks
    }

    /// How often `u` stands among the knots, compared exactly.
    pub fn multiplicity(&self, u: f64) -> usize {
        self.knots.iter().filter(|&&k| k == u).count()
    }

    /// Index `i` of the non-empty span `[u_i, u_{i+1})` holding `u`; parameters outside are clamped (A2.1).
    pub fn span(&self, u: f64) -> usize {
        let inner = &self.knots[self.degree + 1..self.count()];
        self.degree + inner.partition_point(|&k| k <= u)
    }

    /// The non-empty span that ends at or holds `u`: at a knot the one to its left.
    pub(in crate::geometry) fn span_before(&self, u: f64) -> usize {
        let inner = &self.knots[self.degree + 1..self.count()];
        let next = inner.partition_point(|&k| k < u);
        self.degree + next
    }

    /// Values and the first `K - 1` derivatives of the non-vanishing basis functions at `u` (A2.2, A2.3).
    ///
    /// `u` is clamped to the domain. Derivatives above the degree are zero. At a knot the span to its right counts,
    /// at the end of the domain the last one.
    pub fn basis<const K: usize>(&self, u: f64) -> BasisValues<K> {
        let (start, end) = self.domain();
        let u = u.clamp(start, end);
        self.basis_on(self.span(u), u)
    }

    /// As [`basis`](Self::basis), for the polynomial piece on `span` whether or not `u` lies in it.
    pub fn basis_on<const K: usize>(&self, span: usize, u: f64) -> BasisValues<K> {
        // The loops unroll where the degree is a constant, which is most of the speed.
        let values = match self.degree {
            2 => self.values_on(2, span, u),
            3 => self.values_on(3, span, u),
            5 => self.values_on(5, span, u),
            p => self.values_on(p, span, u),
        };
        BasisValues {
            first: span - self.degree,
            values,
        }
    }

    #[inline(always)]
    fn values_on<const K: usize>(&self, p: usize, span: usize, u: f64) -> [[f64; W]; K] {
        let mut values = [[0.0; W]; K];
        if K == 1 {
            values[0] = self.functions(p, span, u);
        } else if K > 1 {
            let ndu = self.table(p, span, u);
            for j in 0..=p {
                values[0][j] = ndu[j][p];
            }
            fill_derivatives(p, &ndu, &mut values);
        }
        values
    }

    /// The functions alone (A2.2).
    #[inline(always)]
    pub(super) fn functions(&self, p: usize, span: usize, u: f64) -> [f64; W] {
        // Knots u_{span+1-p} to u_{span+p}: one check of bounds for all.
        let near = &self.knots[span + 1 - p..=span + p];
        let mut values = [0.0; W];
        values[0] = 1.0;
        for j in 1..=p {
            let mut saved = 0.0;
            for r in 0..j {
                let (right, left) = (near[p + r] - u, u - near[p + r - j]);
                // The reciprocal does not wait for the values: divisions overlap.
                let term = values[r] * (1.0 / (right + left));
                values[r] = saved + right * term;
                saved = left * term;
            }
            values[j] = saved;
        }
        values
    }

    /// First half of A2.3: functions of all degrees above the diagonal, knot differences below.
    #[inline(always)]
    fn table(&self, p: usize, span: usize, u: f64) -> [[f64; W]; W] {
        let near = &self.knots[span + 1 - p..=span + p];
        let mut ndu = [[0.0; W]; W];
        ndu[0][0] = 1.0;
        for j in 1..=p {
            let mut saved = 0.0;
            for r in 0..j {
                let (right, left) = (near[p + r] - u, u - near[p + r - j]);
                ndu[j][r] = right + left;
                let term = ndu[r][j - 1] * (1.0 / ndu[j][r]);
                ndu[r][j] = saved + right * term;
                saved = left * term;
            }
            ndu[j][j] = saved;
        }
        ndu
    }
}

/// Second half of A2.3: differences of lower-degree basis functions.
#[inline(always)]
fn fill_derivatives<const K: usize>(p: usize, ndu: &[[f64; W]; W], values: &mut [[f64; W]; K]) {
    for r in 0..=p {
        let mut a = [[0.0; W]; 2];
        let (mut s1, mut s2) = (0, 1);
        a[0][0] = 1.0;
        for k in 1..K.min(p + 1) {
            let mut d = 0.0;
            let pk = p - k;
            if r >= k {
                a[s2][0] = a[s1][0] / ndu[pk + 1][r - k];
                d = a[s2][0] * ndu[r - k][pk];
            }
            let j1 = if r + 1 >= k { 1 } else { k - r };
            let j2 = if r <= pk + 1 { k - 1 } else { p - r };
            for j in j1..=j2 {
                let row = r + j - k;
                a[s2][j] = (a[s1][j] - a[s1][j - 1]) / ndu[pk + 1][row];
                d += a[s2][j] * ndu[row][pk];
            }
            if r <= pk {
                a[s2][k] = -a[s1][k - 1] / ndu[pk + 1][r];
                d += a[s2][k] * ndu[r][pk];
            }
            values[k][r] = d;
            std::mem::swap(&mut s1, &mut s2);
        }
    }
    let mut factor = p as f64;
    for (k, row) in values.iter_mut().enumerate().skip(1).take(p) {
        row[..=p].iter_mut().for_each(|v| *v *= factor);
        factor *= (p - k) as f64;
    }
}
