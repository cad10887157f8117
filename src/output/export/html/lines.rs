//! The lines of a drawing as a small picture.

use std::fmt::Write;

use crate::output::export::number;
use crate::views::drawing::{Drawing, Item, Layer, Shape};

/// Greatest distance, mm, of the picture's lines from the drawing's for each metre of its size.
const COARSENESS: f64 = 0.5;

/// An `<svg>` element showing the lines of `drawing` without text, for HTML; it has a view box and no size.
///
/// Empty when there is nothing to show.
pub(super) fn lines(drawing: &Drawing) -> String {
    let shown = |item: &&Item| matches!(item.shape, Shape::Path(_)) && item.part != "scale-check";
    let lines = Drawing {
        title: String::new(),
        items: drawing.items.iter().filter(shown).cloned().collect(),
    };
    let Some(bounds) = lines.bounds() else {
        return String::new();
    };
    let size = bounds.width().max(bounds.height()).max(1.0);
    let margin = size * 0.01;
    let mut svg = String::from("<svg viewBox=\"");
    push(&mut svg, bounds.min.x - margin);
    push(&mut svg, -bounds.max.y - margin);
    push(&mut svg, bounds.width() + 2.0 * margin);
    push(&mut svg, bounds.height() + 2.0 * margin);
    svg.push_str("\" role=\"img\" aria-hidden=\"true\">");
    for layer in Layer::ALL {
        let mut d = String::new();
        for item in lines.items.iter().filter(|item| item.layer == layer) {
            let Shape::Path(path) = &item.shape else {
                continue;
            };
            let points = path.flatten(COARSENESS * size / 1000.0);
            for (i, point) in points.iter().enumerate() {
                d.push(if i == 0 { 'M' } else { 'L' });
                push(&mut d, point.x);
                push(&mut d, -point.y);
            }
        }
        if !d.is_empty() {
            let [r, g, b] = layer.colour();
            let _ = write!(
                svg,
                "<path d=\"{}\" stroke=\"#{r:02x}{g:02x}{b:02x}\"/>",
                d.trim_end()
            );
        }
    }
    svg.push_str("</svg>");
    svg
}

fn push(text: &mut String, value: f64) {
    text.push_str(&number::text(value, 1));
    text.push(' ');
}
