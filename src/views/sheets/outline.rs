//! The plan shape's template.

use super::Sheet;
use super::label::{LETTER, block, nose_arrow, path, polyline, text};
use crate::board::Board;
use crate::design::units;
use crate::frame::FrameError;
use crate::geometry::path::{Path, Point, Segment, arcs_along};
use crate::shape::{End, TWELVE_INCHES};
use crate::views::drawing::{Align, Drawing, Layer};

/// Greatest distance, mm, between the template's lines and arcs and the outline.
const TOLERANCE: f64 = 0.02;

/// Half the plan shape from the centreline out, which is how outline templates are made: drawn round once a side.
pub(super) fn sheet(board: &Board) -> Result<Sheet, FrameError> {
    let part = "outline";
    let plan = board.family.plan();
    let failed = |source| FrameError::Contour {
        part: part.into(),
        source,
    };
    let fitted = arcs_along(
        |u| {
            let [p, d] = plan.curve().derivatives::<2>(u);
            (p, d)
        },
        0.0,
        1.0,
        TOLERANCE,
    )
    .map_err(failed)?;
    let (start, mut pieces) = (fitted.start, fitted.segments);
    let length = board.design.length;
    // Home along the centreline, round the cleft of a swallow tail.
    let mut home = match plan.cleft_depth() {
        Some(depth) => vec![Point::new(depth, 0.0)],
        None if plan.ends()[0] == End::Face => vec![Point::new(0.0, 0.0)],
        None => Vec::new(),
    };
    home.push(start);
    pieces.extend(home.into_iter().map(|to| Segment::Line { to }));
    let outline = Path {
        start,
        segments: pieces,
        closed: true,
    }
    .without_empty_segments();
    let mut items = vec![path(part, Layer::OutsideCut, outline.reversed())];
    let mut x = TWELVE_INCHES;
    while x < length {
        let y = plan.half_width(x);
        let tail = plan.inner(x);
        items.push(polyline(
            part,
            Layer::Mark,
            &[Point::new(x, tail), Point::new(x, (tail + 12.0).min(y))],
        ));
        // Near a tip one mark reaches all across.
        if y - tail > 12.0 {
            items.push(polyline(
                part,
                Layer::Mark,
                &[Point::new(x, (y - 12.0).max(tail)), Point::new(x, y)],
            ));
        }
        let label = format!(
            "{}: {}",
            units::size(x, board.design.report),
            units::size(2.0 * y, board.design.report)
        );
        items.push(text(
            part,
            Point::new(x + 3.0, tail + 4.0),
            LETTER,
            Align::Start,
            label,
        ));
        x += TWELVE_INCHES;
    }
    for rib in &board.ribs {
        let y = plan.half_width(rib.x);
        items.push(polyline(
            part,
            Layer::Mark,
            &[Point::new(rib.x, y - 6.0), Point::new(rib.x, y)],
        ));
        items.push(text(
            part,
            Point::new(rib.x, y - 12.0),
            LETTER,
            Align::Middle,
            format!("rib {}", rib.number),
        ));
    }
    let wide = board.measures.wide_point;
    let nose = Point::new(length * 0.7, plan.half_width(length * 0.7) * 0.45);
    items.extend(nose_arrow(part, nose));
    let report = |mm: f64| units::size(mm, board.design.report);
    let words = [
        board.design.name.clone(),
        "Outline, half: the straight edge lies on the centreline. Cut 1, draw round it once a side.".into(),
        format!(
            "Length {}, width {} at {} from the tail. Marks every 12 in carry the full width.",
            units::length(length, board.design.report),
            report(board.measures.width),
            report(wide)
        ),
    ];
    items.extend(block(part, Point::new(0.0, -10.0), &words));
    Ok(Sheet {
        name: part.into(),
        what: "half outline with station marks".into(),
        drawing: Drawing {
            title: format!("{}: outline", board.design.name),
            items,
        },
    })
}
