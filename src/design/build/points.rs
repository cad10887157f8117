//! Points along the whole board.

use crate::design::{
    scalar::plain,
    source::Report,
    table::{Placed, Table},
};

/// How near a point at an end must be to it, mm; it is then set on it.
const END: f64 = 0.05;

/// The points of a table's `points` from tail to nose; notes where they miss the ends.
pub(super) fn spanning(
    table: &Table,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Vec<[f64; 2]>> {
    let pairs = table.pairs("points")?;
    let length = length?;
    let mut points: Vec<[f64; 2]> = pairs.iter().map(|pair| pair.value).collect();
    let [first, .., last] = pairs else {
        report.add(
            table.span("points"),
            "`points` must hold at least the two ends".to_owned(),
            format!("add points at 0 and {} mm", plain(length)),
        );
        return None;
    };
    let mut at_end = |point: &Placed<[f64; 2]>, end: f64, what: &str| {
        let near = (point.value[0] - end).abs() <= END;
        if !near {
            let end = plain(end);
            report.add(
                point.span.clone(),
                format!("the {what} of `points` must be at {end} mm"),
                format!("move it to {end} mm, or add a point there"),
            );
        }
        near
    };
    let tail = at_end(first, 0.0, "first");
    let nose = at_end(last, length, "last");
    if let [[tail, _], .., [nose, _]] = points.as_mut_slice() {
        *tail = 0.0;
        *nose = length;
    }
    (tail && nose).then_some(points)
}

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
