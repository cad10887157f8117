//! The plan shape.

use super::{FOOT, points::between, tail};
use crate::design::{Nose, Outline, OutlineBody, scalar::plain, source::Report, table::Table};

/// The plan shape of a board of this length.
pub(super) fn outline(
    table: &Table,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Outline> {
    let body = if table.given("points") {
        points(table, length, report)
    } else {
        measures(table, length, report)
    };
    let tail_width = body.as_ref().and_then(width_before_tail);
    let tail = tail::tail(table, tail_width, report);
    let nose = match table.word("nose")? {
        "round" => Nose::Round,
        _ => Nose::Pointed {
            angle: table.number("nose_angle")?,
        },
    };
    Some(Outline {
        body: body?,
        nose,
        tail: tail?,
    })
}

/// Full width 12 in from the tail.
fn width_before_tail(body: &OutlineBody) -> Option<f64> {
    match body {
        OutlineBody::Measures { tail_width, .. } => Some(*tail_width),
        OutlineBody::Points(points) => between(points, FOOT).map(|half| 2.0 * half),
    }
}

fn points(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<OutlineBody> {
    let pairs = table.pairs("points")?;
    let length = length?;
    let mut sound = pairs.len() >= 3;
    if !sound {
        let message = "`points` must hold at least three points".to_owned();
        let remedy = "add points, each of them [place, half-width]";
        report.add(table.span("points"), message, remedy);
    }
    for pair in pairs {
        if pair.value[0] <= 0.0 || pair.value[0] >= length {
            let length = plain(length);
            let message = format!("a point must lie between the ends, 0 and {length} mm");
            report.add(
                pair.span.clone(),
                message,
                "leave the ends out; `nose` and `tail` close them".to_owned(),
            );
            sound = false;
        }
    }
    let points = pairs.iter().map(|pair| pair.value).collect();
    sound.then_some(OutlineBody::Points(points))
}

fn measures(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<OutlineBody> {
    table.demand("width", report);
    let width = table.number_or("width", None);
    let wide_point = table.number_or("wide_point", length.map(|length| 0.52 * length));
    let nose_share = match table.word("nose") {
        Some("round") => 0.8,
        _ => 0.58,
    };
    let tail_share = match table.word("tail") {
        Some("pin") => 0.6,
        Some("round") => 0.7,
        _ => 0.72,
    };
    let nose_width = table.number_or("nose_width", width.map(|width| nose_share * width));
    let tail_width = table.number_or("tail_width", width.map(|width| tail_share * width));
    if let (Some(length), Some(at)) = (length, wide_point) {
        let (least, most) = (FOOT, length - FOOT);
        if at <= least || at >= most {
            let (least, most) = (plain(least), plain(most));
            report.add(
                table.span("wide_point"),
                format!("`wide_point` must lie between {least} mm and {most} mm, more than 12 in from both ends"),
                "give a place between these, or leave `wide_point` out",
            );
        }
    }
    for (name, part) in [("nose_width", nose_width), ("tail_width", tail_width)] {
        if let (Some(part), Some(width)) = (part, width)
            && part > width
        {
            let width = plain(width);
            let message = format!("`{name}` must not be more than the greatest width, {width} mm");
            let remedy = format!("give a `{name}` of at most {width} mm, or a greater `width`");
            report.add(table.span(name), message, remedy);
        }
    }
    Some(OutlineBody::Measures {
        width: width?,
        wide_point: wide_point?,
        nose_width: nose_width?,
        tail_width: tail_width?,
    })
}
