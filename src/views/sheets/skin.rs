//! A skin's flat template.

use super::Sheet;
use super::label::{LETTER, block, nose_arrow, path, polyline, text};
use crate::board::Board;
use crate::design::PanelCentre;
use crate::design::units;
use crate::frame::FrameError;
use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Placement, Point, arcs_of_polyline};
use crate::views::drawing::{Align, Drawing, Item, Layer};
use crate::wood::skin::Panel;

/// Greatest distance, mm, between the template's lines and arcs and the points they are fitted to.
const TOLERANCE: f64 = 0.1;
/// A turn sharper than this between two chords is a corner, radians.
const CORNER: f64 = 0.5;
/// Distance between the pieces of a panel on the sheet, mm.
const APART: f64 = 40.0;

/// The flat templates of the board's panels.
///
/// # Errors
///
/// [`FrameError::Contour`] where a contour cannot be fitted with lines and arcs.
pub fn skin_sheets(board: &Board) -> Result<Vec<Sheet>, FrameError> {
    board
        .panels
        .panels
        .iter()
        .map(|p| sheet(board, p))
        .collect()
}

/// A piece of a panel: its reach along the flat panel, and how far it is moved on the sheet.
struct Piece {
    from: f64,
    to: f64,
    shift: f64,
}

/// A panel's lines, cut up by piece.
struct Plot<'a> {
    part: &'a str,
    pieces: Vec<Piece>,
    items: Vec<Item>,
}

impl Plot<'_> {
    /// The pieces' stretches of a line.
    fn stretches(&self, line: &[Vector<2>]) -> Vec<Vec<Vector<2>>> {
        let clip = |piece: &Piece| {
            let mut out: Vec<Vector<2>> = Vec::new();
            for w in line.windows(2) {
                let d = w[1] - w[0];
                let at = |x: f64| {
                    if d.x == 0.0 {
                        f64::NAN
                    } else {
                        (x - w[0].x) / d.x
                    }
                };
                let (a, b) = (at(piece.from), at(piece.to));
                // A segment square to the board lies in one piece only; `max` and `min` pass over NaN.
                if d.x == 0.0 && !(w[0].x >= piece.from && w[0].x < piece.to) {
                    continue;
                }
                let (enter, leave) = (a.min(b).max(0.0), a.max(b).min(1.0));
                if enter < leave {
                    out.extend([w[0] + d * enter, w[0] + d * leave]);
                }
            }
            out.iter_mut().for_each(|p| p.x += piece.shift);
            out.dedup_by(|a, b| (*a - *b).norm() < 1e-3);
            out
        };
        let cut = self.pieces.iter().map(clip);
        cut.filter(|line| line.len() > 1).collect()
    }

    /// A curved line, as it is.
    fn curve(&mut self, layer: Layer, line: &[Vector<2>]) -> Result<(), FrameError> {
        for stretch in self.stretches(line) {
            let path_of = half_path(self.part, &stretch)?;
            self.items.push(path(self.part, layer, path_of));
        }
        Ok(())
    }

    /// A starboard line and its mirror image.
    fn both(&mut self, layer: Layer, line: &[Vector<2>]) -> Result<(), FrameError> {
        let port: Vec<Vector<2>> = line.iter().map(|p| Vector::<2>::new(p.x, -p.y)).collect();
        self.curve(layer, line)?;
        self.curve(layer, &port)
    }

    fn straight(&mut self, layer: Layer, from: [f64; 2], to: [f64; 2]) {
        for stretch in self.stretches(&[from.into(), to.into()]) {
            self.items.push(polyline(self.part, layer, &stretch));
        }
    }
}

fn sheet(board: &Board, panel: &Panel) -> Result<Sheet, FrameError> {
    let skin = &panel.skin;
    let face = skin.face.name();
    let part = format!("{face}-skin");
    let ends: Vec<f64> = std::iter::once(f64::NEG_INFINITY)
        .chain(panel.cuts.iter().map(|c| c.x))
        .chain([f64::INFINITY])
        .collect();
    let piece = |(k, w): (usize, &[f64])| Piece {
        from: w[0],
        to: w[1],
        shift: APART * k as f64,
    };
    let mut plot = Plot {
        part: &part,
        pieces: ends.windows(2).enumerate().map(piece).collect(),
        items: Vec::new(),
    };
    if panel.cuts.is_empty() {
        let half = half_path(&part, &skin.contour())?;
        plot.items
            .push(path(&part, Layer::OutsideCut, whole(&half)));
    } else {
        for (ring, piece) in panel.pieces().iter().zip(&plot.pieces) {
            let moved: Vec<Vector<2>> = ring
                .iter()
                .map(|p| Vector::<2>::new(p.x + piece.shift, p.y))
                .collect();
            plot.items
                .push(path(&part, Layer::OutsideCut, closed(&part, moved)?));
        }
    }
    plot.both(Layer::Mark, &skin.trim_line())?;
    plot.both(Layer::Mark, &skin.cleft_line())?;
    plot.both(Layer::Reference, &skin.land_line())?;
    let [tail, nose] = skin.centre_line();
    plot.straight(Layer::Mark, [tail, 0.0], [nose, 0.0]);
    for rib in &board.ribs {
        let line = skin.station_line(rib.x);
        plot.curve(Layer::Mark, &line)?;
        if let Some(end) = plot.stretches(&line).first().and_then(|l| l.last()) {
            let at = Point::new(end.x + 3.0, end.y - 6.0 * LETTER);
            let label = format!("rib {}", rib.number);
            plot.items
                .push(text(&part, at, LETTER, Align::Start, label));
        }
    }
    planks(&mut plot, panel);
    let place = Point::new(tail + (nose - tail) * 0.62, 30.0);
    let shift = plot
        .pieces
        .iter()
        .find(|p| place.x < p.to)
        .map_or(0.0, |p| p.shift);
    let place = Point::new(place.x + shift, place.y);
    let mut items = plot.items;
    items.push(text(
        &part,
        place,
        LETTER,
        Align::End,
        format!("{} SKIN", face.to_uppercase()),
    ));
    let from = Point::new(place.x + 8.0, place.y + LETTER / 2.0);
    items.extend(nose_arrow(&part, from));
    let low = skin.contour().iter().map(|p| p.y).fold(0.0, f64::max);
    let top = Point::new(tail, -low - 10.0);
    items.extend(block(&part, top, &words(board, panel)));
    Ok(Sheet {
        name: part.clone(),
        what: format!("{face} skin laid flat, with overhang, ribs and plank seams"),
        drawing: Drawing {
            title: format!("{}: {face} skin", board.design.name),
            items,
        },
    })
}

/// Seams between planks, and the scarfs of those made longer.
fn planks(plot: &mut Plot<'_>, panel: &Panel) {
    for w in panel.planks.windows(2) {
        let y = w[0].edges[1];
        // The seam on the centreline is marked already.
        if y.abs() > 1e-9 {
            let outer = if y > 0.0 { &w[1] } else { &w[0] };
            let [from, to] = outer.reach;
            plot.straight(Layer::Reference, [from, y], [to, y]);
        }
    }
    for plank in &panel.planks {
        for &x in &plank.scarfs {
            let half = panel.skin.flat_half_width(x);
            let [from, to] = plank.edges.map(|y| y.clamp(-half, half));
            if to - from > 1e-3 {
                plot.straight(Layer::Reference, [x, from], [x, to]);
            }
        }
    }
}

/// A closed ring of points as lines and arcs, from its first corner.
fn closed(part: &str, mut ring: Vec<Vector<2>>) -> Result<Path, FrameError> {
    if let Some(first) = ring.first().copied() {
        ring.push(first);
    }
    Ok(Path {
        closed: true,
        ..half_path(part, &ring)?
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
        closed: false,
        ..fitted
    }
    .without_empty_segments())
}

/// A half contour and its mirror image, closed, counter-clockwise.
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
    .reversed()
}

fn words(board: &Board, panel: &Panel) -> Vec<String> {
    let report = |mm: f64| units::size(mm, board.design.report);
    let (skin, how) = (&panel.skin, &board.design.skins);
    let mut words = vec![
        board.design.name.clone(),
        format!(
            "{} skin laid flat, {} thick, of {}, cut 1. Both halves are alike; nose to the right.",
            capital(skin.face.name()),
            units::fine_size(skin.thickness, board.design.report),
            board.design.timber.skins.name
        ),
        format!(
            "{} long on the centreline, {} of overhang outside the line it is trimmed to. Grain along.",
            report(panel.length()),
            units::fine_size(skin.options.overhang, board.design.report)
        ),
        format!(
            "{} planks of {} at most; {}, seams grey. Inner grey line: the land line, from which the skin goes straight on to the rail.",
            panel.planks.len(),
            report(how.plank_width),
            match how.centre {
                PanelCentre::Seam => "book-match on the centreline",
                PanelCentre::Plank => "one astride the centreline",
            }
        ),
    ];
    let scarfs: usize = panel.planks.iter().map(|p| p.scarfs.len()).sum();
    if scarfs > 0 {
        words.push(format!(
            "{scarfs} scarfs of {} to 1, their centres grey across the planks.",
            board.design.shop.scarf_ratio
        ));
    }
    if !panel.cuts.is_empty() {
        words.push(format!(
            "{} pieces keyed together: glue them into one panel before it is bent.",
            panel.cuts.len() + 1
        ));
    }
    if let Some(g) = panel.greatest {
        let place_text = |mm: f64| units::place(mm, board.design.report);
        words.push(format!(
            "Greatest strain in the sheet: along {:+.3} % at {} from the tail, {} off; across {:+.3} % at {}, {} off (+ stretched).",
            100.0 * g.along.along,
            place_text(g.along.place[0]),
            place_text(g.along.place[1].abs()),
            100.0 * g.across.across,
            place_text(g.across.place[0]),
            place_text(g.across.place[1].abs())
        ));
    }
    words.push(panel.verdict.treatment.sentence().into());
    words
}

fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}
