//! R12 (AC1009): no handles, no subclass markers, upper-case names, POLYLINE with VERTEX.

use super::entities::{self, Vertex};
use super::text::{alignment, text_body};
use super::writer::Writer;
use crate::geometry::path::Bounds;
use crate::views::drawing::{Item, Layer, Shape, Text};
use std::borrow::Cow;

pub(super) fn document(items: &[Cow<'_, Item>], bounds: Bounds) -> String {
    let mut w = Writer::with_capacity(16 * 1024);
    header(&mut w, bounds);
    tables(&mut w, bounds);
    w.words(&[(0, "SECTION"), (2, "BLOCKS"), (0, "ENDSEC")]);
    w.words(&[(0, "SECTION"), (2, "ENTITIES")]);
    for item in items {
        let layer = item.layer.name().to_ascii_uppercase();
        match &item.shape {
            Shape::Path(path) => {
                if let Some([x, y, radius]) = entities::circle(path) {
                    w.words(&[(0, "CIRCLE"), (8, &layer)]);
                    w.grains(10, x);
                    w.grains(20, y);
                    w.word(30, "0");
                    w.grains(40, radius);
                    continue;
                }
                let chain = entities::vertices(path);
                if chain.len() > 1 {
                    polyline(&mut w, &layer, &chain, path.closed);
                }
            }
            Shape::Text(words) => text(&mut w, &layer, words),
        }
    }
    w.words(&[(0, "ENDSEC"), (0, "EOF")]);
    w.text
}

fn header(w: &mut Writer, bounds: Bounds) {
    w.words(&[(0, "SECTION"), (2, "HEADER")]);
    w.variable("$ACADVER", 1, "AC1009");
    // Later than R12, but readers heed it and older ones pass over it.
    w.variable("$INSUNITS", 70, "4");
    w.variable("$MEASUREMENT", 70, "1");
    w.word(9, "$EXTMIN");
    w.point(10, bounds.min.x, bounds.min.y, true);
    w.word(9, "$EXTMAX");
    w.point(10, bounds.max.x, bounds.max.y, true);
    w.word(9, "$LIMMIN");
    w.point(10, bounds.min.x, bounds.min.y, false);
    w.word(9, "$LIMMAX");
    w.point(10, bounds.max.x, bounds.max.y, false);
    w.variable("$LUNITS", 70, "2");
    w.variable("$LUPREC", 70, "4");
    w.variable("$HANDLING", 70, "0");
    w.word(0, "ENDSEC");
}

fn tables(w: &mut Writer, bounds: Bounds) {
    w.words(&[(0, "SECTION"), (2, "TABLES")]);
    w.words(&[
        (0, "TABLE"),
        (2, "VPORT"),
        (70, "1"),
        (0, "VPORT"),
        (2, "*ACTIVE"),
        (70, "0"),
    ]);
    super::r2000::view(w, bounds);
    w.word(0, "ENDTAB");
    w.words(&[
        (0, "TABLE"),
        (2, "LTYPE"),
        (70, "1"),
        (0, "LTYPE"),
        (2, "CONTINUOUS"),
        (70, "0"),
        (3, "Solid line"),
        (72, "65"),
        (73, "0"),
        (40, "0"),
        (0, "ENDTAB"),
    ]);
    w.words(&[(0, "TABLE"), (2, "LAYER")]);
    w.whole(70, Layer::ALL.len() as i64 + 1);
    let plain = ("0".to_owned(), 7);
    let own = Layer::ALL.map(|layer| (layer.name().to_ascii_uppercase(), layer.colour_index()));
    for (name, colour) in std::iter::once(plain).chain(own) {
        w.words(&[(0, "LAYER"), (2, &name), (70, "0")]);
        w.whole(62, i64::from(colour));
        w.word(6, "CONTINUOUS");
    }
    w.word(0, "ENDTAB");
    w.words(&[
        (0, "TABLE"),
        (2, "STYLE"),
        (70, "1"),
        (0, "STYLE"),
        (2, "STANDARD"),
        (70, "0"),
        (40, "0"),
        (41, "1"),
        (50, "0"),
        (71, "0"),
        (42, "2.5"),
        (3, "txt"),
        (4, ""),
        (0, "ENDTAB"),
        (0, "ENDSEC"),
    ]);
}

fn polyline(w: &mut Writer, layer: &str, chain: &[Vertex], closed: bool) {
    w.words(&[(0, "POLYLINE"), (8, layer), (66, "1")]);
    w.words(&[
        (10, "0"),
        (20, "0"),
        (30, "0"),
        (70, if closed { "1" } else { "0" }),
    ]);
    for vertex in chain {
        w.words(&[(0, "VERTEX"), (8, layer)]);
        w.grains(10, vertex.x);
        w.grains(20, vertex.y);
        w.word(30, "0");
        if vertex.bulge != 0.0 {
            w.ratio(42, vertex.bulge);
        }
    }
    w.words(&[(0, "SEQEND"), (8, layer)]);
}

fn text(w: &mut Writer, layer: &str, text: &Text) {
    w.words(&[(0, "TEXT"), (8, layer)]);
    text_body(w, text, &entities::text_r12(&text.content));
    w.word(7, "STANDARD");
    alignment(w, text);
}
