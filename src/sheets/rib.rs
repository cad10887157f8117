//! A rib's template with its rail stack.

use super::Sheet;
use super::label::{LETTER, arrow, block, path, polyline, text};
use super::strips::{self, port};
use crate::board::Board;
use crate::curve::Vector;
use crate::drawing::{Align, Drawing, Item, Layer, Path, Point};
use crate::frame::Rib;
use crate::rail::SkinFace;
use crate::units;

pub(super) fn sheet(board: &Board, rib: &Rib) -> Sheet {
    let part = format!("rib-{:02}", rib.number);
    let mut items = vec![path(&part, Layer::OutsideCut, rib.outline.clone())];
    items.extend(marks(&part, rib));
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
            "rib {} with its rail stack, {:.0} mm from the tail",
            rib.number, rib.x
        ),
        drawing: Drawing {
            title: format!("{}: rib {}", board.design.name, rib.number),
            items,
        },
    }
}

/// Centre marks at the deck's edge, the up arrow and a short name on the part itself.
fn marks(part: &str, rib: &Rib) -> Vec<Item> {
    let [bottom, deck] = rib.heights;
    let middle = (rib.slot_top + deck) / 2.0;
    let tick = (deck - rib.slot_top).min(8.0);
    let centre = polyline(
        part,
        Layer::Mark,
        &[Point::new(0.0, deck - tick), Point::new(0.0, deck)],
    );
    let mut items = vec![centre];
    let height = (deck - bottom).min(20.0) * 0.5;
    let x = 4.0 * rib.slot_width;
    let low = (bottom + deck - height) / 2.0;
    items.extend(arrow(part, Point::new(x, low), Point::new(x, low + height)));
    let letter = LETTER.min((deck - bottom) / 6.0);
    let label = format!("{} UP", part.to_uppercase());
    items.push(text(
        part,
        Point::new(x + 6.0, middle - letter),
        letter,
        Align::Start,
        label,
    ));
    items
}

/// Strips, skins' inner faces and the finished section, for reference.
fn reference(board: &Board, part: &str, rib: &Rib) -> Vec<Item> {
    let mut paths: Vec<Path> = rib.slices.iter().map(strips::path).collect();
    paths.extend(rib.stack.faces.iter().map(|face| extension(face, rib)));
    let section = board.family.section_at(rib.x);
    let p = section.points().map(|p| Point::new(p.x, p.y));
    let segments = p[1..].chunks(3).map(|c| crate::drawing::Segment::Cubic {
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
        .map(|c| c.foot.x.max(c.head.x))
        .fold(face.land.x, f64::max)
        + 6.0;
    let end = Vector::<2>::new(reach, face.height(reach));
    let points = [face.land, end].map(|p| Point::new(p.x, p.y));
    Path::polyline(&points, false).without_empty_segments()
}

fn words(board: &Board, rib: &Rib) -> Vec<String> {
    let unit = board.design.report;
    // Rounded first, so that no "-0.0" is printed.
    let degrees = |a: f64| format!("{:.1}°", (a.to_degrees() * 10.0).round() / 10.0 + 0.0);
    let b = &rib.bevels;
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
            units::mm(rib.thickness, 1)
        ),
        format!(
            "Bevels, positive where the nose face is larger: bottom {} to {}, deck {} to {}, rail {}.",
            degrees(b.bottom_centre),
            degrees(b.bottom_rail),
            degrees(b.deck_centre),
            degrees(b.deck_rail),
            degrees(b.rail)
        ),
        format!(
            "Slot from below, {} wide, for the {} spine. Cut along the outside of the contour; grey lines are for reference.",
            units::mm(rib.slot_width, 1),
            units::mm(board.spine.thickness, 1)
        ),
    ]
}
