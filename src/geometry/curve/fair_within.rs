//! The fairest spline that stays near given points.

use nalgebra::{Cholesky, DMatrix, DVector};

use super::constrained::Reduced;
use super::fair::determines;
use super::{BSpline, Condition, CurveError, FairCurve, Term, Vector};
use crate::geometry::solve::backtrack;

/// How far above the least the energy may be, relatively.
const GAP: f64 = 1e-4;

impl<const D: usize> FairCurve<D> {
    /// The curve of least energy that meets the conditions and passes within `tolerance` mm of each target, a parameter and
    /// the point wanted there.
    ///
    /// Smoothing after Reinsch (*Smoothing by spline functions*, 1967), but with a bound on each point instead of on their
    /// sum, so that one point never pays for another. Solved by the barrier method (Boyd & Vandenberghe, *Convex
    /// Optimization*, section 11.3), every step of which keeps the bound; the energy ends within 1e-4 relative of the least,
    /// by the method's duality gap, or below 1e-9 of the energy of the curve through all targets.
    ///
    /// # Errors
    /// As [`solve`](Self::solve); [`CurveError::Tolerance`]; [`CurveError::NotReached`] when the conditions or the knots
    /// keep the curve further than `tolerance` from a target.
    pub fn solve_within(
        &self,
        targets: &[(f64, Vector<D>)],
        tolerance: f64,
    ) -> Result<BSpline<D>, CurveError> {
        if !(tolerance.is_finite() && tolerance > 0.0) {
            return Err(CurveError::Tolerance(tolerance));
        }
        let lowest = self.check()?;
        let wanted = self.as_conditions(targets);
        wanted.check()?;
        let all: Vec<&Condition<D>> = self
            .conditions()
            .iter()
            .chain(wanted.conditions())
            .collect();
        if !determines(&all, lowest, self.knots().domain()) {
            return Err(CurveError::Undetermined);
        }
        let (form, affine) = (self.form(), self.affine()?);
        let (rows, values) = wanted.rows();
        let (rows, at_origin) = affine.restrict(&rows);
        let tube = Tube::<D> {
            energy: affine.reduce(|x| self.apply(&form, x)),
            offset: at_origin - values,
            rows,
            radius: tolerance,
        };
        let start = tube.start().ok_or(CurveError::Undetermined)?;
        let reached = tube.reach(&start);
        if reached >= tolerance {
            return Err(CurveError::NotReached { tolerance, reached });
        }
        let lift = |y: &DVector<f64>| affine.lift(y);
        let energy = |y: &DVector<f64>| {
            let x = lift(y);
            let column = DMatrix::from_column_slice(x.len(), 1, x.as_slice());
            column.dot(&self.apply(&form, &column))
        };
        self.curve(&lift(&tube.fairest(start, energy)))
    }

    /// Each target as conditions on its point.
    fn as_conditions(&self, targets: &[(f64, Vector<D>)]) -> Self {
        let mut out = Self::new(self.knots().clone()).energy(1, 1.0);
        for &(at, point) in targets {
            for axis in 0..D {
                let weight = Vector::from_fn(|i, _| f64::from(u8::from(i == axis)));
                out = out.condition(Condition {
                    terms: vec![Term {
                        at,
                        order: 0,
                        weight,
                    }],
                    value: point[axis],
                });
            }
        }
        out
    }
}

/// Least energy with every `D` rows of residuals `rows · y + offset` shorter than `radius`.
struct Tube<const D: usize> {
    energy: Reduced,
    rows: DMatrix<f64>,
    offset: DVector<f64>,
    radius: f64,
}

impl<const D: usize> Tube<D> {
    fn residual(&self, y: &DVector<f64>) -> DVector<f64> {
        &self.rows * y + &self.offset
    }

    /// Squared lengths of the residuals.
    fn squares<'a>(&self, residual: &'a DVector<f64>) -> impl Iterator<Item = f64> + use<'a, D> {
        residual
            .as_slice()
            .chunks(D.max(1))
            .map(|r| r.iter().map(|c| c * c).sum())
    }

    fn reach(&self, y: &DVector<f64>) -> f64 {
        self.squares(&self.residual(y)).fold(0.0, f64::max).sqrt()
    }

    /// A curve well inside the tube if there is one, by least squares of rising weight.
    fn start(&self) -> Option<DVector<f64>> {
        let normal = self.rows.tr_mul(&self.rows);
        let side = self.rows.tr_mul(&self.offset);
        let unit = self.energy.matrix.trace() / normal.trace().max(f64::MIN_POSITIVE);
        let mut best: Option<(f64, DVector<f64>)> = None;
        for power in -2..10 {
            let weight = unit * 10f64.powi(power);
            let step = Reduced {
                matrix: &self.energy.matrix + &normal * weight,
                gradient: &self.energy.gradient + &side * weight,
            };
            let Some(y) = step.minimum() else { continue };
            let reach = self.reach(&y);
            if best.as_ref().is_none_or(|b| reach < b.0) {
                best = Some((reach, y));
            }
            if reach <= 0.5 * self.radius {
                break;
            }
        }
        best.map(|b| b.1)
    }

    /// Follows the central path from a curve inside the tube.
    fn fairest(&self, mut y: DVector<f64>, energy: impl Fn(&DVector<f64>) -> f64) -> DVector<f64> {
        let count = (self.offset.len() / D.max(1)) as f64;
        let first = energy(&y);
        if count == 0.0 || first <= 0.0 {
            return y;
        }
        let mut sharpness = count / first;
        loop {
            for _ in 0..30 {
                if !self.newton(&mut y, sharpness) {
                    break;
                }
            }
            if count / sharpness <= (GAP * energy(&y)).max(1e-9 * first) {
                return y;
            }
            sharpness *= 10.0;
        }
    }

    /// One damped Newton step on `sharpness · energy + barrier`; false once there is nothing to gain.
    fn newton(&self, y: &mut DVector<f64>, sharpness: f64) -> bool {
        let residual = self.residual(y);
        let mut bend = DMatrix::zeros(residual.len(), self.rows.ncols());
        let mut pull = residual.clone();
        for (i, square) in self.squares(&residual).enumerate() {
            let room = self.radius * self.radius - square;
            for a in i * D..i * D + D {
                pull[a] *= 2.0 / room;
                for b in i * D..i * D + D {
                    let own = if a == b { 2.0 / room } else { 0.0 };
                    let h = own + 4.0 * residual[a] * residual[b] / (room * room);
                    for c in 0..bend.ncols() {
                        bend[(a, c)] += h * self.rows[(b, c)];
                    }
                }
            }
        }
        let e = &self.energy;
        let gradient =
            (&e.matrix * &*y + &e.gradient) * (2.0 * sharpness) + self.rows.tr_mul(&pull);
        let hessian = &e.matrix * (2.0 * sharpness) + self.rows.tr_mul(&bend);
        let Some(factor) = Cholesky::new(hessian) else {
            return false;
        };
        let step = -factor.solve(&gradient);
        let slope = gradient.dot(&step);
        // Half the squared Newton decrement bounds what is left to gain.
        if slope > -1e-6 || slope.is_nan() {
            return false;
        }
        let found = backtrack(60, |share| {
            let gain = self.gain(y, &(&*y + &step * share), sharpness);
            gain.is_some_and(|gain| gain <= 0.1 * share * slope)
        });
        if let Some(share) = found {
            *y += step * share;
        }
        found.is_some()
    }

    /// Change of the barrier function from `y` to `trial`; `None` outside the tube.
    fn gain(&self, y: &DVector<f64>, trial: &DVector<f64>, sharpness: f64) -> Option<f64> {
        let e = &self.energy;
        let step = trial - y;
        // The difference of the quadratic, without cancellation.
        let quadratic = step.dot(&(&e.matrix * (y + trial))) + 2.0 * e.gradient.dot(&step);
        let (before, after) = (self.residual(y), self.residual(trial));
        let limit = self.radius * self.radius;
        let mut barrier = 0.0;
        for (was, is) in self.squares(&before).zip(self.squares(&after)) {
            if is >= limit || is.is_nan() {
                return None;
            }
            barrier += ((limit - was) / (limit - is)).ln();
        }
        Some(sharpness * quadratic + barrier)
    }
}
