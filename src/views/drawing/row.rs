//! Laying drawings out side by side.

use super::Drawing;
use crate::geometry::path::{Bounds, Placement};

impl Drawing {
    /// This drawing with the items of `other` after its own; it keeps its title.
    pub fn merged(mut self, other: Self) -> Self {
        self.items.extend(other.items);
        self
    }
}

/// One drawing with all of them in rows from the origin to the right, `gap` mm apart, with a new row
/// above when the next would pass `max_width`. A drawing wider than that gets a row of its own; empty ones
/// take no room. The title is the first drawing's.
pub fn row(drawings: &[Drawing], gap: f64, max_width: f64) -> Drawing {
    let mut sheet = Drawing {
        title: drawings
            .first()
            .map(|d| d.title.clone())
            .unwrap_or_default(),
        items: Vec::new(),
    };
    let (mut x, mut y, mut row_height) = (0.0, 0.0, 0.0f64);
    for drawing in drawings {
        let Some(Bounds { min, max }) = drawing.bounds() else {
            continue;
        };
        let (width, height) = (max.x - min.x, max.y - min.y);
        if x > 0.0 && x + width > max_width {
            y += row_height + gap;
            (x, row_height) = (0.0, 0.0);
        }
        let placed = drawing.transform(&Placement::shift(x - min.x, y - min.y));
        sheet.items.extend(placed.items);
        x += width + gap;
        row_height = row_height.max(height);
    }
    sheet
}

#[cfg(test)]
mod tests {
    use super::super::{Item, Layer, Path, Point, Shape};
    use super::*;

    #[test]
    fn rows_break_at_the_width_and_never_overlap() {
        let square = |side: f64| Drawing {
            title: "s".into(),
            items: vec![Item {
                part: "p".into(),
                layer: Layer::OutsideCut,
                shape: Shape::Path(Path::rectangle(
                    Point::new(-5.0, 7.0),
                    Point::new(side - 5.0, 7.0 + side),
                )),
            }],
        };
        let sheet = row(
            &[square(40.0), square(30.0), square(50.0), square(200.0)],
            10.0,
            100.0,
        );
        let corners: Vec<_> = sheet
            .items
            .iter()
            .map(|i| (i.bounds().min.x, i.bounds().min.y))
            .collect();
        assert_eq!(
            corners,
            [(0.0, 0.0), (50.0, 0.0), (0.0, 50.0), (0.0, 110.0)]
        );
    }
}
