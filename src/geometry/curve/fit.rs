//! Least-squares splines, and splines grown until they meet a tolerance.

use super::banded::Banded;
use super::{BSpline, CurveError, Ends, KnotVector, Parameters, Vector, interpolate, parameters};

/// Knot spans after which a fit gives up.
const SPANS: usize = 4096;

/// The spline over `knots` closest to `points` at `parameters` in the sense of least squares; it passes through the first and
/// the last point, which belong to the ends of the domain (*The NURBS Book*, section 9.4.1).
///
/// Parameters rise, not necessarily strictly. Banded normal equations: the cost is linear in points and knots.
///
/// # Errors
/// [`CurveError::Count`] for fewer than two points or another number of parameters, [`CurveError::NotFinite`],
/// [`CurveError::Singular`] when a basis function has no point of its own (Schoenberg–Whitney).
pub fn least_squares<const D: usize>(
    knots: KnotVector,
    parameters: &[f64],
    points: &[Vector<D>],
) -> Result<BSpline<D>, CurveError> {
    let (n, p) = (knots.count(), knots.degree());
    let ([first, .., last], true) = (points, points.len() == parameters.len()) else {
        return Err(CurveError::Count {
            knots: knots.knots().len(),
            degree: p,
            points: points.len().min(parameters.len()),
        });
    };
    let mut control = vec![Vector::<D>::zeros(); n];
    (control[0], control[n - 1]) = (*first, *last);
    // Unknown i is control point i + 1; row i holds columns i - p to i + p.
    let inner = n - 2;
    let mut rows = vec![vec![0.0; 2 * p + 1]; inner];
    let mut sides = vec![Vector::<D>::zeros(); inner];
    for (index, (&u, point)) in parameters.iter().zip(points).enumerate() {
        if !u.is_finite() {
            return Err(CurveError::NotFinite(index));
        }
        let basis = knots.basis::<1>(u);
        let (first, b) = (basis.first, &basis.values[0]);
        for i in (0..=p).filter(|i| (1..n - 1).contains(&(first + i))) {
            let row = first + i - 1;
            let mut rest = *point;
            for j in 0..=p {
                match first + j {
                    0 => rest -= control[0] * b[j],
                    k if k == n - 1 => rest -= control[n - 1] * b[j],
                    _ => rows[row][j + p - i] += b[i] * b[j],
                }
            }
            sides[row] += rest * b[i];
        }
    }
    // Cut to the columns that exist.
    let rows: Vec<(usize, Vec<f64>)> = rows
        .into_iter()
        .enumerate()
        .map(|(i, row)| {
            let from = i.saturating_sub(p);
            let to = (i + p + 1).min(inner);
            (from, row[from + p - i..to + p - i].to_vec())
        })
        .collect();
    let greville = |i: usize| knots.knots()[i + 2..i + 2 + p].iter().sum::<f64>() / p as f64;
    let matrix = Banded::factor(&rows).map_err(|i| CurveError::Singular(greville(i)))?;
    matrix.solve(&mut sides);
    control[1..n - 1].copy_from_slice(&sides);
    BSpline::new(knots, control)
}

/// A spline of `degree` within `tolerance` mm of every point, with few knots.
///
/// Knots are added where the error is too large until it is not (*The NURBS Book*, section 9.4.2 and A9.10 in spirit); if
/// no span can take another knot, the curve goes through all points. The error is measured at every point's own
/// parameter, so the distance to the curve is never more. The ends are met to rounding.
///
/// # Errors
/// Those of [`parameters`], [`CurveError::Tolerance`], and [`CurveError::TooFew`] for less than `degree + 1` points.
pub fn fit<const D: usize>(
    points: &[Vector<D>],
    degree: usize,
    rule: Parameters<'_>,
    tolerance: f64,
) -> Result<BSpline<D>, CurveError> {
    if !(tolerance.is_finite() && tolerance > 0.0) {
        return Err(CurveError::Tolerance(tolerance));
    }
    let t = parameters(points, rule)?;
    if points.len() < degree + 1 {
        return Err(CurveError::TooFew {
            got: points.len(),
            need: degree + 1,
        });
    }
    let (start, end) = (t[0], t[t.len() - 1]);
    let mut inner: Vec<f64> = Vec::new();
    loop {
        let knots = KnotVector::clamped(degree, start, &inner, end)?;
        let breaks = knots.breaks();
        let Ok(curve) = least_squares(knots, &t, points) else {
            break;
        };
        let mut added = false;
        let mut bad = false;
        for w in breaks.windows(2) {
            let range = t.partition_point(|&x| x < w[0])..t.partition_point(|&x| x <= w[1]);
            let error = |i: usize| (curve.point(t[i]) - points[i]).norm();
            if range.clone().all(|i| error(i) <= tolerance) {
                continue;
            }
            bad = true;
            // Both halves need points of their own.
            let mid = (range.start + range.end) / 2;
            if range.len() >= 4 {
                inner.push(0.5 * (t[mid - 1] + t[mid]));
                added = true;
            }
        }
        if !bad {
            return Ok(curve);
        }
        if !added {
            break;
        }
        inner.sort_by(f64::total_cmp);
    }
    interpolate(points, degree, Parameters::Values(&t), Ends::Free)
}

/// A spline within `tolerance` mm of `f` at equal parameters, grown from `knots` by halving spans.
///
/// Least squares at nine points a span; the error is measured at sixteen other points of every span, where it must stay below
/// 0.9 of the tolerance to allow for what lies between them. The knots given stay, with their multiplicity: repeat one
/// `degree` times where `f` has a crease.
///
/// # Errors
/// [`CurveError::Tolerance`]; [`CurveError::NotFinite`] when `f` gives such a point; [`CurveError::NotReached`] after 4096 spans
/// or when a span has shrunk to 1e-9 of the domain, as where `f` jumps.
pub fn approximate<const D: usize>(
    f: impl Fn(f64) -> Vector<D>,
    knots: KnotVector,
    tolerance: f64,
) -> Result<BSpline<D>, CurveError> {
    if !(tolerance.is_finite() && tolerance > 0.0) {
        return Err(CurveError::Tolerance(tolerance));
    }
    const FIT: usize = 9;
    const CHECK: usize = 16;
    let degree = knots.degree();
    let (start, end) = knots.domain();
    let mut inner = knots.knots()[degree + 1..knots.count()].to_vec();
    loop {
        let knots = KnotVector::clamped(degree, start, &inner, end)?;
        let breaks = knots.breaks();
        let mut t = vec![start];
        for w in breaks.windows(2) {
            // Chebyshev points: the fit's error spreads evenly over the span.
            t.extend((0..FIT).map(|i| {
                let angle = std::f64::consts::PI * (i as f64 + 0.5) / FIT as f64;
                w[0] + (w[1] - w[0]) * 0.5 * (1.0 - angle.cos())
            }));
        }
        t.push(end);
        let points: Vec<Vector<D>> = t.iter().map(|&u| f(u)).collect();
        let curve = least_squares(knots, &t, &points)?;
        let mut worst = 0.0_f64;
        let mut extra = Vec::new();
        for w in breaks.windows(2) {
            let error = (0..CHECK)
                .map(|i| {
                    let u = w[0] + (w[1] - w[0]) * (i as f64 + 0.5) / CHECK as f64;
                    (curve.point(u) - f(u)).norm()
                })
                .fold(0.0, f64::max);
            worst = worst.max(error);
            if error > 0.9 * tolerance {
                extra.push(0.5 * (w[0] + w[1]));
            }
        }
        if extra.is_empty() {
            return Ok(curve);
        }
        // A jump would be chased down to the resolution of f64.
        let finest = breaks
            .windows(2)
            .fold(end - start, |m, w| m.min(w[1] - w[0]));
        if breaks.len() + extra.len() > SPANS || finest < 1e-9 * (end - start) {
            return Err(CurveError::NotReached {
                tolerance,
                reached: worst,
            });
        }
        inner.extend(extra);
        inner.sort_by(f64::total_cmp);
    }
}
