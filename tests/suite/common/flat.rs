//! Distances in the plane between points and polylines, by a plain search.

use boardwright::geometry::path::Point;

/// Distance of `p` from a polyline.
pub fn distance(line: &[Point], p: Point) -> f64 {
    line.windows(2)
        .map(|w| {
            let d = w[1] - w[0];
            let t = ((p - w[0]).dot(&d) / d.norm_squared().max(1e-300)).clamp(0.0, 1.0);
            (p - (w[0] + d * t)).norm()
        })
        .fold(f64::INFINITY, f64::min)
}

/// Whether `p` lies inside a closed polyline (crossing number).
pub fn inside(points: &[Point], p: Point) -> bool {
    points
        .windows(2)
        .filter(|w| {
            let (a, b) = (w[0], w[1]);
            (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
        })
        .count()
        % 2
        == 1
}
