//! Drawings as SVG: a millimetre document, one group a layer and in it one a part.

use super::number::{self, COORDINATE};
use super::{ExportError, words};
use crate::geometry::path::{Bounds, Path, Point, Segment};
use crate::views::drawing::{Align, Drawing, Item, Layer, Shape, Text, stroke_text};
use std::collections::BTreeSet;
use svg::Document;
use svg::node::element;

/// How to write an SVG.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SvgOptions {
    /// Blank border round the drawing, mm.
    pub margin: f64,
    /// Width of cut lines, mm; reference lines are half as wide.
    pub line_width: f64,
    /// Labels as single strokes instead of text, so that they look the same everywhere.
    pub stroke_labels: bool,
}

impl Default for SvgOptions {
    fn default() -> Self {
        Self {
            margin: 5.0,
            line_width: 0.2,
            stroke_labels: true,
        }
    }
}

/// Capital height over font size of the sans-serif faces usually found.
const CAPITAL_RATIO: f64 = 0.72;

/// The drawing as an SVG document whose natural size is its true size.
pub fn write(drawing: &Drawing, options: &SvgOptions) -> Result<String, ExportError> {
    let faults = drawing.check();
    if !faults.is_empty() {
        return Err(ExportError::UnfitDrawing {
            title: drawing.title.clone(),
            faults,
        });
    }
    let Some(Bounds { min, max }) = drawing.bounds() else {
        return Err(ExportError::EmptyDrawing {
            title: drawing.title.clone(),
        });
    };
    let margin = options.margin.max(0.0);
    let mm = |value| number::text(value, COORDINATE);
    let (width, height) = (
        mm(max.x - min.x + 2.0 * margin),
        mm(max.y - min.y + 2.0 * margin),
    );
    let view = format!(
        "{} {} {width} {height}",
        mm(min.x - margin),
        mm(-max.y - margin)
    );
    let mut document = Document::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("viewBox", view)
        .set("fill", "none")
        .set("stroke-linecap", "round")
        .set("stroke-linejoin", "round")
        .add(element::Title::new(words::printable(&drawing.title)));
    let mut ids = BTreeSet::new();
    for layer in Layer::ALL {
        if drawing.items.iter().any(|item| item.layer == layer) {
            document = document.add(layer_group(drawing, layer, options, &mut ids));
        }
    }
    Ok(format!("{document}\n"))
}

fn layer_group(
    drawing: &Drawing,
    layer: Layer,
    options: &SvgOptions,
    ids: &mut BTreeSet<String>,
) -> element::Group {
    let width = match layer {
        Layer::Reference => options.line_width / 2.0,
        _ => options.line_width,
    };
    let [r, g, b] = layer.colour();
    let mut group = element::Group::new()
        .set("id", unique(layer.name().to_owned(), ids))
        .set("stroke", format!("#{r:02x}{g:02x}{b:02x}"))
        .set("stroke-width", number::text(width, COORDINATE));
    let items: Vec<&Item> = drawing
        .items
        .iter()
        .filter(|item| item.layer == layer)
        .collect();
    let mut parts: Vec<&str> = Vec::new();
    for item in &items {
        if !parts.contains(&item.part.as_str()) {
            parts.push(&item.part);
        }
    }
    for part in parts {
        let id = format!("{}.{}", words::identifier(part), layer.name());
        let mut inner = element::Group::new().set("id", unique(id, ids));
        for item in items.iter().filter(|item| item.part == part) {
            match &item.shape {
                Shape::Path(path) => {
                    inner = inner.add(element::Path::new().set("d", path_data(path)));
                }
                Shape::Text(text) if options.stroke_labels => {
                    let strokes: Vec<String> = stroke_text(text).iter().map(path_data).collect();
                    let label = element::Path::new()
                        .set("d", strokes.join(""))
                        .set("aria-label", words::printable(&text.content));
                    inner = inner.add(label);
                }
                Shape::Text(text) => inner = inner.add(text_element(text, layer)),
            }
        }
        group = group.add(inner);
    }
    group
}

/// `id`, with a number after it when it is taken.
fn unique(id: String, ids: &mut BTreeSet<String>) -> String {
    let mut candidate = id.clone();
    let mut count = 2;
    while !ids.insert(candidate.clone()) {
        candidate = format!("{id}-{count}");
        count += 1;
    }
    candidate
}

fn text_element(text: &Text, layer: Layer) -> element::Text {
    let anchor = match text.align {
        Align::Start => "start",
        Align::Middle => "middle",
        Align::End => "end",
    };
    let mm = |value| number::text(value, COORDINATE);
    let (x, y) = (mm(text.at.x), mm(-text.at.y));
    let [r, g, b] = layer.colour();
    let mut element = element::Text::new(words::printable(&text.content))
        .set("x", x.as_str())
        .set("y", y.as_str())
        .set("font-family", "sans-serif")
        .set("font-size", mm(text.height / CAPITAL_RATIO))
        .set("text-anchor", anchor)
        .set("fill", format!("#{r:02x}{g:02x}{b:02x}"))
        .set("stroke", "none");
    let degrees = mm(-text.angle.to_degrees());
    if degrees != "0" {
        element = element.set("transform", format!("rotate({degrees} {x} {y})"));
    }
    element
}

/// The `d` of a path, y turned downward as SVG has it.
fn path_data(path: &Path) -> String {
    let mut d = String::from("M");
    push_point(&mut d, path.start);
    let last = path.segments.len().wrapping_sub(1);
    for (index, (from, segment)) in path.pieces().enumerate() {
        match *segment {
            // `Z` draws the closing line itself.
            Segment::Line { .. } if path.closed && index == last => {}
            Segment::Line { to } => {
                d.push('L');
                push_point(&mut d, to);
            }
            Segment::Arc { to, bulge } => {
                let radius = (to - from).norm() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
                // Beyond a kilometre an arc is straight at every rounding.
                if radius > 1e6 || !radius.is_finite() {
                    d.push('L');
                } else {
                    d.push('A');
                    number::push(&mut d, radius, COORDINATE);
                    d.push(' ');
                    number::push(&mut d, radius, COORDINATE);
                    d.push_str(if bulge.abs() > 1.0 { " 0 1 " } else { " 0 0 " });
                    d.push_str(if bulge > 0.0 { "0 " } else { "1 " });
                }
                push_point(&mut d, to);
            }
            Segment::Cubic { c1, c2, to } => {
                d.push('C');
                for (i, point) in [c1, c2, to].into_iter().enumerate() {
                    if i > 0 {
                        d.push(' ');
                    }
                    push_point(&mut d, point);
                }
            }
        }
    }
    if path.closed {
        d.push('Z');
    }
    d
}

fn push_point(d: &mut String, point: Point) {
    number::push(d, point.x, COORDINATE);
    d.push(' ');
    number::push(d, -point.y, COORDINATE);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_counter_clockwise_circle_turns_the_right_way() {
        let d = path_data(&Path::circle(Point::new(10.0, 20.0), 5.0));
        assert_eq!(d, "M15 -20A5 5 0 0 0 5 -20A5 5 0 0 0 15 -20Z");
    }

    #[test]
    fn words_are_escaped_and_ids_unique() {
        let text = |content: &str| Item {
            part: "rib 1 <&".into(),
            layer: Layer::Text,
            shape: Shape::Text(Text {
                at: Point::zeros(),
                height: 5.0,
                angle: 0.5,
                align: Align::End,
                content: content.into(),
            }),
        };
        let mut drawing = Drawing {
            title: "<a> & \"b\"\u{8}".into(),
            items: vec![text("6'4\" <\u{0}&\n>"), text("x")],
        };
        drawing.items[1].part = "rib 1 &<".into();
        let options = SvgOptions {
            stroke_labels: false,
            ..SvgOptions::default()
        };
        let svg = write(&drawing, &options).unwrap_or_default();
        assert!(svg.contains("&lt;a&gt; &amp; \"b\""), "{svg}");
        assert!(svg.contains("6'4\" &lt;&amp; &gt;"), "{svg}");
        assert!(
            svg.contains("\"rib-1---.text\"") && svg.contains("\"rib-1---.text-2\""),
            "{svg}"
        );
        assert!(!svg.contains(['\u{0}', '\u{8}']));
    }
}
