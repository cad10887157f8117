//! What both versions share: polyline vertices and text content.

use crate::geometry::path::Path;
use crate::output::export::{number, words};

/// A polyline vertex in grains and the bulge of the piece that leaves it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Vertex {
    pub x: i64,
    pub y: i64,
    pub bulge: f64,
}

/// Vertices of a path of lines and arcs. Pieces that rounding leaves without length are dropped; a closed path does not repeat its start.
pub(super) fn vertices(path: &Path) -> Vec<Vertex> {
    let vertex = |p: crate::geometry::path::Point, bulge| Vertex {
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
        push(vertex(from, segment.bulge()));
    }
    push(vertex(path.end(), 0.0));
    if path.closed && chain.len() > 1 {
        chain.pop();
    }
    chain
}

/// A full circle in grains: centre and radius, if there is anything of it at that grain.
pub(super) fn circle(path: &Path) -> Option<[i64; 3]> {
    let (centre, radius) = path.as_circle()?;
    let round = [centre.x, centre.y, radius].map(number::grains);
    (round[2] > 0).then_some(round)
}

/// The content of a TEXT: no control characters, codes escaped; of what lies beyond ASCII the signs that have a code of old (`%%d` for °,
/// `%%p` for ±, `%%c` for ⌀) as that, and the rest as `beyond` says.
fn encoded(content: &str, beyond: impl Fn(char, &mut String)) -> String {
    let content = words::printable(content);
    let percents = content.contains("%%");
    let mut out = String::with_capacity(content.len());
    for c in content.chars() {
        match c {
            // Two percent signs start a code; three of them print one.
            '%' if percents => out.push_str("%%%"),
            '^' => out.push_str("^ "),
            ' '..='~' if c != '\\' => out.push(c),
            '°' => out.push_str("%%d"),
            '±' => out.push_str("%%p"),
            '⌀' => out.push_str("%%c"),
            _ => beyond(c, &mut out),
        }
    }
    out
}

/// Text for R2000: everything else beyond ASCII as `\U+XXXX`.
pub(super) fn text_r2000(content: &str) -> String {
    encoded(content, |c, out| {
        let mut units = [0; 2];
        for unit in c.encode_utf16(&mut units) {
            out.push_str(&format!("\\U+{unit:04X}"));
        }
    })
}

/// Letters of Latin-1 from À on, without their accents.
const PLAIN: &str = "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty";

/// Text for R12, which knows no code for other letters: signs and Latin letters become their nearest in ASCII, the rest a question mark.
pub(super) fn text_r12(content: &str) -> String {
    encoded(content, |c, out| match c {
        '×' => out.push('x'),
        '½' => out.push_str("1/2"),
        '¼' => out.push_str("1/4"),
        '¾' => out.push_str("3/4"),
        '²' => out.push('2'),
        '³' => out.push('3'),
        '·' => out.push('.'),
        '–' | '—' | '−' => out.push('-'),
        '‘' | '’' | '′' => out.push('\''),
        '“' | '”' | '„' | '″' => out.push('"'),
        '…' => out.push_str("..."),
        '→' => out.push_str("->"),
        '←' => out.push_str("<-"),
        '≥' => out.push_str(">="),
        '≤' => out.push_str("<="),
        'ß' => out.push_str("ss"),
        '\\' => out.push('/'),
        '\u{a0}' => out.push(' '),
        'À'..='ÿ' => out.extend(PLAIN.chars().nth(c as usize - 'À' as usize)),
        _ => out.push('?'),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::path::Point;

    #[test]
    fn a_circle_is_two_vertices_with_bulge_one() {
        let circle = vertices(&Path::circle(Point::zeros(), 2.0));
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
        let corners: Vec<_> = vertices(&path).iter().map(|v| (v.x, v.y)).collect();
        assert_eq!(corners, [(0, 0), (1, 1), (50_000, 0), (50_000, 50_000)]);
    }

    #[test]
    fn text_is_plain_ascii() {
        for (content, r2000, r12) in [
            ("6'4\" × ½\u{7}", "6'4\" \\U+00D7 \\U+00BD", "6'4\" x 1/2"),
            ("50% a\\P\nb", "50% a\\U+005CP b", "50% a/P b"),
            ("%%d^", "%%%%%%d^ ", "%%%%%%d^ "),
            ("12.5° ±1", "12.5%%d %%p1", "12.5%%d %%p1"),
            (
                "Ünïørß 板",
                "\\U+00DCn\\U+00EF\\U+00F8r\\U+00DF \\U+677F",
                "Uniorss ?",
            ),
        ] {
            assert_eq!(
                (text_r2000(content).as_str(), text_r12(content).as_str()),
                (r2000, r12)
            );
        }
        assert_eq!(PLAIN.len(), 'ÿ' as usize - 'À' as usize + 1);
    }
}
