//! The side view of the bottom.

use super::points::spanning;
use crate::design::{Rocker, scalar::plain, source::Report, table::Table};

/// The rocker of a board of this length.
pub(super) fn rocker(
    table: &Table,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Rocker> {
    if table.given("points") {
        return points(table, length, report);
    }
    let flat = flat(table, length, report);
    Some(Rocker::Measures {
        nose: table.number("nose")?,
        tail: table.number("tail")?,
        flat: flat?,
    })
}

fn points(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<Rocker> {
    /// How near the base plane the lowest point must be, mm.
    const BASE: f64 = 0.05;
    let points = spanning(table, length, report)?;
    let heights = points.iter().map(|point| point[1]);
    let lowest = heights.fold(f64::INFINITY, f64::min);
    if lowest > BASE {
        let lowest = plain(lowest);
        report.add(
            table.span("points"),
            "the lowest of the rocker's `points` must be at height 0, on the base plane".to_owned(),
            format!("take {lowest} mm from every height"),
        );
        return None;
    }
    Some(Rocker::Points(points))
}

fn flat(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<[f64; 2]> {
    if !table.given("flat") {
        return length.map(|length| [0.36 * length, 0.56 * length]);
    }
    let places = table.places("flat")?;
    let length = length?;
    let mut sound = true;
    for place in places {
        if place.value <= 0.0 || place.value >= length {
            let length = plain(length);
            let message = format!("`flat` must lie between the ends, 0 and {length} mm");
            let remedy = "give a place between the ends, or check `length`";
            report.add(place.span.clone(), message, remedy);
            sound = false;
        }
    }
    match places {
        [from, to] if sound => Some([from.value, to.value]),
        _ => None,
    }
}
