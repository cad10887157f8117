//! Thickness along the board.

use super::{RockerLine, ShellError};
use crate::design::Foil;
use crate::geometry::curve::{BSpline, Ends, Parameters, Vector, interpolate};

/// The vertical thickness at the centreline as a function of x.
///
/// Calipers measure square to the bottom. Each given thickness is therefore laid off along the bottom's normal, and the
/// natural spline goes through the *vertical* thickness over the point so reached; the vertical thickness closes
/// upright at a closed end, which a spline of square thicknesses would not do where the rocker is steep.
///
/// A closed end is rounded by the factor sqrt(1 − exp(−d/ρ)), d being the distance from the tip. With ρ a quarter of the
/// tip's thickness e the profile starts as the parabola of a round nose of radius e/2.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct FoilLine {
    body: BSpline<1>,
    length: f64,
    /// ρ at tail and nose; `None` where the end is a face.
    round: [Option<f64>; 2],
}

impl FoilLine {
    pub(super) fn new(
        foil: &Foil,
        rocker: &RockerLine,
        length: f64,
        closed: [bool; 2],
    ) -> Result<Self, ShellError> {
        let points = foil.points(length);
        let n = points.len();
        let tips = [points[0][1], points[n - 1][1]];
        let round = [0, 1].map(|i| closed[i].then_some(tips[i] / 4.0));
        let mut x = Vec::with_capacity(n);
        let mut t = Vec::with_capacity(n);
        for (i, &[at, square]) in points.iter().enumerate() {
            let [z, slope, _] = rocker.height(at);
            let norm = slope.hypot(1.0);
            let over = at - square * slope / norm;
            let vertical = z + square / norm - rocker.height(over.clamp(0.0, length))[0];
            let factor = if i == 0 || i + 1 == n {
                1.0
            } else {
                closing(round, length, over)
            };
            x.push(over);
            t.push(Vector::<1>::new(vertical / factor));
        }
        let body = interpolate(&t, 3, Parameters::Values(&x), Ends::Natural)
            .map_err(ShellError::curve("foil"))?;
        Ok(Self {
            body,
            length,
            round,
        })
    }

    /// Thickness without the rounding of closed ends, mm; straight beyond the first and last point.
    pub(super) fn body(&self, x: f64) -> f64 {
        let (a, b) = self.body.domain();
        let at = x.clamp(a, b);
        let [t, slope] = self.body.derivatives::<2>(at);
        t.x + slope.x * (x - at)
    }

    /// Vertical thickness, mm.
    pub(super) fn thickness(&self, x: f64) -> f64 {
        self.body(x) * closing(self.round, self.length, x)
    }
}

fn closing(round: [Option<f64>; 2], length: f64, x: f64) -> f64 {
    let factor =
        |rho: Option<f64>, d: f64| rho.map_or(1.0, |rho| (-(-d.max(0.0) / rho).exp_m1()).sqrt());
    factor(round[0], x) * factor(round[1], length - x)
}
