//! Where the ribs stand.

use super::stations::{self as standing, Standing};
use crate::design::{scalar::plain, source::Report, table::Table};

/// The least length of the hollow between the blocks, mm.
const SHORTEST: f64 = 300.0;

/// The ribs' centre planes between blocks of `(tail, nose)` length.
pub(super) fn stations(
    table: &Table,
    length: Option<f64>,
    blocks: Option<(f64, f64)>,
    rib: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Vec<f64>> {
    let ((tail_block, nose_block), length) = (blocks?, length?);
    let (from, to) = (tail_block, length - nose_block);
    if to - from < SHORTEST {
        let name = if table.given("tail_block") {
            "tail_block"
        } else {
            "nose_block"
        };
        let left = plain(to - from);
        report.add(
            table.span(name),
            format!(
                "the blocks must leave at least {SHORTEST} mm of hollow, but they leave {left} mm"
            ),
            "give a shorter `tail_block` or `nose_block`, or check `length`",
        );
        return None;
    }
    if !table.given("rib_stations") {
        return Some(evenly(from, to, table.number("rib_spacing")?));
    }
    let places = table.places("rib_stations")?;
    let what = Standing {
        names: ["rib", "ribs"],
        place: "between the blocks",
        between: [from, to],
        thickness: rib?,
    };
    standing::stations(places, &what, report)
}

/// Stations `spacing` apart, with the same remainder of half a spacing to a whole one before the first and behind the last;
/// one in the middle where the hollow is shorter than the spacing.
fn evenly(from: f64, to: f64, spacing: f64) -> Vec<f64> {
    let hollow = to - from;
    // Bounded by the ranges of length and spacing.
    let count = (hollow / spacing).floor().clamp(1.0, 100.0) as u32;
    let first = from + (hollow - f64::from(count - 1) * spacing) / 2.0;
    let station = |i| spacing.mul_add(f64::from(i), first);
    (0..count).map(station).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stations_are_even_and_leave_equal_ends() {
        assert_eq!(evenly(100.0, 1100.0, 300.0), [300.0, 600.0, 900.0]);
        assert_eq!(evenly(0.0, 1000.0, 500.0), [250.0, 750.0]);
        assert_eq!(evenly(0.0, 300.0, 500.0), [150.0]);
    }
}
