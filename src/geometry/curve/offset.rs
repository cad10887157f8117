//! Curves at a constant distance in the plane.

use super::{BSpline, CurveError, KnotVector, Vector, approximate};

/// Largest turn (radians) at a knot that still counts as smooth.
const SMOOTH: f64 = 1e-6;

impl BSpline<2> {
    /// The curve at `distance` mm to the left (to the right if negative), a cubic at the same parameters, within `tolerance`
    /// mm of `C(u) + distance · n(u)`.
    ///
    /// The tightest bend is found exactly, from the roots of the curvature's derivative, so a fold of the offset never passes
    /// unseen. Parts of the curve far from each other may still have offsets that cross: that is not looked for.
    ///
    /// # Errors
    /// [`CurveError::TooTight`] where the curve bends inwards with a radius not larger than the distance,
    /// [`CurveError::Crease`] where it turns at a knot or stands still, [`CurveError::NotFinite`] for such a distance,
    /// [`CurveError::Tolerance`], and [`CurveError::NotReached`] as in [`approximate`].
    pub fn offset(&self, distance: f64, tolerance: f64) -> Result<Self, CurveError> {
        if !distance.is_finite() {
            return Err(CurveError::NotFinite(0));
        }
        self.check_offset(distance)?;
        let p = self.degree();
        let (start, end) = self.domain();
        let mut inner = Vec::new();
        for &u in self
            .knots()
            .breaks()
            .iter()
            .filter(|&&u| u > start && u < end)
        {
            // The normal is once less smooth than the curve.
            let smooth = (p - self.knots().multiplicity(u)).saturating_sub(1).min(2);
            inner.extend(std::iter::repeat_n(u, 3 - smooth));
        }
        let shifted = |u: f64| {
            let [c, d] = self.derivatives::<2>(u);
            c + Vector::from([-d[1], d[0]]) * (distance / d.norm())
        };
        approximate(
            shifted,
            KnotVector::clamped(3, start, &inner, end)?,
            tolerance,
        )
    }

    /// Refuses creases, rests, and bends tighter than `distance` on its side.
    fn check_offset(&self, distance: f64) -> Result<(), CurveError> {
        let breaks = self.knots().breaks();
        let inner = self.curvature_extrema();
        let mut end_of_last: Option<Vector<2>> = None;
        for w in breaks.windows(2) {
            let span = self.knots().span(w[0]);
            let on = |u: f64| self.derivatives_on::<3>(span, u);
            let [a, b] = [w[0], w[1]].map(|u| on(u)[1]);
            if let Some(before) = end_of_last
                && before.angle(&a) > SMOOTH
            {
                return Err(CurveError::Crease(w[0]));
            }
            end_of_last = Some(b);
            let inside = inner.iter().copied().filter(|&u| u > w[0] && u < w[1]);
            for u in [w[0], w[1]].into_iter().chain(inside) {
                let [_, d1, d2] = on(u);
                let speed = d1.norm();
                if speed <= 1e-12 * (1.0 + d2.norm()) {
                    return Err(CurveError::Crease(u));
                }
                let bend = d1.perp(&d2) / speed.powi(3) * distance.signum();
                if bend * distance.abs() >= 1.0 - 1e-9 {
                    return Err(CurveError::TooTight {
                        parameter: u,
                        radius: 1.0 / bend,
                        distance: distance.abs(),
                    });
                }
            }
        }
        Ok(())
    }
}
