//! Text as single strokes a cutter can follow: one line a stroke, no outlines.

use super::glyphs::{self, BASE, CAPITAL, SPACING};
use super::{Align, Text};
use crate::geometry::path::{Path, Placement, Point, Segment};
use std::f64::consts::SQRT_2;

/// Depth of descenders below the base line, in capital heights.
pub(super) const DESCENT: f64 = 2.0 / CAPITAL;
/// Reach of the tallest signs above the base line, in capital heights.
pub(super) const ASCENT: f64 = 7.0 / CAPITAL;

/// Radius of a dot, grid units.
const DOT: f64 = 0.35;

/// Width of a line of text in the stroke lettering, mm, for capitals `height` mm high.
pub fn text_width(content: &str, height: f64) -> f64 {
    let (sum, count) = content.chars().fold((0.0, 0u32), |(sum, count), c| {
        (sum + glyphs::glyph(c).0, count + 1)
    });
    (sum + SPACING * f64::from(count.saturating_sub(1))) * height / CAPITAL
}

/// How far before the anchor a text of this width starts (negative or zero).
pub(super) fn start_offset(align: Align, width: f64) -> f64 {
    match align {
        Align::Start => 0.0,
        Align::Middle => -width / 2.0,
        Align::End => -width,
    }
}

/// The text as open strokes (dots are small closed circles), placed, turned and aligned. Characters
/// without a glyph become an empty box.
pub fn stroke_text(text: &Text) -> Vec<Path> {
    let scale = text.height / CAPITAL;
    let mut x = start_offset(text.align, text_width(&text.content, text.height)) / scale;
    let place = Placement::turn(text.angle).then(Placement::shift(text.at.x, text.at.y));
    let mut paths = Vec::new();
    for character in text.content.chars() {
        let (width, strokes) = glyphs::glyph(character);
        for stroke in strokes.split(' ') {
            let to_page =
                |point: Point| Point::new((point.x + x) * scale, (point.y - BASE) * scale);
            if let Some(path) = stroke_path(stroke, scale, to_page) {
                paths.push(path.transform(&place));
            }
        }
        x += width + SPACING;
    }
    paths
}

/// One stroke of a glyph; `None` for an empty one.
fn stroke_path(stroke: &str, scale: f64, to_page: impl Fn(Point) -> Point) -> Option<Path> {
    let mut bulge = 0.0;
    let mut dot = false;
    let mut x = None;
    let mut path: Option<Path> = None;
    for sign in stroke.chars() {
        match sign {
            '(' => bulge = SQRT_2 - 1.0,
            ')' => bulge = 1.0 - SQRT_2,
            '<' => bulge = 1.0,
            '>' => bulge = -1.0,
            '.' => dot = true,
            _ => {
                let digit = f64::from(sign.to_digit(10)?);
                let Some(across) = x.take() else {
                    x = Some(digit);
                    continue;
                };
                if dot {
                    let centre = to_page(Point::new(across, digit + DOT));
                    return Some(Path::circle(centre, DOT * scale));
                }
                let to = to_page(Point::new(across, digit));
                match &mut path {
                    None => {
                        path = Some(Path {
                            start: to,
                            segments: Vec::new(),
                            closed: false,
                        });
                    }
                    Some(path) if bulge == 0.0 => path.segments.push(Segment::Line { to }),
                    Some(path) => path.segments.push(Segment::Arc { to, bulge }),
                }
                bulge = 0.0;
            }
        }
    }
    path.map(|path| path.without_empty_segments())
}

#[cfg(test)]
mod tests {
    use super::super::{Drawing, Item, Layer, Shape};
    use super::*;
    use crate::geometry::path::Bounds;

    fn text(content: &str, align: Align) -> Text {
        Text {
            at: Point::new(100.0, 50.0),
            height: 6.0,
            angle: 0.0,
            align,
            content: content.into(),
        }
    }

    #[test]
    fn every_glyph_is_sound_and_stays_in_its_box() {
        for code in 33u8..127 {
            let character = char::from(code);
            let text = text(&character.to_string(), Align::Start);
            let paths = stroke_text(&text);
            assert!(!paths.is_empty(), "{character} draws nothing");
            let width = text_width(&text.content, 6.0);
            let drawing = Drawing {
                title: String::new(),
                items: paths
                    .into_iter()
                    .map(|path| Item {
                        part: character.to_string(),
                        layer: Layer::Mark,
                        shape: Shape::Path(path),
                    })
                    .collect(),
            };
            assert_eq!(drawing.check(), vec![], "{character}");
            let Some(Bounds { min, max }) = drawing.bounds() else {
                unreachable!()
            };
            assert!(
                min.x >= 100.0 - DOT - 1e-9,
                "{character} starts at {}",
                min.x
            );
            assert!(
                max.x <= 100.0 + width + DOT + 1e-9,
                "{character} ends at {}",
                max.x
            );
            assert!(min.y >= 48.0 - 1e-9 && max.y <= 57.0 + 1e-9, "{character}");
        }
    }

    #[test]
    fn glyphs_differ_from_each_other() {
        let shape = |code: u8| stroke_text(&text(&char::from(code).to_string(), Align::Start));
        for a in 33u8..127 {
            for b in a + 1..127 {
                assert_ne!(shape(a), shape(b), "{} {}", char::from(a), char::from(b));
            }
        }
    }

    #[test]
    fn alignment_and_turning_place_the_words() {
        let width = text_width("HEH", 6.0);
        let left = |align| {
            let strokes = stroke_text(&text("HEH", align));
            strokes
                .iter()
                .map(|p| p.bounds().min.x)
                .fold(f64::MAX, f64::min)
        };
        assert!((left(Align::Start) - 100.0).abs() < 1e-9);
        assert!((left(Align::Middle) - (100.0 - width / 2.0)).abs() < 1e-9);
        assert!((left(Align::End) - (100.0 - width)).abs() < 1e-9);
        let mut upright = text("H", Align::Start);
        upright.angle = std::f64::consts::FRAC_PI_2;
        let top = stroke_text(&upright)
            .iter()
            .map(|p| p.bounds().min.x)
            .fold(f64::MAX, f64::min);
        assert!((top - 94.0).abs() < 1e-9);
    }

    #[test]
    fn an_unknown_character_is_a_box() {
        assert_eq!(stroke_text(&text("木", Align::Start)).len(), 1);
        assert_eq!(text_width("木", 6.0), 4.0);
    }
}
