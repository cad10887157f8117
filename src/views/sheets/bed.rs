//! The building bed laid out on its table.

use super::Sheet;
use super::label::{LETTER, block, nose_arrow, path, polyline, text};
use crate::board::Board;
use crate::design::units;
use crate::geometry::path::{Path, Point};
use crate::views::drawing::{Align, Drawing, Layer};

/// Where every cradle stands: a strip of table along the centreline, seen from above.
pub(super) fn sheet(board: &Board) -> Sheet {
    let part = "bed";
    let (bed, length, unit) = (&board.bed, board.design.length, board.design.report);
    let mut items = vec![polyline(
        part,
        Layer::Mark,
        &[Point::new(0.0, 0.0), Point::new(length, 0.0)],
    )];
    for end in [0.0, length] {
        items.push(polyline(
            part,
            Layer::Mark,
            &[Point::new(end, -20.0), Point::new(end, 20.0)],
        ));
    }
    for cradle in &bed.cradles {
        let half = cradle.thickness / 2.0;
        items.push(path(
            part,
            Layer::Mark,
            Path::rectangle(
                Point::new(cradle.x - half, -cradle.half_width),
                Point::new(cradle.x + half, cradle.half_width),
            ),
        ));
        items.push(text(
            part,
            Point::new(cradle.x + half + 3.0, 4.0),
            LETTER,
            Align::Start,
            format!("{}: {}", cradle.number, units::size(cradle.x, unit)),
        ));
    }
    if let Some([width, _]) = bed.beam {
        items.push(path(
            part,
            Layer::Reference,
            Path::rectangle(
                Point::new(0.0, -width / 2.0),
                Point::new(length, width / 2.0),
            ),
        ));
    }
    // Between the last two cradles.
    let middle = match bed.cradles.as_slice() {
        [.., a, b] => (a.x + b.x) / 2.0,
        _ => length / 2.0,
    };
    let nose = Point::new(middle, -12.0);
    items.extend(nose_arrow(part, nose));
    let widest = bed
        .cradles
        .iter()
        .map(|c| c.half_width)
        .fold(20.0, f64::max);
    let mut words = vec![
        board.design.name.clone(),
        "Building bed, seen from above: stand every cradle on its rectangle, square to the centreline.".into(),
        format!(
            "The table lies {} under the base plane; sight lines and holes stand {} over the table. Stretch a string or shine a light through them.",
            units::fine_size(-bed.table, board.design.report),
            units::fine_size(bed.sight, board.design.report)
        ),
    ];
    if !bed.left_out.is_empty() {
        let places: Vec<String> = bed.left_out.iter().map(|x| units::size(*x, unit)).collect();
        words.push(format!(
            "No cradle at {}: the bottom is too narrow there to bear on one.",
            places.join(", ")
        ));
    }
    items.extend(block(part, Point::new(0.0, -widest - 10.0), &words));
    Sheet {
        name: part.into(),
        what: "the building bed's cradles on the table".into(),
        drawing: Drawing {
            title: format!("{}: building bed", board.design.name),
            items,
        },
    }
}
