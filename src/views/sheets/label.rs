//! What every template carries: text, arrows, a scale to check the print by.

use crate::geometry::path::{Path, Placement, Point};
use crate::views::drawing::{Align, Item, Layer, Shape, Text, scale_check};

/// Heights of letters, mm.
pub(super) const LETTER: f64 = 4.0;
/// Distance between lines of text, mm.
const LEADING: f64 = 7.0;

/// An item of `part` on a layer.
pub(super) fn path(part: &str, layer: Layer, path: Path) -> Item {
    Item {
        part: part.into(),
        layer,
        shape: Shape::Path(path),
    }
}

/// An open polyline of `part` on a layer.
pub(super) fn polyline(part: &str, layer: Layer, points: &[Point]) -> Item {
    path(part, layer, Path::polyline(points, false))
}

/// A line of text.
pub(super) fn text(part: &str, at: Point, height: f64, align: Align, content: String) -> Item {
    Item {
        part: part.into(),
        layer: Layer::Text,
        shape: Shape::Text(Text {
            at,
            height,
            angle: 0.0,
            align,
            content,
        }),
    }
}

/// A word to be engraved on the part itself, in single strokes.
pub(super) fn engraved(part: &str, at: Point, height: f64, align: Align, content: &str) -> Item {
    Item {
        layer: Layer::Mark,
        ..text(part, at, height, align, content.into())
    }
}

/// Lines of text downward from `top`, and the scale check under them.
pub(super) fn block(part: &str, top: Point, lines: &[String]) -> Vec<Item> {
    let mut items: Vec<Item> = lines
        .iter()
        .enumerate()
        .map(|(i, line)| {
            let at = Point::new(top.x, top.y - LETTER - LEADING * i as f64);
            text(part, at, LETTER, Align::Start, line.clone())
        })
        .collect();
    let scale = scale_check();
    if let Some(bounds) = scale.bounds() {
        let y = top.y - LEADING * (lines.len() as f64 + 1.0) - bounds.max.y;
        let placed = scale.transform(&Placement::shift(top.x - bounds.min.x, y));
        items.extend(placed.items.into_iter().map(|item| Item {
            part: part.into(),
            ..item
        }));
    }
    items
}

/// An arrow from `from` to `to`.
pub(super) fn arrow(part: &str, from: Point, to: Point) -> Vec<Item> {
    let d = (to - from).normalize();
    let n = nalgebra::Vector2::new(-d.y, d.x);
    let head = (to - from).norm().min(12.0) / 3.0;
    let barbs = [
        to - d * head + n * head * 0.5,
        to,
        to - d * head - n * head * 0.5,
    ];
    vec![
        polyline(part, Layer::Mark, &[from, to]),
        polyline(part, Layer::Mark, &barbs),
    ]
}

/// An arrow from `from` to the nose, with its word behind it.
pub(super) fn nose_arrow(part: &str, from: Point) -> Vec<Item> {
    let mut items = arrow(part, from, Point::new(from.x + 40.0, from.y));
    items.push(text(
        part,
        Point::new(from.x + 44.0, from.y - LETTER / 2.0),
        LETTER,
        Align::Start,
        "NOSE".into(),
    ));
    items
}
