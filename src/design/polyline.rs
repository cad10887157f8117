//! Straight lines through points.

/// The value at `x` on straight lines through the points, level beyond them.
pub(super) fn between(points: &[[f64; 2]], x: f64) -> Option<f64> {
    let after = points.iter().position(|point| point[0] >= x);
    match after {
        Some(0) => points.first().map(|point| point[1]),
        None => points.last().map(|point| point[1]),
        Some(i) => {
            let ([x0, y0], [x1, y1]) = (points[i - 1], points[i]);
            Some(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
        }
    }
}
