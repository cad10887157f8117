//! The thickness along the board.

use super::{FOOT, points::spanning};
use crate::design::{Foil, scalar::plain, source::Report, table::Table};

/// The foil of a board of this length.
pub(super) fn foil(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<Foil> {
    let points = if table.given("points") {
        spanning(table, length, report)
    } else {
        measures(table, length, report)
    };
    points.map(|points| Foil { points })
}

/// Five points from the trade's measures.
fn measures(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<Vec<[f64; 2]>> {
    table.demand("centre", report);
    let centre = table.number_or("centre", None);
    let nose = table.number_or("nose", centre.map(|centre| 0.57 * centre));
    let tail = table.number_or("tail", centre.map(|centre| 0.62 * centre));
    let nose_tip = table.number_or("nose_tip", nose.map(|nose| 0.5 * nose));
    let tail_tip = table.number_or("tail_tip", tail.map(|tail| 0.5 * tail));
    let mut thinner = |name, part: Option<f64>, other: &str, whole: Option<f64>| {
        if let (Some(part), Some(whole)) = (part, whole)
            && part > whole
        {
            // Either may be the slip; the one that is written is shown.
            let at = if table.given(name) { name } else { other };
            let whole = plain(whole);
            let message = format!("`{name}` must not be thicker than `{other}`, {whole} mm");
            let remedy = format!("give a lesser `{name}`, or a greater `{other}`");
            report.add(table.span(at), message, remedy);
        }
    };
    thinner("nose", nose, "centre", centre);
    thinner("tail", tail, "centre", centre);
    thinner("nose_tip", nose_tip, "nose", nose);
    thinner("tail_tip", tail_tip, "tail", tail);
    let length = length?;
    Some(vec![
        [0.0, tail_tip?],
        [FOOT, tail?],
        [length / 2.0, centre?],
        [length - FOOT, nose?],
        [length, nose_tip?],
    ])
}
