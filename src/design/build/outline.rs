//! The plan shape and how its ends close.

use crate::design::model::OutlineBody;
use crate::design::{Nose, Outline, Tail, table::Table};

/// The plan shape of a board of this length.
pub(super) fn outline(table: &Table, length: f64) -> Outline {
    let body = match table.pairs("points") {
        Some(points) => OutlineBody::Points(points),
        None => measures(table, length),
    };
    let nose = match table.word("nose") {
        "round" => Nose::Round,
        _ => Nose::Pointed {
            angle: table.number("nose_angle"),
        },
    };
    let ahead = body.width_before_tail();
    Outline {
        tail: tail(table, ahead.unwrap_or_else(|| table.number("tail_width"))),
        body,
        nose,
    }
}

fn measures(table: &Table, length: f64) -> OutlineBody {
    let width = table.number("width");
    let nose_share = match table.word("nose") {
        "round" => 0.8,
        _ => 0.58,
    };
    let tail_share = match table.word("tail") {
        "pin" => 0.6,
        "round" => 0.7,
        _ => 0.72,
    };
    OutlineBody::Measures {
        width,
        wide_point: table.number_or("wide_point", 0.52 * length),
        nose_width: table.number_or("nose_width", nose_share * width),
        tail_width: table.number_or("tail_width", tail_share * width),
    }
}

/// The tail of an outline that is `ahead` wide 12 in from it.
fn tail(table: &Table, ahead: f64) -> Tail {
    let shape = table.word("tail");
    let share = if shape == "swallow" { 0.6 } else { 0.5 };
    let width = table.number_or("tail_end_width", share * ahead);
    match shape {
        "pin" => Tail::Pin {
            angle: table.number("tail_angle"),
        },
        "square" => Tail::Square { width },
        "squash" => Tail::Squash {
            width,
            radius: table.number_or("tail_corner", 0.25 * width),
        },
        "swallow" => Tail::Swallow {
            width,
            depth: table.number_or("tail_cleft", 0.45 * width),
        },
        _ => Tail::Round,
    }
}
