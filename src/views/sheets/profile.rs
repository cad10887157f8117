//! The rocker's template.

use super::Sheet;
use super::label::{LETTER, block, nose_arrow, path, polyline, text};
use crate::board::Board;
use crate::design::units;
use crate::frame::FrameError;
use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Point, Segment, arcs_along};
use crate::shape::TWELVE_INCHES;
use crate::views::drawing::{Align, Drawing, Layer};

/// Greatest distance, mm, between the template's lines and arcs and the rocker.
const TOLERANCE: f64 = 0.02;
/// Depth of the template under the base line, mm.
const DEPTH: f64 = 60.0;

/// The rocker template: its upper edge is the bottom's centreline, standing on the base line.
pub(super) fn sheet(board: &Board) -> Result<Sheet, FrameError> {
    let part = "rocker";
    let rocker = board.family.rocker();
    let failed = |source| FrameError::Contour {
        part: part.into(),
        source,
    };
    let length = board.design.length;
    let fitted = arcs_along(
        |x| {
            let [z, slope, _] = rocker.height(x);
            (Vector::<2>::new(x, z), Vector::<2>::new(1.0, slope))
        },
        0.0,
        length,
        TOLERANCE,
    )
    .map_err(failed)?;
    let (start, mut pieces) = (fitted.start, fitted.segments);
    let corners = [Point::new(length, -DEPTH), Point::new(0.0, -DEPTH), start];
    pieces.extend(corners.map(|to| Segment::Line { to }));
    let contour = Path {
        start,
        segments: pieces,
        closed: true,
    }
    .without_empty_segments();
    let mut items = vec![path(part, Layer::OutsideCut, contour.reversed())];
    for [from, to] in base_lines(length, |x| rocker.height(x)[0]) {
        let ends = [Point::new(from, 0.0), Point::new(to, 0.0)];
        items.push(polyline(part, Layer::Mark, &ends));
    }
    let mut x = 0.0;
    while x <= length {
        let z = rocker.height(x)[0];
        // At the tail the contour's own edge is the mark.
        if x > 0.0 {
            items.push(polyline(
                part,
                Layer::Mark,
                &[Point::new(x, -10.0), Point::new(x, z)],
            ));
        }
        let align = if x < 1.0 { Align::Start } else { Align::Middle };
        let label = units::size(z, board.design.report);
        items.push(text(
            part,
            Point::new(x + if x < 1.0 { 3.0 } else { 0.0 }, -18.0),
            LETTER,
            align,
            label,
        ));
        x += TWELVE_INCHES;
    }
    let deck: Vec<Point> = deck_line(board);
    items.push(polyline(part, Layer::Reference, &deck));
    items.extend(nose_arrow(part, Point::new(length - 120.0, -DEPTH + 14.0)));
    let report = |mm: f64| units::size(mm, board.design.report);
    let words = [
        board.design.name.clone(),
        "Rocker: the upper edge is the bottom's centreline, the line along it the base line. Cut 1.".into(),
        format!(
            "Nose rocker {}, tail rocker {}. Heights every 12 in from the tail; the grey line is the deck.",
            report(board.measures.nose_rocker),
            report(board.measures.tail_rocker)
        ),
    ];
    items.extend(block(part, Point::new(0.0, -DEPTH - 10.0), &words));
    Ok(Sheet {
        name: part.into(),
        what: "rocker template with heights".into(),
        drawing: Drawing {
            title: format!("{}: rocker", board.design.name),
            items,
        },
    })
}

/// Where the base line is marked: from either end to where the bottom comes so near that the cut would run over the mark.
fn base_lines(length: f64, height: impl Fn(f64) -> f64) -> Vec<[f64; 2]> {
    const NEAR: f64 = 0.5;
    let reach = |from: f64, way: f64| {
        let places = (0..=length as usize).map(|k| from + way * k as f64);
        places.take_while(|x| height(*x) > NEAR).last()
    };
    let tail = reach(0.0, 1.0).map(|x| [0.0, x]);
    let nose = reach(length, -1.0).map(|x| [x, length]);
    // A bottom that never comes down to it leaves one line.
    match (tail, nose) {
        (Some([_, to]), Some([from, _])) if to > from => vec![[0.0, length]],
        _ => tail
            .into_iter()
            .chain(nose)
            .filter(|[a, b]| b > a)
            .collect(),
    }
}

/// The deck's centreline, dense enough to look at.
fn deck_line(board: &Board) -> Vec<Point> {
    let (tail, nose) = board.shell.x_range();
    let start = board.family.plan().cleft_depth().unwrap_or(tail);
    const STEPS: usize = 300;
    // Crowded towards the tips, where the deck comes down steeply.
    (0..=STEPS)
        .map(|i| {
            let t = (1.0 - (std::f64::consts::PI * i as f64 / STEPS as f64).cos()) / 2.0;
            let x = start + (nose - start) * t;
            Point::new(x, board.shell.centre_heights(x)[1])
        })
        .collect()
}
