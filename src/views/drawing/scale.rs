//! A rule and a square to tape after printing or cutting.

use super::{Align, Drawing, Item, Layer, Path, Point, Shape, Text};

/// Length of the rule, mm.
const RULE: f64 = 100.0;
/// One inch, mm.
const INCH: f64 = 25.4;

/// A 100 mm rule with ticks and a square of 1 in, labelled; lower left corner at the origin.
pub fn scale_check() -> Drawing {
    let mut paths = vec![Path::polyline(
        &[Point::zeros(), Point::new(RULE, 0.0)],
        false,
    )];
    let mut texts = Vec::new();
    for step in 0..=20u32 {
        let x = f64::from(step) * RULE / 20.0;
        let tall = if step % 10 == 0 {
            6.0
        } else if step % 2 == 0 {
            4.0
        } else {
            2.5
        };
        paths.push(Path::polyline(
            &[Point::new(x, 0.0), Point::new(x, tall)],
            false,
        ));
        if step % 10 == 0 {
            let unit = if step == 20 { " mm" } else { "" };
            texts.push((x, 7.5, format!("{}{unit}", step * 5)));
        }
    }
    let left = RULE + 16.0;
    paths.push(Path::rectangle(
        Point::new(left, 0.0),
        Point::new(left + INCH, INCH),
    ));
    texts.push((left + INCH / 2.0, INCH / 2.0 - 1.75, "1 in".into()));
    texts.push((RULE / 2.0, 18.0, "Measure: 100 mm rule, 1 in square".into()));
    let item = |layer, shape| Item {
        part: "scale-check".into(),
        layer,
        shape,
    };
    let marks = paths
        .into_iter()
        .map(|path| item(Layer::Scale, Shape::Path(path)));
    let labels = texts.into_iter().map(|(x, y, content)| {
        item(
            Layer::Text,
            Shape::Text(Text {
                at: Point::new(x, y),
                height: 3.5,
                angle: 0.0,
                align: Align::Middle,
                content,
            }),
        )
    });
    Drawing {
        title: "Scale check".into(),
        items: marks.chain(labels).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rule_is_100_mm_and_the_square_one_inch() {
        let check = scale_check();
        assert_eq!(check.check(), vec![]);
        let widths: Vec<f64> = check
            .items
            .iter()
            .filter(|item| item.layer == Layer::Scale)
            .map(|item| item.bounds().width())
            .collect();
        assert_eq!(widths.first(), Some(&100.0));
        assert!(widths.last().is_some_and(|w| (w - 25.4).abs() < 1e-9));
    }
}
