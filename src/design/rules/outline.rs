//! Rules of the board's name and its plan shape.

use super::{Breaks, Rule, key};
use crate::design::model::{Draft, FOOT, OutlineBody, Tail};
use crate::design::scalar::plain;
use crate::design::units::Unit;

pub(super) const RULES: &[Rule] = &[
    Rule {
        code: "name-empty",
        keys: &["name"],
        rests_on: &[],
        says: "`name` must not be empty",
        breaks: name,
    },
    Rule {
        code: "report-unit",
        keys: &["report"],
        rests_on: &[],
        says: "reports are in millimetres or inches",
        breaks: report,
    },
    Rule {
        code: "outline-points-few",
        keys: &["outline.points"],
        rests_on: &[],
        says: "`points` must hold at least three points",
        breaks: enough_points,
    },
    Rule {
        code: "outline-points-inside",
        keys: &["outline.points", "outline.length"],
        rests_on: &[],
        says: "every point must lie between the ends",
        breaks: points_inside,
    },
    Rule {
        code: "wide-point-inside",
        keys: &["outline.wide_point", "outline.length"],
        rests_on: &[],
        says: "`wide_point` must lie more than 12 in from both ends",
        breaks: wide_point,
    },
    Rule {
        code: "nose-width",
        keys: &["outline.nose_width", "outline.width"],
        rests_on: &[],
        says: "`nose_width` must not be more than `width`",
        breaks: |draft, breaks| no_wider(draft, breaks, "nose_width"),
    },
    Rule {
        code: "tail-width",
        keys: &["outline.tail_width", "outline.width"],
        rests_on: &[],
        says: "`tail_width` must not be more than `width`",
        breaks: |draft, breaks| no_wider(draft, breaks, "tail_width"),
    },
    Rule {
        code: "tail-end-width",
        keys: &["outline.tail_end_width", "outline.tail_width"],
        rests_on: &["outline.width", "outline.points"],
        says: "`tail_end_width` must not be more than the width 12 in ahead",
        breaks: tail_end_width,
    },
    Rule {
        code: "tail-corner",
        keys: &["outline.tail_corner", "outline.tail_end_width"],
        rests_on: &["outline.tail_width", "outline.width", "outline.points"],
        says: "`tail_corner` must not be more than half of `tail_end_width`",
        breaks: tail_corner,
    },
];

fn name(draft: &Draft, breaks: &mut Breaks) {
    if draft.name.trim().is_empty() {
        breaks.add_plain(
            &[key("name")],
            "`name` must not be empty",
            "write the board's name between the quotes",
        );
    }
}

fn report(draft: &Draft, breaks: &mut Breaks) {
    if !matches!(draft.report, Unit::Mm | Unit::In) {
        breaks.add_plain(
            &[key("report")],
            "`report` must be one of \"mm\", \"in\"",
            "choose one of these units",
        );
    }
}

fn enough_points(draft: &Draft, breaks: &mut Breaks) {
    if let OutlineBody::Points(points) = &draft.outline.body
        && points.len() < 3
    {
        breaks.add(
            &[key("outline.points")],
            [points.len() as f64, 3.0],
            "`points` must hold at least three points".to_owned(),
            "add points, each of them [place, half-width]",
        );
    }
}

fn points_inside(draft: &Draft, breaks: &mut Breaks) {
    let OutlineBody::Points(points) = &draft.outline.body else {
        return;
    };
    for (i, &[x, _]) in points.iter().enumerate() {
        if x <= 0.0 || x >= draft.length {
            let limit = if x <= 0.0 { 0.0 } else { draft.length };
            breaks.add(
                &[key("outline.points").element(i)],
                [x, limit],
                format!(
                    "a point must lie between the ends, 0 and {} mm",
                    plain(draft.length)
                ),
                "leave the ends out; `nose` and `tail` close them",
            );
        }
    }
}

fn wide_point(draft: &Draft, breaks: &mut Breaks) {
    let OutlineBody::Measures { wide_point, .. } = draft.outline.body else {
        return;
    };
    let (least, most) = (FOOT, draft.length - FOOT);
    if wide_point <= least || wide_point >= most {
        let limit = if wide_point <= least { least } else { most };
        let (least, most) = (plain(least), plain(most));
        breaks.add(
            &[key("outline.wide_point")],
            [wide_point, limit],
            format!("`wide_point` must lie between {least} mm and {most} mm, more than 12 in from both ends"),
            "give a place between these, or leave `wide_point` out",
        );
    }
}

fn no_wider(draft: &Draft, breaks: &mut Breaks, name: &str) {
    let OutlineBody::Measures {
        width,
        nose_width,
        tail_width,
        ..
    } = draft.outline.body
    else {
        return;
    };
    let (place, part) = match name {
        "nose_width" => (key("outline.nose_width"), nose_width),
        _ => (key("outline.tail_width"), tail_width),
    };
    if part > width {
        let most = plain(width);
        breaks.add(
            &[place, key("outline.width")],
            [part, width],
            format!("`{name}` must not be more than the greatest width, {most} mm"),
            format!("give a `{name}` of at most {most} mm, or a greater `width`"),
        );
    }
}

/// Full width 12 in from the tail, and that of the tail's cut.
fn tail_widths(draft: &Draft) -> Option<[f64; 2]> {
    let ahead = draft.outline.body.width_before_tail()?;
    match draft.outline.tail {
        Tail::Square { width } | Tail::Squash { width, .. } | Tail::Swallow { width, .. } => {
            Some([ahead, width])
        }
        Tail::Pin { .. } | Tail::Round => None,
    }
}

fn tail_end_width(draft: &Draft, breaks: &mut Breaks) {
    if let Some([ahead, width]) = tail_widths(draft)
        && width > ahead
    {
        let limit = plain(ahead);
        breaks.add(
            &[key("outline.tail_end_width")],
            [width, ahead],
            format!("`tail_end_width` must not be more than the width 12 in ahead, {limit} mm"),
            format!("give at most {limit} mm, or a wider outline there"),
        );
    }
}

fn tail_corner(draft: &Draft, breaks: &mut Breaks) {
    let Tail::Squash { width, radius } = draft.outline.tail else {
        return;
    };
    if radius > width / 2.0 && tail_widths(draft).is_some_and(|[ahead, width]| width <= ahead) {
        let half = plain(width / 2.0);
        breaks.add(
            &[key("outline.tail_corner"), key("outline.tail_end_width")],
            [radius, width / 2.0],
            format!("`tail_corner` must not be more than half of `tail_end_width`, {half} mm"),
            format!("give at most {half} mm, or a greater `tail_end_width`"),
        );
    }
}
