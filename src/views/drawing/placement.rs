//! Moving drawings rigidly: turn, shift, mirror.

use super::{Align, Drawing, Item, Shape, Text};
use crate::geometry::path::Placement;

impl Text {
    /// The text moved. Mirrored text stays readable: it covers the mirrored box, read from its other end.
    pub fn transform(&self, placement: &Placement) -> Self {
        let (angle, align) = if placement.mirrored {
            let align = match self.align {
                Align::Start => Align::End,
                Align::Middle => Align::Middle,
                Align::End => Align::Start,
            };
            (placement.angle - self.angle + std::f64::consts::PI, align)
        } else {
            (placement.angle + self.angle, self.align)
        };
        Self {
            at: placement.apply(self.at),
            height: self.height,
            angle,
            align,
            content: self.content.clone(),
        }
    }
}

impl Item {
    /// The item moved.
    pub fn transform(&self, placement: &Placement) -> Self {
        Self {
            part: self.part.clone(),
            layer: self.layer,
            shape: match &self.shape {
                Shape::Path(path) => Shape::Path(path.transform(placement)),
                Shape::Text(text) => Shape::Text(text.transform(placement)),
            },
        }
    }
}

impl Drawing {
    /// The drawing moved.
    pub fn transform(&self, placement: &Placement) -> Self {
        Self {
            title: self.title.clone(),
            items: self
                .items
                .iter()
                .map(|item| item.transform(placement))
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::path::Point;
    use std::f64::consts::{FRAC_PI_2, PI};

    #[test]
    fn mirrored_text_covers_the_mirrored_box() {
        let text = Text {
            at: Point::new(5.0, 5.0),
            height: 7.0,
            angle: 0.0,
            align: Align::Start,
            content: "nose".into(),
        };
        let before = text.bounds();
        let after = text.transform(&Placement::mirror(FRAC_PI_2)).bounds();
        assert!((after.min.x + before.max.x).abs() < 1e-9, "{after:?}");
        assert!((after.min.y - before.min.y).abs() < 1e-9);
        assert!(
            (Placement::turn(PI).apply(Point::new(1.0, 0.0)) - Point::new(-1.0, 0.0)).norm()
                < 1e-15
        );
    }
}
