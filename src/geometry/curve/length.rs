//! Arc length.

use super::quadrature::{gauss_legendre, integrate};
use super::{BSpline, CurveError};
use crate::geometry::solve::root;

/// Points of the Gauss–Legendre rule on a piece.
const POINTS: usize = 12;

/// Halvings of a span before a piece is taken as it is: cusps, where the speed has a kink.
const DEPTH: u32 = 40;

/// The arc length of a curve, ready to be asked many times.
#[derive(Debug, Clone)]
pub struct ArcLength<'a, const D: usize> {
    curve: &'a BSpline<D>,
    rule: Vec<(f64, f64)>,
    /// Parameters, and lengths up to them.
    marks: Vec<(f64, f64)>,
}

impl<'a, const D: usize> ArcLength<'a, D> {
    /// Measures `curve` so that its whole length is right to about `accuracy` mm.
    ///
    /// Spans are halved until a Gauss–Legendre rule of 12 points agrees with its halves within the piece's share of the
    /// accuracy; the halves, far better, are kept.
    ///
    /// # Errors
    /// [`CurveError::Tolerance`] unless `accuracy` is finite and positive.
    pub fn new(curve: &'a BSpline<D>, accuracy: f64) -> Result<Self, CurveError> {
        if !(accuracy.is_finite() && accuracy > 0.0) {
            return Err(CurveError::Tolerance(accuracy));
        }
        let mut table = Self {
            curve,
            rule: gauss_legendre(POINTS),
            marks: vec![(curve.domain().0, 0.0)],
        };
        let (start, end) = curve.domain();
        for w in curve.knots().breaks().windows(2) {
            let share = accuracy * (w[1] - w[0]) / (end - start);
            let whole = table.piece(w[0], w[1]);
            table.measure(w[0], w[1], whole, share, DEPTH);
        }
        Ok(table)
    }

    fn piece(&self, a: f64, b: f64) -> f64 {
        integrate(&self.rule, a, b, |u| {
            self.curve.derivatives::<2>(u)[1].norm()
        })
    }

    fn measure(&mut self, a: f64, b: f64, whole: f64, share: f64, depth: u32) {
        let mid = 0.5 * (a + b);
        let (left, right) = (self.piece(a, mid), self.piece(mid, b));
        // Below rounding there is nothing to gain.
        let share_or_rounding = share.max(4.0 * f64::EPSILON * whole);
        if depth == 0 || (left + right - whole).abs() <= share_or_rounding {
            for (u, length) in [(mid, left), (b, right)] {
                let before = self.total();
                self.marks.push((u, before + length));
            }
        } else {
            self.measure(a, mid, left, 0.5 * share, depth - 1);
            self.measure(mid, b, right, 0.5 * share, depth - 1);
        }
    }

    /// The whole length, mm.
    pub fn total(&self) -> f64 {
        self.marks.last().map_or(0.0, |m| m.1)
    }

    /// The length from the start of the domain to `u`, mm; `u` is clamped to the domain.
    pub fn at(&self, u: f64) -> f64 {
        let (start, end) = self.curve.domain();
        let u = u.clamp(start, end);
        let i = self.marks.partition_point(|m| m.0 <= u).max(1) - 1;
        let (from, before) = self.marks[i];
        before + self.piece(from, u)
    }

    /// The parameter at a length (mm) from the start, clamped to the curve, such that [`at`](Self::at) gives the length
    /// back to about 1e-12 of the whole.
    pub fn parameter(&self, length: f64) -> f64 {
        let i = self.marks.partition_point(|m| m.1 <= length);
        let Some(&(end, _)) = self.marks.get(i) else {
            return self.curve.domain().1;
        };
        if i == 0 {
            return self.curve.domain().0;
        }
        let (from, before) = self.marks[i - 1];
        let f = |u: f64| {
            let speed = self.curve.derivatives::<2>(u)[1].norm();
            (before + self.piece(from, u) - length, speed)
        };
        root(f, from, end, 1e-14 * (end - from)).unwrap_or(from)
    }

    /// The parameters of `count` (at least 2) points that divide the length evenly, ends included.
    pub fn even(&self, count: usize) -> Vec<f64> {
        let last = count.max(2) - 1;
        (0..=last)
            .map(|i| self.parameter(self.total() * i as f64 / last as f64))
            .collect()
    }
}

impl<const D: usize> BSpline<D> {
    /// The length of the whole curve, mm, right to about `accuracy` mm.
    ///
    /// # Errors
    /// As [`ArcLength::new`].
    pub fn length(&self, accuracy: f64) -> Result<f64, CurveError> {
        Ok(ArcLength::new(self, accuracy)?.total())
    }
}
