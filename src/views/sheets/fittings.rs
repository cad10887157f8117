//! Where fins, leash plug and vent stand, in plan.

use super::Sheet;
use super::label::{block, nose_arrow, path, polyline, text};
use crate::board::Board;
use crate::design::units;
use crate::frame::pads::{FittingKind, PlacedFitting};
use crate::geometry::path::{Path, Point};
use crate::views::drawing::{Align, Drawing, Item, Layer};

/// Points of the outline on either side, crowded towards the tips.
const STEPS: usize = 400;

/// The plan with every cut-out to mark, pads and frame in grey; `None` without fittings.
pub(super) fn sheet(board: &Board) -> Option<Sheet> {
    let part = "fittings";
    if board.pads.fittings.is_empty() {
        return None;
    }
    let length = board.design.length;
    let mut items = grey(board, part);
    items.push(polyline(
        part,
        // For reference: a centre fin's own line, which is marked, lies on it.
        Layer::Reference,
        &[Point::new(0.0, 0.0), Point::new(length, 0.0)],
    ));
    for f in &board.pads.fittings {
        items.extend(marks(part, f));
    }
    let middle = Point::new(length * 0.45, -12.0);
    items.extend(nose_arrow(part, middle));
    let widest = board.measures.width / 2.0;
    let mut words = vec![
        board.design.name.clone(),
        "Fittings, seen from above: starboard is below the centreline. Grey: outline, frame and pads.".into(),
        "Fins are cut into the bottom: turn the sheet over its centreline to mark them from below.".into(),
    ];
    words.extend(board.pads.fittings.iter().map(|f| line(board, f)));
    items.extend(block(part, Point::new(0.0, -widest - 10.0), &words));
    Some(Sheet {
        name: part.into(),
        what: "places of fins, leash plug and vent".into(),
        drawing: Drawing {
            title: format!("{}: fittings", board.design.name),
            items,
        },
    })
}

/// Outline, blocks' faces, spine, ribs and pads.
fn grey(board: &Board, part: &str) -> Vec<Item> {
    let mut items = Vec::new();
    let plan = board.family.plan();
    let grey = |p: Path| path(part, Layer::Reference, p);
    // Seen from above with the nose to the right, starboard is below.
    let mut ring: Vec<Point> = Vec::new();
    for i in 0..=STEPS {
        let t = (1.0 - (std::f64::consts::PI * i as f64 / STEPS as f64).cos()) / 2.0;
        let p = plan.curve().point(t);
        ring.push(Point::new(p.x, -p.y));
    }
    let mut port: Vec<Point> = ring.iter().rev().map(|p| Point::new(p.x, -p.y)).collect();
    if let Some(depth) = plan.cleft_depth() {
        port.push(Point::new(depth, 0.0));
    }
    ring.extend(port);
    ring.dedup_by(|a, b| (*a - *b).norm() < 1e-3);
    while ring.len() > 3
        && ring
            .first()
            .zip(ring.last())
            .is_some_and(|(a, b)| (a - b).norm() < 1e-3)
    {
        ring.pop();
    }
    items.push(grey(Path::polyline(&ring, true)));
    let c = &board.design.construction;
    for x in [c.tail_block, board.design.length - c.nose_block] {
        let y = plan.half_width(x);
        items.push(grey(Path::polyline(
            &[Point::new(x, -y), Point::new(x, y)],
            false,
        )));
    }
    for rib in &board.ribs {
        let half = rib.outline.bounds().width() / 2.0;
        items.push(grey(Path::rectangle(
            Point::new(rib.x - rib.thickness / 2.0, -half),
            Point::new(rib.x + rib.thickness / 2.0, half),
        )));
    }
    let [from, to] = board.spine.ends;
    let half = board.spine.thickness / 2.0;
    items.push(grey(Path::rectangle(
        Point::new(from, -half),
        Point::new(to, half),
    )));
    let pads = board.pads.fittings.iter().filter_map(|f| f.pad.as_ref());
    for piece in pads.flat_map(|p| &p.pieces) {
        items.push(grey(below(&piece.outline)));
    }
    items
}

/// Starboard drawn below the centreline.
fn below(path: &Path) -> Path {
    path.transform(&crate::geometry::path::Placement::mirror(0.0))
}

fn marks(part: &str, f: &PlacedFitting) -> Vec<Item> {
    let mut items: Vec<Item> = f
        .cuts
        .iter()
        .map(|cut| path(part, Layer::Mark, below(cut)))
        .collect();
    let [x, y] = f.middle;
    if f.kind == FittingKind::Fin {
        // The base, a little longer than the cut-out, to lay a straight edge on.
        let (s, c) = f.toe.sin_cos();
        let side = if y < 0.0 { -1.0 } else { 1.0 };
        let end = |t: f64| Point::new(x + t * c, -(y - t * s * side));
        let half = f.base / 2.0 + 15.0;
        items.push(polyline(part, Layer::Mark, &[end(-half), end(half)]));
    }
    let up = f
        .shadow
        .iter()
        .map(|p| -p.y)
        .fold(f64::NEG_INFINITY, f64::max);
    items.push(text(
        part,
        Point::new(x, up + 4.0),
        3.0,
        Align::Middle,
        f.name.clone(),
    ));
    items
}

fn line(board: &Board, f: &PlacedFitting) -> String {
    let size = |mm: f64| units::size(mm, board.design.report);
    let aside = match f.middle[1] {
        y if y > 0.0 => format!("{} to starboard", size(y)),
        y if y < 0.0 => format!("{} to port", size(-y)),
        _ => "on the centreline".into(),
    };
    let depth = units::fine_size(f.depth, board.design.report);
    match f.kind {
        FittingKind::Fin => format!(
            "{}: trailing end {} from the tail, base {}, its centre {aside}; toe {:.1}°, cant {:.1}°, {depth} deep",
            f.name,
            size(f.from_tail),
            size(f.base),
            f.toe.to_degrees(),
            f.cant.to_degrees()
        ),
        FittingKind::Plug | FittingKind::Vent => format!(
            "{}: centre {} from the tail, {aside}; {} across, {depth} deep, from the {}, in {}",
            f.name,
            size(f.from_tail),
            units::fine_size(f.base, board.design.report),
            match f.through {
                crate::design::Through::Deck => "deck",
                crate::design::Through::Bottom => "bottom",
            },
            if f.pad.is_some() {
                "its pad"
            } else {
                "a block"
            }
        ),
    }
}
