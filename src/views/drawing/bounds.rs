//! Bounding boxes of texts and whole drawings.

use super::{Drawing, Item, Shape, Text, strokes};
use crate::geometry::path::{Bounds, Point};

impl Text {
    /// The box of the text in the stroke lettering, descenders included.
    pub fn bounds(&self) -> Bounds {
        let width = strokes::text_width(&self.content, self.height);
        let left = strokes::start_offset(self.align, width);
        let (sin, cos) = self.angle.sin_cos();
        let corner = |x: f64, y: f64| {
            Point::new(self.at.x + x * cos - y * sin, self.at.y + x * sin + y * cos)
        };
        let (low, high) = (
            -strokes::DESCENT * self.height,
            strokes::ASCENT * self.height,
        );
        Bounds::of_point(corner(left, low))
            .including(corner(left + width, low))
            .including(corner(left, high))
            .including(corner(left + width, high))
    }
}

impl Item {
    /// The box of what it shows.
    pub fn bounds(&self) -> Bounds {
        match &self.shape {
            Shape::Path(path) => path.bounds(),
            Shape::Text(text) => text.bounds(),
        }
    }
}

impl Drawing {
    /// The box of everything in it; `None` when it is empty.
    pub fn bounds(&self) -> Option<Bounds> {
        self.items.iter().map(Item::bounds).reduce(Bounds::union)
    }
}
