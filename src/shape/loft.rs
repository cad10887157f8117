//! Skinning a family of half sections into patches within a tolerance.

use super::ShellError;
use crate::geometry::curve::{BSpline, Collocation, CurveError, KnotVector, Vector};
use crate::geometry::solve::newton_between;
use crate::geometry::surface::{Patch, skin};

/// Greatest distance, in mm, between the patches and the sections they are lofted from, unless asked otherwise.
pub const DEFAULT_TOLERANCE: f64 = 0.005;

/// How the half shell ends at tail or nose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The sections close to a point, or to an upright line on the centre plane.
    Closed,
    /// A flat face across, in a plane of constant x.
    Face,
}

/// A family of half sections: for each u the section in a plane of constant x, from the bottom's centre to the deck's.
///
/// `x` must rise with u, must not depend on v, and the family must be smooth in u between `breaks` and in v between
/// `marks`; the loft's error then falls with the fourth power of the spacing.
pub trait Family {
    /// Where the family may be creased along the board: at least the two ends of its domain, rising.
    fn breaks(&self) -> Vec<f64>;
    /// Parameters of rows the loft starts from, rising, inside the domain; more are added as needed.
    fn rows(&self) -> Vec<f64>;
    /// Where sections may be creased: at least 0 and 1, rising.
    fn marks(&self) -> Vec<f64>;
    /// Equal spans that each piece between marks needs at least: a section may be a spline there only on a short part
    /// of the board, which probes could miss.
    fn least_spans(&self) -> Vec<usize> {
        vec![1; self.marks().len() - 1]
    }
    /// Points at each `v` of the section at `u`.
    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>>;
    /// How the tail and the nose end.
    fn ends(&self) -> [End; 2];
    /// The parameter of the widest line of the sections, if it is a mark.
    fn apex(&self) -> f64;
    /// Whether the sections begin and end away from the centre plane between the first two breaks (a swallow tail),
    /// so that a wall joins their first and last points.
    fn cleft(&self) -> bool {
        false
    }
}

/// The lofted half shell (starboard, y ≥ 0); port is its mirror image.
#[derive(Debug, Clone, PartialEq)]
pub struct Shell {
    /// Outer patches from tail to nose, meeting at the breaks of u.
    pub patches: Vec<Patch>,
    /// The wall of a swallow tail's cleft, beside the first patch.
    pub wall: Option<Patch>,
    /// How tail and nose end.
    pub ends: [End; 2],
    /// Crease marks in v.
    pub marks: Vec<f64>,
    /// The parameter of the apex line.
    pub apex: f64,
    /// x(u) of each patch, whose isocurves across are planar.
    x_lines: Vec<BSpline<3>>,
}

const MAX_ROWS: usize = 1500;
const MAX_SPANS: usize = 128;

/// Lofts `family` so that the patches lie within `tolerance` mm of its sections.
///
/// Across, every segment between marks gets as many cubic spans as its worst section needs (found by doubling); along,
/// rows are added where the skinned patch misses the family between rows, until none misses by more than `tolerance`.
/// The miss is measured at equal parameters, so it bounds the distance from above.
pub fn loft(family: &dyn Family, tolerance: f64) -> Result<Shell, ShellError> {
    let breaks = family.breaks();
    let marks = family.marks();
    let (domain, rows) = (breaks[breaks.len() - 1] - breaks[0], family.rows());
    let across = Across::new(family, &breaks, &marks, tolerance / 4.0)?;
    let mut patches = Vec::new();
    for ends in breaks.windows(2) {
        // A row close to a break would only unsettle the spline there and leave slivers in meshes.
        let margin = 0.005 * domain;
        let mut u = vec![ends[0]];
        u.extend(
            rows.iter()
                .copied()
                .filter(|r| *r > ends[0] + margin && *r < ends[1] - margin),
        );
        u.push(ends[1]);
        patches.push(along(family, &across, u, tolerance)?);
    }
    let x_lines: Result<Vec<_>, _> = patches.iter().map(|p| p.along(0.0)).collect();
    let wall = if family.cleft() {
        Some(wall(&patches[0])?)
    } else {
        None
    };
    Ok(Shell {
        x_lines: x_lines.map_err(ShellError::curve("loft"))?,
        patches,
        wall,
        ends: family.ends(),
        marks,
        apex: family.apex(),
    })
}

/// A ruled wall between the first and the last line of `patch`.
fn wall(patch: &Patch) -> Result<Patch, ShellError> {
    let line = |v: f64| patch.along(v);
    let ruled = || {
        let (deck, bottom) = (line(1.0)?, line(0.0)?);
        // From deck to bottom, so that dv × du points into the cleft.
        let net = deck
            .points()
            .iter()
            .zip(bottom.points())
            .flat_map(|(d, b)| [*d, *b])
            .collect();
        Patch::new(
            patch.u().clone(),
            KnotVector::clamped(1, 0.0, &[], 1.0)?,
            net,
        )
    };
    ruled().map_err(ShellError::curve("cleft"))
}

/// The shared basis across: knots creased at the marks, and the sites that determine each row.
struct Across {
    conditions: Collocation,
    sites: Vec<f64>,
    checks: Vec<f64>,
}

impl Across {
    fn new(
        family: &dyn Family,
        breaks: &[f64],
        marks: &[f64],
        tolerance: f64,
    ) -> Result<Self, ShellError> {
        // Probe sections, crowded towards the ends where poles are.
        let mut probes = Vec::new();
        for w in breaks.windows(2) {
            for t in [0.01, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 0.99] {
                probes.push(w[0] + (w[1] - w[0]) * t);
            }
        }
        let mut spans = family.least_spans();
        loop {
            let across = Self::with(marks, &spans).map_err(ShellError::curve("section"))?;
            let mut is_changed = false;
            for &u in &probes {
                let row = across
                    .row(family, u)
                    .map_err(ShellError::curve("section"))?;
                let exact = family.section(u, &across.checks);
                for (&v, want) in across.checks.iter().zip(&exact) {
                    let miss = (row.point(v) - want).norm();
                    let k = marks[1..marks.len() - 1].partition_point(|m| *m <= v);
                    if miss > tolerance && spans[k] == across.spans_in(marks, k) {
                        if spans[k] >= MAX_SPANS {
                            return Err(ShellError::Loft {
                                tolerance,
                                reached: miss,
                                u,
                            });
                        }
                        spans[k] *= 2;
                        is_changed = true;
                    }
                }
            }
            if !is_changed {
                return Ok(across);
            }
        }
    }

    fn with(marks: &[f64], spans: &[usize]) -> Result<Self, CurveError> {
        let (mut inner, mut sites, mut checks) = (Vec::new(), vec![marks[0]], Vec::new());
        for (k, w) in marks.windows(2).enumerate() {
            let n = spans[k];
            let at = |t: f64| w[0] + (w[1] - w[0]) * t;
            let local: Vec<f64> = (0..=n).map(|i| at(i as f64 / n as f64)).collect();
            // Greville abscissae of the clamped cubic segment: well conditioned sites.
            let padded: Vec<f64> = [local[0]; 3]
                .into_iter()
                .chain(local[1..n].iter().copied())
                .chain([local[n]; 3])
                .collect();
            sites.extend(
                padded
                    .windows(3)
                    .skip(1)
                    .map(|g| g.iter().sum::<f64>() / 3.0),
            );
            inner.extend_from_slice(&local[1..n]);
            if k + 2 < marks.len() {
                inner.extend([w[1]; 3]);
            }
            for span in local.windows(2) {
                checks.extend([0.21, 0.55, 0.87].map(|t| span[0] + (span[1] - span[0]) * t));
            }
        }
        let knots = KnotVector::clamped(3, marks[0], &inner, marks[marks.len() - 1])?;
        let conditions: Vec<(f64, usize)> = sites.iter().map(|&v| (v, 0)).collect();
        Ok(Self {
            conditions: Collocation::new(knots, &conditions)?,
            sites,
            checks,
        })
    }

    fn spans_in(&self, marks: &[f64], k: usize) -> usize {
        let breaks = self.conditions.knots().breaks();
        breaks
            .windows(2)
            .filter(|w| w[0] >= marks[k] && w[1] <= marks[k + 1])
            .count()
    }

    fn row(&self, family: &dyn Family, u: f64) -> Result<BSpline<3>, CurveError> {
        self.conditions.solve(family.section(u, &self.sites))
    }
}

/// Skins one piece of the family between two breaks, adding rows until it is within tolerance.
fn along(
    family: &dyn Family,
    across: &Across,
    start: Vec<f64>,
    tolerance: f64,
) -> Result<Patch, ShellError> {
    let failed = ShellError::curve;
    let (first, last) = (start[0], start[start.len() - 1]);
    // A tenth of the tolerance is left for what lies between the checks.
    let bound = 0.9 * tolerance;
    let mut rows: Vec<(f64, Vec<Vector<3>>)> = Vec::new();
    let row = |u: f64| -> Result<(f64, Vec<Vector<3>>), ShellError> {
        let curve = across.row(family, u).map_err(failed("loft"))?;
        Ok((u, curve.points().to_vec()))
    };
    for w in start.windows(2) {
        rows.push(row(w[0])?);
        rows.push(row((w[0] + w[1]) / 2.0)?);
    }
    rows.push(row(last)?);
    loop {
        let patch = skin(across.conditions.knots(), &rows).map_err(failed("loft"))?;
        let mut worst = (0.0_f64, first);
        let mut split = Vec::new();
        for w in rows.windows(2) {
            let mut miss = 0.0_f64;
            for t in [0.3, 0.6] {
                let u = w[0].0 + (w[1].0 - w[0].0) * t;
                for (&v, want) in across.checks.iter().zip(family.section(u, &across.checks)) {
                    miss = miss.max((patch.point(u, v) - want).norm());
                }
            }
            if miss > worst.0 {
                worst = (miss, w[0].0);
            }
            if miss > bound || miss.is_nan() {
                split.push((w[0].0 + w[1].0) / 2.0);
            }
        }
        if split.is_empty() {
            return Ok(patch);
        }
        if rows.len() + split.len() > MAX_ROWS {
            return Err(ShellError::Loft {
                tolerance,
                reached: worst.0,
                u: worst.1,
            });
        }
        for u in split {
            rows.push(row(u)?);
        }
        rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
}

impl Shell {
    /// Length along x, mm.
    pub fn length(&self) -> f64 {
        self.x_range().1 - self.x_range().0
    }

    /// Least and greatest x, mm.
    pub fn x_range(&self) -> (f64, f64) {
        let first = self
            .x_lines
            .first()
            .map_or(0.0, |l| l.point(l.domain().0).x);
        let last = self.x_lines.last().map_or(0.0, |l| l.point(l.domain().1).x);
        (first, last)
    }

    /// Index of the patch and its parameter u whose isocurve lies in the plane at `x`, clamped to the shell.
    pub fn locate(&self, x: f64) -> (usize, f64) {
        let index = self
            .x_lines
            .iter()
            .position(|l| x <= l.point(l.domain().1).x)
            .unwrap_or(self.x_lines.len() - 1);
        let line = &self.x_lines[index];
        let (a, b) = line.domain();
        if x <= line.point(a).x {
            return (index, a);
        }
        if x >= line.point(b).x {
            return (index, b);
        }
        let miss = |u: f64| {
            let [p, d] = line.derivatives::<2>(u);
            (p.x - x, d.x)
        };
        // x(u) rises from below x to above; short of convergence the value is one from inside the bracket.
        (index, newton_between(a, b, miss).value)
    }
}
