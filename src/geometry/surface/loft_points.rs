//! A patch through rows of points.

use super::Patch;
use crate::geometry::curve::{Collocation, CurveError, KnotVector, Vector};

/// Least rows, and least points of a row: what a cubic needs.
const LEAST: usize = 4;

/// Why no patch goes through rows of points. Rows and points are counted from 0.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LoftError {
    /// Too few rows.
    #[error("{rows} rows are too few for a cubic patch; give at least {LEAST}")]
    FewRows {
        /// Rows given.
        rows: usize,
    },
    /// Too few points in the rows.
    #[error("{points} points a row are too few for a cubic patch; give at least {LEAST}")]
    FewPoints {
        /// Points given.
        points: usize,
    },
    /// A row has not as many points as the first.
    #[error(
        "row {row} has {points} points, row 0 has {wanted}; give every row the same number, in the same order round the section"
    )]
    Uneven {
        /// Which row.
        row: usize,
        /// Its points.
        points: usize,
        /// Points of the first row.
        wanted: usize,
    },
    /// A coordinate is not finite.
    #[error("row {row}, point {point}: a coordinate is not finite; give numbers in mm")]
    NotFinite {
        /// Which row.
        row: usize,
        /// Which of its points.
        point: usize,
    },
    /// A row lies on the row before it.
    #[error("row {row} is the same as the row before it; leave one of the two out")]
    SameRow {
        /// The second of the two.
        row: usize,
    },
    /// Two neighbouring points coincide in every row.
    #[error(
        "point {point} is the same as the point before it in every row; leave it out of all rows"
    )]
    SamePoint {
        /// The second of the two.
        point: usize,
    },
    /// The interpolation has no solution, which rows that pass the checks above do not come to.
    #[error("the rows do not determine a patch: {0}; space rows and points more evenly")]
    Spline(#[from] CurveError),
}

/// The bicubic patch through `rows` of points, mm: u from 0 at the first row to 1 at the last, v from 0 at a row's first point to 1 at its last.
///
/// Every row has the same number of points, in the same order; for a half board 41 stations from the tail to the nose, say, of 33 points from the
/// bottom's centre round the rail to the deck's, whose area then looks outward. A row may shrink to one point (a tip). The points are met to 1e-9 mm;
/// between them the error falls with the fourth power of their spacing where they come from a smooth surface.
///
/// Parameters are shared by all rows and all columns: chord lengths averaged over those that have a length; then every row and every control
/// column is interpolated by a cubic without a knot at the second and the last but one point (Piegl & Tiller, *The NURBS Book*, section 9.2.5,
/// algorithm A9.3 for the parameters; de Boor, *A Practical Guide to Splines*, ch. IV, for the ends).
///
/// What comes out goes into [`integrals`](super::integrals), [`tessellate`](super::tessellate) and [`patch_mesh`](super::patch_mesh).
///
/// # Errors
/// [`LoftError`], which names row and point.
///
/// ```
/// use boardwright::geometry::curve::Vector;
/// use boardwright::geometry::surface::{integrals, loft_points};
///
/// // Half a round bar of radius 10 and length 100: stations along x, points from the bottom's centre to the deck's.
/// let station = |i: usize| {
///     let x = 100.0 * i as f64 / 8.0;
///     let point = |j: usize| {
///         let turn = std::f64::consts::PI * j as f64 / 24.0;
///         Vector::from([x, 10.0 * turn.sin(), -10.0 * turn.cos()])
///     };
///     (0..=24).map(point).collect::<Vec<_>>()
/// };
/// let rows: Vec<_> = (0..=8).map(station).collect();
/// let patch = loft_points(&rows)?;
/// assert!((patch.point(0.0, 1.0) - rows[0][24]).norm() < 1e-9);
/// let half_volume = 100.0 * std::f64::consts::PI * 10.0_f64.powi(2) / 2.0;
/// assert!((integrals(&patch).volume / half_volume - 1.0).abs() < 1e-4);
/// # Ok::<(), boardwright::geometry::surface::LoftError>(())
/// ```
pub fn loft_points(rows: &[Vec<Vector<3>>]) -> Result<Patch, LoftError> {
    check(rows)?;
    let columns = rows[0].len();
    let column = |j: usize| rows.iter().map(move |row| row[j]);
    let u = averaged(rows.len(), (0..columns).map(|j| column(j).collect()))
        .map_err(|row| LoftError::SameRow { row })?;
    let v =
        averaged(columns, rows.iter().cloned()).map_err(|point| LoftError::SamePoint { point })?;
    let (along, across) = (conditions(&u)?, conditions(&v)?);
    let rounds: Result<Vec<_>, CurveError> = rows
        .iter()
        .map(|row| Ok(across.solve(row.clone())?.points().to_vec()))
        .collect();
    let rounds = rounds?;
    let mut net = vec![Vector::zeros(); rows.len() * columns];
    for j in 0..columns {
        let line = along.solve(rounds.iter().map(|row| row[j]).collect())?;
        for (i, p) in line.points().iter().enumerate() {
            net[i * columns + j] = *p;
        }
    }
    Ok(Patch::new(
        along.knots().clone(),
        across.knots().clone(),
        net,
    )?)
}

fn check(rows: &[Vec<Vector<3>>]) -> Result<(), LoftError> {
    let count = rows.len();
    if count < LEAST {
        return Err(LoftError::FewRows { rows: count });
    }
    let wanted = rows[0].len();
    if wanted < LEAST {
        return Err(LoftError::FewPoints { points: wanted });
    }
    for (row, points) in rows.iter().enumerate() {
        if points.len() != wanted {
            let points = points.len();
            return Err(LoftError::Uneven {
                row,
                points,
                wanted,
            });
        }
        let finite = |p: &Vector<3>| p.iter().all(|c| c.is_finite());
        if let Some(point) = points.iter().position(|p| !finite(p)) {
            return Err(LoftError::NotFinite { row, point });
        }
    }
    Ok(())
}

/// Parameters from 0 to 1 of `count` places: the mean of the lines' chord lengths, lines without length left out. The place that does not lie after
/// the one before it, if there is one.
fn averaged(count: usize, lines: impl Iterator<Item = Vec<Vector<3>>>) -> Result<Vec<f64>, usize> {
    let mut steps = vec![0.0; count - 1];
    let mut lengths = 0;
    for line in lines {
        let chords: Vec<f64> = line.windows(2).map(|w| (w[1] - w[0]).norm()).collect();
        let length: f64 = chords.iter().sum();
        if length > 0.0 {
            lengths += 1;
            for (step, chord) in steps.iter_mut().zip(chords) {
                *step += chord / length;
            }
        }
    }
    let mut places = vec![0.0];
    let mut sum = 0.0;
    for (k, step) in steps.iter().enumerate() {
        let before = sum;
        sum += step / f64::from(lengths.max(1));
        // Also steps that rounding swallows.
        if sum <= before {
            return Err(k + 1);
        }
        places.push(sum);
    }
    places.iter_mut().for_each(|t| *t /= sum);
    Ok(places)
}

/// A cubic's conditions at the places, without a knot at the second and the last but one.
fn conditions(t: &[f64]) -> Result<Collocation, CurveError> {
    let n = t.len();
    let knots = KnotVector::clamped(3, t[0], &t[2..n - 2], t[n - 1])?;
    let sites: Vec<(f64, usize)> = t.iter().map(|&t| (t, 0)).collect();
    Collocation::new(knots, &sites)
}
