//! A skin's flat template.

use super::Sheet;
use super::label::{LETTER, arrow, block, path, polyline, text};
use crate::board::Board;
use crate::curve::{Vector, arcs_of_polyline};
use crate::drawing::{Align, Drawing, Item, Layer, Path, Placement, Point};
use crate::frame::{FrameError, segments};
use crate::skin::{Skin, SkinLimits, Treatment, verdict};
use crate::units;

/// Greatest distance, mm, between the template's lines and arcs and the points they are fitted to.
const TOLERANCE: f64 = 0.1;
/// A turn sharper than this between two chords is a corner, radians.
const CORNER: f64 = 0.5;

/// The flat templates of `skins`, with plank seams for planks `plank` mm wide.
///
/// # Errors
///
/// [`FrameError::Contour`] where a contour cannot be fitted with lines and arcs.
pub fn skin_sheets(board: &Board, skins: &[Skin], plank: f64) -> Result<Vec<Sheet>, FrameError> {
    skins.iter().map(|s| sheet(board, s, plank)).collect()
}

fn sheet(board: &Board, skin: &Skin, plank: f64) -> Result<Sheet, FrameError> {
    let face = skin.face.name();
    let part = format!("{face}-skin");
    let half = half_path(&part, &skin.contour())?;
    let mut items = vec![path(&part, Layer::OutsideCut, whole(&half))];
    let both =
        |layer: Layer, line: &[Vector<2>], items: &mut Vec<Item>| -> Result<(), FrameError> {
            if line.len() > 1 {
                let starboard = half_path(&part, line)?;
                let port = starboard.transform(&Placement::mirror(0.0));
                items.extend([path(&part, layer, starboard), path(&part, layer, port)]);
            }
            Ok(())
        };
    both(Layer::Mark, &skin.trim_line(), &mut items)?;
    both(Layer::Mark, &skin.cleft_line(), &mut items)?;
    both(Layer::Reference, &skin.land_line(), &mut items)?;
    let [tail, nose] = skin.centre_line();
    items.push(polyline(
        &part,
        Layer::Mark,
        &[Point::new(tail, 0.0), Point::new(nose, 0.0)],
    ));
    for rib in &board.ribs {
        let line = skin.station_line(rib.x);
        if line.len() > 1 {
            items.push(path(&part, Layer::Mark, half_path(&part, &line)?));
            if let Some(end) = line.last() {
                let at = Point::new(end.x + 3.0, end.y - 6.0 * LETTER);
                items.push(text(
                    &part,
                    at,
                    LETTER,
                    Align::Start,
                    format!("rib {}", rib.number),
                ));
            }
        }
    }
    let planks = skin.planks(plank);
    for w in planks.windows(2).filter(|w| w[0].edges[1].abs() > 1e-9) {
        let y = w[0].edges[1];
        let outer = if y > 0.0 { w[1] } else { w[0] };
        let seam = [Point::new(outer.reach[0], y), Point::new(outer.reach[1], y)];
        items.push(polyline(&part, Layer::Reference, &seam));
    }
    let place = Point::new(tail + (nose - tail) * 0.62, 30.0);
    items.push(text(
        &part,
        place,
        LETTER,
        Align::End,
        format!("{} SKIN", face.to_uppercase()),
    ));
    let from = Point::new(place.x + 8.0, place.y + LETTER / 2.0);
    items.extend(arrow(&part, from, Point::new(from.x + 40.0, from.y)));
    let to = Point::new(from.x + 44.0, place.y);
    items.push(text(&part, to, LETTER, Align::Start, "NOSE".into()));
    let low = skin.contour().iter().map(|p| p.y).fold(0.0, f64::max);
    items.extend(block(
        &part,
        Point::new(tail, -low - 10.0),
        &words(board, skin, plank),
    ));
    Ok(Sheet {
        name: part.clone(),
        what: format!("{face} skin laid flat, with overhang, ribs and plank seams"),
        drawing: Drawing {
            title: format!("{}: {face} skin", board.design.name),
            items,
        },
    })
}

/// Lines and arcs along a dense polyline.
fn half_path(part: &str, points: &[Vector<2>]) -> Result<Path, FrameError> {
    let mut points = points.to_vec();
    points.dedup_by(|a, b| (*a - *b).norm() < 1e-3);
    let failed = |source| FrameError::Contour {
        part: part.into(),
        source,
    };
    let fitted = arcs_of_polyline(&points, CORNER, TOLERANCE).map_err(failed)?;
    Ok(Path {
        start: Point::new(fitted.start.x, fitted.start.y),
        segments: segments(&fitted),
        closed: false,
    }
    .without_empty_segments())
}

/// A half contour and its mirror image, closed.
fn whole(half: &Path) -> Path {
    let port = half.transform(&Placement::mirror(0.0)).reversed();
    let mut segments = half.segments.clone();
    segments.extend(port.segments);
    Path {
        start: half.start,
        segments,
        closed: true,
    }
    .without_empty_segments()
}

fn words(board: &Board, skin: &Skin, plank: f64) -> Vec<String> {
    let report = |mm: f64| units::size(mm, board.design.report);
    let planks = skin.planks(plank);
    let [tail, nose] = skin.centre_line();
    let mut words = vec![
        board.design.name.clone(),
        format!(
            "{} skin laid flat, {} thick, cut 1. Both halves are alike; nose to the right.",
            capital(skin.face.name()),
            units::mm(skin.thickness, 1)
        ),
        format!(
            "{} long on the centreline, {} of overhang outside the line it is trimmed to. Grain along.",
            report(nose - tail),
            units::mm(skin.options.overhang, 1)
        ),
        format!(
            "{} planks of {} at most; book-match on the centreline, seams grey. Inner grey line: the land.",
            planks.len(),
            report(plank)
        ),
    ];
    if let Some(g) = skin.greatest() {
        words.push(format!(
            "Strain in the sheet: along {:+.2} % at x {:.0}, y {:.0}; across {:+.2} % at x {:.0}, y {:.0} (+ stretched).",
            100.0 * g.along.along,
            g.along.place[0],
            g.along.place[1],
            100.0 * g.across.across,
            g.across.place[0],
            g.across.place[1]
        ));
    }
    let verdict = verdict(skin, &SkinLimits::default());
    words.push(
        match verdict.treatment {
            Treatment::Dry => "It should go on dry.",
            Treatment::Soak => {
                "Soak or steam it where it bends or strains most, and let it dry in the bed."
            }
            Treatment::Relieve => {
                "Relieve its inner face where it bends most, or laminate it of thinner leaves."
            }
            Treatment::Split => {
                "Split it into strakes with tapered edges: the sheet cannot take this shape in one."
            }
        }
        .into(),
    );
    words
}

fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}
