//! How high a polyline lies: the one place where a chain of straight edges is read off.
//!
//! "High" is the second coordinate and "at" the first; for the other way round take the points' `yx()`.

use super::Vector;

/// Second coordinate, where the first is `at`, of the straight line through two points, which it may lie beyond; exact at both of
/// them. The first point's where the line is upright.
pub fn height_on(a: Vector<2>, b: Vector<2>, at: f64) -> f64 {
    let span = b.x - a.x;
    if span == 0.0 {
        return a.y;
    }
    let t = (at - a.x) / span;
    if (0.0..=1.0).contains(&t) {
        // Exact at both ends.
        a.y * (1.0 - t) + b.y * t
    } else {
        a.y + (b.y - a.y) * t
    }
}

/// Heights of all edges of a polyline that reach `at`, ends included, in the polyline's order: of an upright edge both ends'.
pub fn heights(line: &[Vector<2>], at: f64) -> impl Iterator<Item = f64> + '_ {
    line.windows(2).flat_map(move |w| {
        let (a, b) = (w[0], w[1]);
        let reached = a.x.min(b.x) <= at && at <= a.x.max(b.x);
        let first = reached.then(|| height_on(a, b, at));
        let second = (reached && a.x == b.x).then_some(b.y);
        first.into_iter().chain(second)
    })
}

/// Height of a polyline at `at`, the first edge's that reaches it; `None` beyond its ends.
pub fn height(line: &[Vector<2>], at: f64) -> Option<f64> {
    heights(line, at).next()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(places: &[[f64; 2]]) -> Vec<Vector<2>> {
        places.iter().map(|&p| Vector::from(p)).collect()
    }

    #[test]
    fn a_line_is_read_off_between_its_points_and_not_beyond() {
        let line = points(&[[0.0, 1.0], [2.0, 5.0], [2.0, 9.0], [5.0, 3.0]]);
        assert_eq!(height(&line, 0.5), Some(2.0));
        assert_eq!(height(&line, 4.0), Some(5.0));
        assert_eq!(height(&line, 5.0), Some(3.0));
        assert_eq!([height(&line, -1e-9), height(&line, 5.1)], [None, None]);
        // At the upright edge every edge that touches it.
        let all: Vec<f64> = heights(&line, 2.0).collect();
        assert_eq!(all, [5.0, 5.0, 9.0, 9.0]);
        // Backwards the same.
        let back: Vec<Vector<2>> = line.iter().rev().copied().collect();
        assert_eq!(height(&back, 0.5), Some(2.0));
    }

    #[test]
    fn a_straight_line_goes_on_beyond_its_points() {
        let [a, b] = [[1.0, 1.0], [3.0, 2.0]].map(Vector::<2>::from);
        assert_eq!(height_on(a, b, 7.0), 4.0);
        assert_eq!(height_on(a, a, 7.0), 1.0);
        let third = Vector::from([0.1, 0.3]);
        assert_eq!(height_on(b, third, third.x), third.y);
    }
}
