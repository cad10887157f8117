//! How the plan shape closes at the tail.

use crate::design::{Tail, scalar::plain, source::Report, table::Table};

/// The tail of an outline that is `tail_width` wide 12 in from it.
pub(super) fn tail(
    table: &Table,
    tail_width: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Tail> {
    let shape = table.word("tail")?;
    let share = if shape == "swallow" { 0.6 } else { 0.5 };
    let width = table.number_or("tail_end_width", tail_width.map(|width| share * width));
    match shape {
        "pin" => Some(Tail::Pin {
            angle: table.number("tail_angle")?,
        }),
        "round" => Some(Tail::Round),
        "square" => Some(Tail::Square {
            width: narrower(table, width, tail_width, report)?,
        }),
        "squash" => squash(table, narrower(table, width, tail_width, report), report),
        _ => {
            let width = narrower(table, width, tail_width, report);
            let depth = table.number_or("tail_cleft", width.map(|width| 0.45 * width));
            Some(Tail::Swallow {
                width: width?,
                depth: depth?,
            })
        }
    }
}

/// The width of the cut, which must not be more than that 12 in ahead of it.
fn narrower(
    table: &Table,
    width: Option<f64>,
    tail_width: Option<f64>,
    report: &mut Report<'_>,
) -> Option<f64> {
    if let (Some(width), Some(limit)) = (width, tail_width)
        && width > limit
    {
        let limit = plain(limit);
        let message =
            format!("`tail_end_width` must not be more than the width 12 in ahead, {limit} mm");
        let remedy = format!("give at most {limit} mm, or a wider outline there");
        report.add(table.span("tail_end_width"), message, remedy);
        return None;
    }
    width
}

fn squash(table: &Table, width: Option<f64>, report: &mut Report<'_>) -> Option<Tail> {
    let radius = table.number_or("tail_corner", width.map(|width| 0.25 * width));
    if let (Some(width), Some(radius)) = (width, radius)
        && radius > width / 2.0
    {
        let half = plain(width / 2.0);
        let message =
            format!("`tail_corner` must not be more than half of `tail_end_width`, {half} mm");
        let remedy = format!("give at most {half} mm, or a greater `tail_end_width`");
        report.add(table.span("tail_corner"), message, remedy);
    }
    Some(Tail::Squash {
        width: width?,
        radius: radius?,
    })
}
