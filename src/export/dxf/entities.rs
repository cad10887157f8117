//! What both versions share: polyline vertices and text content.

use crate::drawing::{Path, Segment};
use crate::export::{number, words};

/// A polyline vertex in grains and the bulge of the piece that leaves it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Vertex {
    pub x: i64,
    pub y: i64,
    pub bulge: f64,
}

/// Vertices of a path whose cubics became arcs. Pieces that rounding leaves without length are dropped; a
/// closed path does not repeat its start.
pub(super) fn vertices(path: &Path, tolerance: f64) -> Vec<Vertex> {
    let fitted;
    let has_cubics = path
        .segments
        .iter()
        .any(|s| matches!(s, Segment::Cubic { .. }));
    let path = if has_cubics {
        fitted = path.with_arcs(tolerance);
        &fitted
    } else {
        path
    };
    let vertex = |p: crate::drawing::Point, bulge| Vertex {
        x: number::grains(p.x),
        y: number::grains(p.y),
        bulge,
    };
    let mut chain: Vec<Vertex> = Vec::with_capacity(path.segments.len() + 1);
    let mut push = |next: Vertex| match chain.last_mut() {
        Some(last) if (last.x, last.y) == (next.x, next.y) => *last = next,
        _ => chain.push(next),
    };
    for (from, segment) in path.pieces() {
        let bulge = match *segment {
            Segment::Arc { bulge, .. } => bulge,
            _ => 0.0,
        };
        push(vertex(from, bulge));
    }
    push(vertex(path.end(), 0.0));
    if path.closed && chain.len() > 1 {
        chain.pop();
    }
    chain
}

/// The content of a TEXT: no control characters, codes escaped, everything beyond ASCII as `\U+XXXX`.
pub(super) fn text_content(content: &str) -> String {
    let content = words::printable(content);
    let percents = content.contains("%%");
    let mut out = String::with_capacity(content.len());
    for c in content.chars() {
        match c {
            // Two percent signs start a code; three of them print one.
            '%' if percents => out.push_str("%%%"),
            '^' => out.push_str("^ "),
            ' '..='~' if c != '\\' => out.push(c),
            _ => {
                let mut units = [0; 2];
                for unit in c.encode_utf16(&mut units) {
                    out.push_str(&format!("\\U+{unit:04X}"));
                }
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Point;

    #[test]
    fn a_circle_is_two_vertices_with_bulge_one() {
        let circle = vertices(&Path::circle(Point::origin(), 2.0), 0.02);
        let expected = [20_000, -20_000].map(|x| Vertex {
            x,
            y: 0,
            bulge: 1.0,
        });
        assert_eq!(circle, expected);
    }

    #[test]
    fn pieces_lost_in_rounding_are_dropped() {
        let points = [
            (0.0, 0.0),
            (0.000_07, 0.000_08),
            (5.0, 0.0),
            (5.0, 5.0),
            (0.000_03, 0.000_04),
        ];
        let path = Path::polyline(&points.map(|(x, y)| Point::new(x, y)), true);
        let corners: Vec<_> = vertices(&path, 0.02).iter().map(|v| (v.x, v.y)).collect();
        assert_eq!(corners, [(0, 0), (1, 1), (50_000, 0), (50_000, 50_000)]);
    }

    #[test]
    fn text_is_plain_ascii() {
        assert_eq!(text_content("6'4\" × ½\u{7}"), "6'4\" \\U+00D7 \\U+00BD");
        assert_eq!(text_content("50% a\\P\nb"), "50% a\\U+005CP b");
        assert_eq!(text_content("%%d^"), "%%%%%%d^ ");
    }
}
