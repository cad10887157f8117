//! A cradle's template.

use super::Sheet;
use super::label::{LETTER, arrow, block, path, polyline, text};
use crate::board::Board;
use crate::design::units;
use crate::frame::bed::Cradle;
use crate::geometry::path::Point;
use crate::views::drawing::{Align, Drawing, Layer, text_width};

pub(super) fn sheet(board: &Board, cradle: &Cradle) -> Sheet {
    let part = format!("cradle-{:02}", cradle.number);
    let [centre, _] = cradle.heights;
    let (half, sight) = (cradle.half_width, board.bed.sight);
    let mut items = vec![path(&part, Layer::OutsideCut, cradle.outline.clone())];
    items.extend(
        cradle
            .holes
            .iter()
            .map(|hole| path(&part, Layer::InsideCut, hole.clone())),
    );
    // The centreline at the upper edge, and the sight line out to both ends.
    let tick = (centre - sight).min(10.0);
    items.push(polyline(
        &part,
        Layer::Mark,
        &[Point::new(0.0, centre - tick), Point::new(0.0, centre)],
    ));
    let inner = (half * 0.6).max(half - 60.0);
    for side in [1.0, -1.0] {
        items.push(polyline(
            &part,
            Layer::Mark,
            &[
                Point::new(side * inner, sight),
                Point::new(side * half, sight),
            ],
        ));
    }
    let x = (half * 0.3).min(30.0);
    items.extend(arrow(
        &part,
        Point::new(x, sight - 6.0),
        Point::new(x, sight + 6.0),
    ));
    let under = cradle
        .rib
        .map_or(String::new(), |rib| format!(", RIB {rib}"));
    let name = format!("{}{under} UP", part.to_uppercase());
    // As large as fits on a narrow cradle.
    let letter = LETTER.min(LETTER * 1.8 * half / text_width(&name, LETTER));
    let over = Point::new(0.0, sight + 10.0);
    items.push(text(&part, over, letter, Align::Middle, name));
    let bounds = cradle.outline.bounds();
    items.extend(block(
        &part,
        Point::new(bounds.min.x, bounds.min.y - 10.0),
        &words(board, cradle),
    ));
    Sheet {
        what: format!(
            "cradle {} of the building bed, {} from the tail",
            cradle.number,
            units::place(cradle.x, board.design.report)
        ),
        drawing: Drawing {
            title: format!("{}: cradle {}", board.design.name, cradle.number),
            items,
        },
        name: part,
    }
}

fn words(board: &Board, cradle: &Cradle) -> Vec<String> {
    let unit = board.design.report;
    let size = |mm: f64| units::size(mm, unit);
    let mut words = vec![
        board.design.name.clone(),
        format!(
            "Cradle {} of {}: centre plane {} from the tail",
            cradle.number,
            board.bed.cradles.len(),
            size(cradle.x)
        ),
        format!(
            "{} thick, cut 1. Seen from the tail, deck up.",
            units::fine_size(cradle.thickness, board.design.report)
        ),
        format!(
            "Upper edge {} over the table at the centreline, {} at its ends; sight line {}.",
            units::fine_size(cradle.heights[0], board.design.report),
            units::fine_size(cradle.heights[1], board.design.report),
            units::fine_size(board.bed.sight, board.design.report)
        ),
    ];
    words.extend(bevel(cradle));
    let stands = match board.bed.beam {
        None => "",
        Some(_) if cradle.outline.bounds().min.y > 0.0 => "It stands on the beam. ",
        Some(_) => "The notch straddles the beam. ",
    };
    words.push(format!("{stands}Cut along the outside of the contour."));
    words
}

fn bevel(cradle: &Cradle) -> Vec<String> {
    let [centre, end] = cradle.bevels.map(f64::to_degrees);
    if centre.abs().max(end.abs()) < 0.05 {
        return vec!["Upper edge square.".into()];
    }
    let rise = |angle: f64| {
        let face = if angle < 0.0 { "tail" } else { "nose" };
        format!("{:.1}° up to the {face}", angle.abs())
    };
    vec![
        "The line is the lower edge, which bears square as cut.".into(),
        format!(
            "To bear on its whole thickness: {} at the centreline, {} at the ends.",
            rise(centre),
            rise(end)
        ),
    ]
}
