//! Splines through given points.

use super::banded::Banded;
use super::{BSpline, CurveError, KnotVector, Vector};

/// How parameters are given to the points (*The NURBS Book*, section 9.2.1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Parameters<'a> {
    /// In proportion to the distances between the points.
    ChordLength,
    /// In proportion to the square roots of the distances; calmer at sharp turns.
    Centripetal,
    /// As given, strictly rising.
    Values(&'a [f64]),
}

/// What closes the system at the two ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ends<const D: usize> {
    /// Nothing: knots are averaged from the parameters.
    Free,
    /// The second derivative is zero at both ends, as in a batten with free ends. Knots lie at the points.
    Natural,
    /// First derivatives by the parameter at both ends. Knots lie at the points.
    Tangents(Vector<D>, Vector<D>),
}

/// Parameters of `points`, from 0 to 1 unless given.
pub fn parameters<const D: usize>(
    points: &[Vector<D>],
    rule: Parameters<'_>,
) -> Result<Vec<f64>, CurveError> {
    if let Some(index) = points.iter().position(|p| !p.iter().all(|c| c.is_finite())) {
        return Err(CurveError::NotFinite(index));
    }
    let power = match rule {
        Parameters::Values(values) => {
            if values.len() != points.len() {
                return Err(CurveError::TooFew {
                    got: values.len(),
                    need: points.len(),
                });
            }
            if let Some(index) = values.iter().position(|t| !t.is_finite()) {
                return Err(CurveError::NotFinite(index));
            }
            return match values.windows(2).position(|w| w[1] <= w[0]) {
                Some(index) => Err(CurveError::Coincident(index + 1)),
                None => Ok(values.to_vec()),
            };
        }
        Parameters::ChordLength => 1.0,
        Parameters::Centripetal => 0.5,
    };
    let mut sum = 0.0;
    let mut out = vec![0.0];
    for (index, pair) in points.windows(2).enumerate() {
        let step = (pair[1] - pair[0]).norm().powf(power);
        if step <= 0.0 {
            return Err(CurveError::Coincident(index + 1));
        }
        sum += step;
        out.push(sum);
    }
    out.iter_mut().for_each(|t| *t /= sum);
    if let Some(last) = out.last_mut().filter(|_| sum > 0.0) {
        *last = 1.0;
    }
    Ok(out)
}

/// A spline of `degree` through `points`.
///
/// `Natural` and `Tangents` ends are for cubics, whose knots then lie at the points (*The NURBS Book*, section 9.2.3;
/// de Boor, *A Practical Guide to Splines*, ch. IV). The points are met to rounding.
pub fn interpolate<const D: usize>(
    points: &[Vector<D>],
    degree: usize,
    rule: Parameters<'_>,
    ends: Ends<D>,
) -> Result<BSpline<D>, CurveError> {
    let need = if matches!(ends, Ends::Free) {
        degree + 1
    } else {
        2
    };
    if points.len() < need {
        return Err(CurveError::TooFew {
            got: points.len(),
            need,
        });
    }
    let t = parameters(points, rule)?;
    let n = t.len();
    let at = |i: usize| (t[i], 0);
    let (order, start, end) = match ends {
        Ends::Free => {
            let sites: Vec<_> = (0..n).map(at).collect();
            return collocate(KnotVector::averaged(degree, &t)?, &sites, points.to_vec());
        }
        Ends::Natural => (2, Vector::zeros(), Vector::zeros()),
        Ends::Tangents(start, end) => (1, start, end),
    };
    if degree != 3 {
        return Err(CurveError::Degree(degree));
    }
    let knots = KnotVector::clamped(3, t[0], &t[1..n - 1], t[n - 1])?;
    let mut sites = vec![at(0), (t[0], order)];
    sites.extend((1..n - 1).map(at));
    sites.extend([(t[n - 1], order), at(n - 1)]);
    let mut values = vec![points[0], start];
    values.extend_from_slice(&points[1..n - 1]);
    values.extend([end, points[n - 1]]);
    collocate(knots, &sites, values)
}

/// The spline over `knots` whose derivative of order `sites[i].1` at parameter `sites[i].0` is `values[i]`.
///
/// See [`Collocation`].
pub fn collocate<const D: usize>(
    knots: KnotVector,
    sites: &[(f64, usize)],
    values: Vec<Vector<D>>,
) -> Result<BSpline<D>, CurveError> {
    Collocation::new(knots, sites)?.solve(values)
}

/// The cubic spline whose parameter is `x`, rising, and which passes through `points` there, without a knot at the second and last but one
/// (de Boor's not-a-knot ends).
pub fn graph<const D: usize>(x: &[f64], points: Vec<Vector<D>>) -> Result<BSpline<D>, CurveError> {
    let n = x.len();
    if n < 4 {
        return Err(CurveError::TooFew { got: n, need: 4 });
    }
    let knots = KnotVector::clamped(3, x[0], &x[2..n - 2], x[n - 1])?;
    let sites: Vec<(f64, usize)> = x.iter().map(|&x| (x, 0)).collect();
    collocate(knots, &sites, points)
}

/// Interpolation conditions over a knot vector, factored once for many right-hand sides.
///
/// Condition `i` gives the derivative of order `sites[i].1` (at most 2) at parameter `sites[i].0`. Sites go in rising
/// order, as many as there are control points.
pub struct Collocation {
    knots: KnotVector,
    matrix: Banded,
}

impl Collocation {
    /// Factors the conditions; fails where they do not determine a spline (Schoenberg–Whitney).
    pub fn new(knots: KnotVector, sites: &[(f64, usize)]) -> Result<Self, CurveError> {
        if sites.len() != knots.count() {
            return Err(wrong_count(&knots, sites.len()));
        }
        let rows: Vec<(usize, Vec<f64>)> = sites
            .iter()
            .map(|&(u, order)| {
                let basis = knots.basis::<3>(u);
                (
                    basis.first,
                    basis.values[order.min(2)][..=knots.degree()].to_vec(),
                )
            })
            .collect();
        let matrix = Banded::factor(&rows).map_err(|row| CurveError::Singular(sites[row].0))?;
        Ok(Self { knots, matrix })
    }

    /// The knots of the splines it gives.
    pub fn knots(&self) -> &KnotVector {
        &self.knots
    }

    /// The spline that meets `values`.
    pub fn solve<const D: usize>(
        &self,
        mut values: Vec<Vector<D>>,
    ) -> Result<BSpline<D>, CurveError> {
        if values.len() != self.knots.count() {
            return Err(wrong_count(&self.knots, values.len()));
        }
        self.matrix.solve(&mut values);
        BSpline::new(self.knots.clone(), values)
    }
}

fn wrong_count(knots: &KnotVector, points: usize) -> CurveError {
    CurveError::Count {
        knots: knots.knots().len(),
        degree: knots.degree(),
        points,
    }
}
