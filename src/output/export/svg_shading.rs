//! Coloured maps as SVG, for the eye: fitted to a page, not at full size.

use std::fmt::Write;

use super::{ExportError, number, words};
use crate::geometry::path::Point;
use crate::views::drawing::Shading;

/// Width of the page, mm.
const PAGE: f64 = 270.0;
/// Decimals of a coordinate of the map, mm.
const COARSE: u32 = 1;

/// The map as an SVG document.
///
/// # Errors
///
/// [`ExportError::EmptyDrawing`] if it has no areas, [`ExportError::PictureNotFinite`] if a coordinate is none.
pub fn write(map: &Shading) -> Result<String, ExportError> {
    let areas = map.areas.iter().flat_map(|a| &a.1);
    let mut all = areas.chain(map.lines.iter().flatten()).chain(&map.mark);
    if all.any(|p| !p.x.is_finite() || !p.y.is_finite()) {
        return Err(ExportError::PictureNotFinite {
            title: map.title.clone(),
            what: "a coordinate".into(),
        });
    }
    let points = || map.areas.iter().flat_map(|a| &a.1);
    let bound = |of: fn(&Point) -> f64, greatest: bool| {
        let (start, pick): (f64, fn(f64, f64) -> f64) = if greatest {
            (f64::NEG_INFINITY, f64::max)
        } else {
            (f64::INFINITY, f64::min)
        };
        points().map(of).fold(start, pick)
    };
    let (left, right) = (bound(|p| p.x, false), bound(|p| p.x, true));
    let (low, high) = (bound(|p| p.y, false), bound(|p| p.y, true));
    if !(right > left && high > low) {
        return Err(ExportError::EmptyDrawing {
            title: map.title.clone(),
        });
    }
    // Everything is laid out in the map's millimetres; letters are so many of them high.
    let letter = (right - left) / 90.0;
    let margin = 2.0 * letter;
    let below = 5.0 + 1.9 * map.words.len() as f64;
    let (width, height) = (
        right - left + 2.0 * margin,
        high - low + 2.0 * margin + below * letter,
    );
    let mut out = String::new();
    let mm = |v: f64| number::text(v, COARSE);
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" viewBox=\"{} {} {} {}\">\n\
         <title>{}</title>\n",
        mm(PAGE),
        mm(PAGE * height / width),
        mm(left - margin),
        mm(-high - margin),
        mm(width),
        mm(height),
        words::xml(&map.title)
    );
    out.push_str("<g shape-rendering=\"crispEdges\">\n");
    for (index, band) in map.bands.iter().enumerate() {
        let mut d = String::new();
        for (_, polygon) in map.areas.iter().filter(|a| a.0 == index) {
            trace(&mut d, polygon);
            d.push('z');
        }
        if !d.is_empty() {
            let _ = writeln!(
                out,
                "<path style=\"fill:{}\" d=\"{d}\"/>",
                colour(band.colour)
            );
        }
    }
    let thin = letter / 12.0;
    let _ = writeln!(
        out,
        "</g>\n<g fill=\"none\" stroke=\"#333\" stroke-width=\"{}\">",
        number::text(thin, 2)
    );
    for line in &map.lines {
        let mut d = String::new();
        trace(&mut d, line);
        let _ = writeln!(out, "<path d=\"{d}\"/>");
    }
    if let Some(p) = map.mark {
        let _ = writeln!(
            out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" stroke-width=\"{}\"/>",
            mm(p.x),
            mm(-p.y),
            mm(letter),
            number::text(3.0 * thin, 2)
        );
    }
    out.push_str("</g>\n");
    legend(
        &mut out,
        map,
        [left, -low + 2.0 * letter],
        right - left,
        letter,
    );
    let _ = writeln!(
        out,
        "<g font-family=\"sans-serif\" fill=\"#222\" font-size=\"{}\">",
        mm(1.2 * letter)
    );
    for (i, line) in map.words.iter().enumerate() {
        let y = -low + (6.6 + 1.9 * i as f64) * letter;
        let _ = writeln!(
            out,
            "<text x=\"{}\" y=\"{}\">{}</text>",
            mm(left),
            mm(y),
            words::xml(line)
        );
    }
    out.push_str("</g>\n</svg>\n");
    Ok(out)
}

/// The scale: a box a band with its words under it.
fn legend(out: &mut String, map: &Shading, [left, top]: [f64; 2], room: f64, letter: f64) {
    let mm = |v: f64| number::text(v, COARSE);
    let wide = (room / map.bands.len().max(1) as f64).min(9.5 * letter);
    let _ = writeln!(
        out,
        "<g font-family=\"sans-serif\" font-size=\"{}\" text-anchor=\"middle\" fill=\"#222\">",
        mm(0.95 * letter)
    );
    for (i, band) in map.bands.iter().enumerate() {
        let x = left + wide * i as f64;
        let _ = writeln!(
            out,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" stroke=\"#333\" stroke-width=\"{}\"/>\
             <text x=\"{}\" y=\"{}\">{}</text>",
            mm(x),
            mm(top),
            mm(wide),
            mm(1.3 * letter),
            colour(band.colour),
            number::text(letter / 20.0, 2),
            mm(x + wide / 2.0),
            mm(top + 2.4 * letter),
            words::xml(&band.label)
        );
    }
    out.push_str("</g>\n");
}

fn trace(d: &mut String, points: &[Point]) {
    for (i, p) in points.iter().enumerate() {
        d.push(if i == 0 { 'M' } else { 'L' });
        number::push(d, p.x, COARSE);
        d.push(' ');
        number::push(d, -p.y, COARSE);
    }
}

fn colour([r, g, b]: [u8; 3]) -> String {
    format!("#{r:02x}{g:02x}{b:02x}")
}
