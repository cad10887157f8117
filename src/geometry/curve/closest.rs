//! The point of a curve closest to a given point.

use super::{BSpline, Vector, bernstein};

/// Where a curve comes closest to a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closest<const D: usize> {
    /// Parameter.
    pub parameter: f64,
    /// The curve's point there.
    pub point: Vector<D>,
    /// Its distance, mm.
    pub distance: f64,
}

impl<const D: usize> BSpline<D> {
    /// The closest of all points of the curve to `target`.
    ///
    /// Global: on every span whose control points do not lie beyond the best distance so far, *all* roots of the polynomial
    /// `(C − P) · C′` are isolated and tried, and the ends with them. The distance is right to rounding; the parameter, where
    /// the distance is level to second order only, to the square root of that. Of two equal distances the lower parameter
    /// wins. A target that is not finite gives the start of the curve.
    pub fn closest(&self, target: Vector<D>) -> Closest<D> {
        let (start, end) = self.domain();
        let at = |u: f64| {
            let point = self.point(u);
            let distance = (point - target).norm();
            Closest {
                parameter: u,
                point,
                distance,
            }
        };
        let mut best = at(start);
        let consider = |u: f64, best: &mut Closest<D>| {
            let found = at(u);
            if found.distance < best.distance {
                *best = found;
            }
        };
        let mut pieces = Vec::new();
        for piece in self.beziers() {
            // Ends first: a good bound early spares most spans the roots.
            consider(piece.end, &mut best);
            let (low, high) = piece
                .points
                .iter()
                .fold((piece.points[0], piece.points[0]), |(low, high), p| {
                    (low.inf(p), high.sup(p))
                });
            let bound = (target - target.sup(&low).inf(&high)).norm();
            pieces.push((bound, piece));
        }
        pieces.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.start.total_cmp(&b.1.start)));
        consider(end, &mut best);
        for (bound, piece) in pieces {
            if bound > best.distance {
                break;
            }
            let mut slope = vec![0.0; 2 * piece.points.len() - 2];
            let mut size = 0.0_f64;
            for axis in 0..D {
                let gap: Vec<f64> = piece
                    .points
                    .iter()
                    .map(|p| p[axis] - target[axis])
                    .collect();
                let rate = bernstein::derivative(&gap);
                bernstein::add_product(&mut slope, &gap, &rate, 1.0);
                let largest = |c: &[f64]| c.iter().fold(0.0, |m: f64, v| m.max(v.abs()));
                size += largest(&gap) * largest(&rate);
            }
            for t in bernstein::roots(&slope, 4.0 * f64::EPSILON * size) {
                consider(piece.start + t * (piece.end - piece.start), &mut best);
            }
        }
        best
    }
}
