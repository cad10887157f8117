//! The point of a polygon that is farthest from its edges.

use crate::geometry::curve::Vector;

/// How near the depth comes to the greatest there is, mm.
const ACCURACY: f64 = 0.01;
/// Squares looked into at most.
const MOST: usize = 20_000;

/// The deepest point of a simple polygon and its distance from the edges; `None` for a polygon without a finite inside.
///
/// Squares over the polygon are halved while they may hold a deeper point than the best so far, the most promising first.
pub(super) fn deepest(polygon: &[Vector<2>]) -> Option<(Vector<2>, f64)> {
    let low = polygon.iter().copied().reduce(|a, b| a.inf(&b))?;
    let high = polygon.iter().copied().reduce(|a, b| a.sup(&b))?;
    let size = high - low;
    let half = size.min() / 2.0;
    if !(half.is_finite() && half > 0.0) {
        return None;
    }
    let square = |centre: Vector<2>, half: f64| {
        let depth = depth(polygon, centre);
        (depth + half * std::f64::consts::SQRT_2, depth, centre, half)
    };
    let mut squares = Vec::new();
    let (columns, rows) = (
        (size.x / (2.0 * half)).ceil() as usize,
        (size.y / (2.0 * half)).ceil() as usize,
    );
    for i in 0..columns.min(1000) {
        for j in 0..rows.min(1000) {
            let step = Vector::<2>::new((2 * i + 1) as f64, (2 * j + 1) as f64) * half;
            squares.push(square(low + step, half));
        }
    }
    let mut best: Option<(Vector<2>, f64)> = None;
    for _ in 0..MOST {
        let next = (0..squares.len()).max_by(|&a, &b| squares[a].0.total_cmp(&squares[b].0));
        let Some(next) = next else {
            break;
        };
        let (bound, depth, centre, half) = squares.swap_remove(next);
        if depth > 0.0 && best.is_none_or(|b| depth > b.1) {
            best = Some((centre, depth));
        }
        if bound <= best.map_or(0.0, |b| b.1) + ACCURACY {
            break;
        }
        let quarter = half / 2.0;
        for (x, y) in [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)] {
            squares.push(square(centre + Vector::<2>::new(x, y) * quarter, quarter));
        }
    }
    best
}

/// Distance from the edges, positive inside.
fn depth(polygon: &[Vector<2>], p: Vector<2>) -> f64 {
    let mut inside = false;
    let mut nearest = f64::INFINITY;
    let ends = polygon.iter().cycle().skip(1);
    for (a, b) in polygon.iter().zip(ends) {
        let d = b - a;
        let t = ((p - a).dot(&d) / d.norm_squared().max(1e-300)).clamp(0.0, 1.0);
        nearest = nearest.min((p - a - d * t).norm());
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * d.x {
            inside = !inside;
        }
    }
    if inside { nearest } else { -nearest }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(points: &[(f64, f64)]) -> Vec<Vector<2>> {
        points
            .iter()
            .map(|&(x, y)| Vector::<2>::new(x, y))
            .collect()
    }

    #[test]
    fn the_inscribed_circle_of_a_right_triangle_is_known() {
        // Legs 30 and 40, hypotenuse 50: radius (30 + 40 − 50) / 2.
        let triangle = polygon(&[(0.0, 0.0), (40.0, 0.0), (0.0, 30.0)]);
        let (centre, depth) = deepest(&triangle).unwrap_or_default();
        assert!((depth - 10.0).abs() < ACCURACY, "{depth}");
        assert!((centre - Vector::<2>::new(10.0, 10.0)).norm() < 1.0);
    }

    #[test]
    fn a_bent_polygon_s_deepest_point_lies_inside_it() {
        let bent = polygon(&[
            (0.0, 0.0),
            (100.0, 0.0),
            (100.0, 60.0),
            (80.0, 60.0),
            (80.0, 10.0),
            (0.0, 10.0),
        ]);
        let (centre, depth) = deepest(&bent).unwrap_or_default();
        // The largest circle touches the lower and the right edge and the inner corner at (80, 10):
        // (20 − r)² + (r − 10)² = r², so r² − 60 r + 500 = 0.
        let r = 30.0 - (900.0_f64 - 500.0).sqrt();
        assert!((depth - r).abs() < ACCURACY, "{depth} {r} {centre}");
        assert_eq!(deepest(&polygon(&[(0.0, 0.0), (1.0, 0.0)])), None);
    }
}
