//! A rib's template with its rail stack.

use super::Sheet;
use super::label::{LETTER, arrow, block, engraved, path, polyline};
use super::strips::{self, port};
use crate::board::Board;
use crate::design::units;
use crate::frame::{Rib, slot_bite};
use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Point};
use crate::shape::SkinFace;
use crate::views::drawing::{Align, Drawing, Item, Layer, text_width};

/// Distance of words on the part from its slot, mm.
const BESIDE: f64 = 2.0;
/// Distance of base lines over the height of letters.
const PITCH: f64 = 1.6;

pub(super) fn sheet(board: &Board, rib: &Rib) -> Sheet {
    let part = format!("rib-{:02}", rib.number);
    let holes = rib.holes.iter().cloned();
    let mut items: Vec<Item> = holes
        .map(|hole| path(&part, Layer::InsideCut, hole))
        .collect();
    items.push(path(&part, Layer::OutsideCut, rib.outline.clone()));
    items.extend(marks(&part, rib, slot_bite(&board.design.construction)));
    items.extend(reference(board, &part, rib));
    let bounds = Drawing {
        title: String::new(),
        items: items.clone(),
    }
    .bounds();
    if let Some(bounds) = bounds {
        let top = Point::new(bounds.min.x, bounds.min.y - 10.0);
        items.extend(block(&part, top, &words(board, rib)));
    }
    Sheet {
        name: part,
        what: format!(
            "rib {} with its rail stack, {} from the tail",
            rib.number,
            units::place(rib.x, board.design.report)
        ),
        drawing: Drawing {
            title: format!("{}: rib {}", board.design.name, rib.number),
            items,
        },
    }
}

/// What is scribed on the part itself: centre marks at deck and slot, the name with the face's side to starboard of the slot, an arrow
/// upward to port. The wood beside the slot is free of holes.
fn marks(part: &str, rib: &Rib, bite: f64) -> Vec<Item> {
    let [bottom, deck] = rib.heights;
    let over = deck - rib.slot_top;
    let upright = |from: f64, to: f64| {
        let line = [Point::new(0.0, from), Point::new(0.0, to)];
        polyline(part, Layer::Mark, &line)
    };
    let mut items = vec![
        upright(deck - (over / 3.0).min(8.0), deck),
        upright(rib.slot_top, rib.slot_top + (over / 3.0).min(3.0)),
    ];
    let words = [format!("RIB {}", rib.number), "TAIL".into(), "SIDE".into()];
    let beside = BESIDE + bite;
    let room = rib.lap_room() - beside - BESIDE;
    let wide = words.iter().map(|w| text_width(w, 1.0)).fold(0.0, f64::max);
    let lines = words.len() as f64;
    let letter = LETTER
        .min(room / wide)
        .min((deck - bottom - 4.0) / (lines + (lines - 1.0) * (PITCH - 1.0)));
    let block = letter * (1.0 + (lines - 1.0) * PITCH);
    let top = (bottom + deck + block) / 2.0;
    let x = rib.slot_width / 2.0 + beside;
    for (i, word) in words.iter().enumerate() {
        let at = Point::new(x, top - letter * (1.0 + PITCH * i as f64));
        items.push(engraved(part, at, letter, Align::Start, word));
    }
    let x = -(rib.slot_width / 2.0 + beside + (letter * 2.0).min(room / 2.0));
    let foot = top - block;
    items.extend(arrow(
        part,
        Point::new(x, foot + PITCH * letter),
        Point::new(x, top),
    ));
    items.push(engraved(
        part,
        Point::new(x, foot),
        letter,
        Align::Middle,
        "UP",
    ));
    items
}

/// Strips, skins' inner faces and the finished section, for reference.
fn reference(board: &Board, part: &str, rib: &Rib) -> Vec<Item> {
    let mut paths: Vec<Path> = rib.slices.iter().map(strips::path).collect();
    paths.extend(rib.stack.faces.iter().map(|face| extension(face, rib)));
    let section = board.family.section_at(rib.x);
    let p = section.points();
    let segments = p[1..]
        .chunks(3)
        .map(|c| crate::geometry::path::Segment::Cubic {
            c1: c[0],
            c2: c[1],
            to: c[2],
        });
    paths.push(
        Path {
            start: p[0],
            segments: segments.collect(),
            closed: false,
        }
        .without_empty_segments(),
    );
    let both = paths.iter().flat_map(|p| [p.clone(), port(p)]);
    both.map(|p| path(part, Layer::Reference, p)).collect()
}

/// The skin's inner face from its land line to over the rail.
fn extension(face: &SkinFace, rib: &Rib) -> Path {
    let reach = rib
        .stack
        .courses
        .iter()
        .map(|c| c.body().foot.x.max(c.body().head.x))
        .fold(face.land.x, f64::max)
        + 6.0;
    let end = Vector::<2>::new(reach, face.height(reach));
    Path::polyline(&[face.land, end], false).without_empty_segments()
}

fn words(board: &Board, rib: &Rib) -> Vec<String> {
    let unit = board.design.report;
    // Rounded first, so that no "-0.0" is printed.
    let degrees = |a: f64| format!("{:.1}°", (a.to_degrees() * 10.0).round() / 10.0 + 0.0);
    let b = &rib.bevels;
    let facets: Vec<String> = rib
        .facets
        .iter()
        .map(|f| format!("course {}: {}", f.course, degrees(f.bevel)))
        .collect();
    vec![
        board.design.name.clone(),
        format!(
            "Rib {} of {}: centre plane {} from the tail",
            rib.number,
            board.ribs.len(),
            units::size(rib.x, unit)
        ),
        format!(
            "{} thick, cut 1. This face towards the tail, starboard to the right, deck up.",
            units::fine_size(rib.thickness, board.design.report)
        ),
        format!(
            "Bevels, positive where the nose face is larger: bottom {} at the centre, {} at the rail; deck {} and {}.",
            degrees(b.bottom_centre),
            degrees(b.bottom_rail),
            degrees(b.deck_centre),
            degrees(b.deck_rail),
        ),
        format!("Bevels of the ends: {}.", facets.join(", ")),
        format!(
            "Slot from below, {} wide, for the {} spine. Cut along the outside of the contour; grey lines are for reference.",
            units::fine_size(rib.slot_width, board.design.report),
            units::fine_size(board.spine.thickness, board.design.report)
        ),
    ]
}
