//! Where fittings stand.

use super::room::{BELOW, Room, across, places};
use super::{FittingKind, PlacedFitting};
use crate::design::{Fin, FinOffset, Hole, Tail, Through};
use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Point};

/// Least width of the pad between strips and the cut-out of a fin placed by rule, mm (common practice, no published source).
const CLEAR: f64 = 2.0;
/// The vent stands in the bay nearest to this share of the length (common practice, no published source).
const VENT_AT: f64 = 0.7;

/// All fittings of the design.
pub(super) fn fittings(room: &Room<'_>) -> Vec<PlacedFitting> {
    let mut all = Vec::new();
    for (i, fin) in room.design.fins.fins.iter().enumerate() {
        all.extend(fins(room, i + 1, fin));
    }
    let holes = [
        (FittingKind::Plug, "leash-plug", &room.design.plug),
        (FittingKind::Vent, "vent", &room.design.vent),
    ];
    for (kind, name, hole) in holes {
        all.extend(hole.as_ref().map(|hole| round(room, kind, name, hole)));
    }
    all
}

/// One fin on the centreline, or a pair, starboard first.
fn fins(room: &Room<'_>, number: usize, fin: &Fin) -> Vec<PlacedFitting> {
    let middle_x = fin.from_tail + fin.base / 2.0 * fin.toe.cos();
    let (y, moved) = match fin.offset {
        FinOffset::Centre(y) => (y, 0.0),
        FinOffset::Rail(from_rail) => {
            let required = room.plan.half_width(middle_x) - from_rail;
            let held = held_in(room, fin, middle_x, required);
            (held, required - held)
        }
    };
    let middle = Vector::<2>::new(middle_x, y);
    let pair = y.abs() > 0.0;
    let name = format!("fin-{number}");
    let fitting = PlacedFitting {
        name: if pair {
            format!("{name}-starboard")
        } else {
            name.clone()
        },
        kind: FittingKind::Fin,
        through: Through::Bottom,
        middle: [middle.x, middle.y],
        from_tail: fin.from_tail,
        toe: fin.toe,
        cant: fin.cant,
        base: fin.base,
        cuts: cuts(fin, middle),
        shadow: shadow(fin, middle),
        depth: fin.cut.depth,
        moved,
        pad: None,
    };
    if pair {
        let port = mirrored(&fitting, format!("{name}-port"));
        vec![fitting, port]
    } else {
        vec![fitting]
    }
}

fn mirrored(fitting: &PlacedFitting, name: String) -> PlacedFitting {
    let flip = crate::geometry::path::Placement::mirror(0.0);
    PlacedFitting {
        name,
        middle: [fitting.middle[0], -fitting.middle[1]],
        cuts: fitting.cuts.iter().map(|p| p.transform(&flip)).collect(),
        shadow: fitting.shadow.map(|p| Vector::<2>::new(p.x, -p.y)),
        ..fitting.clone()
    }
}

/// A point of a starboard fin's own plane: along the base towards the nose, and outward.
fn at(fin: &Fin, middle: Vector<2>, along: f64, out: f64) -> Vector<2> {
    let (s, c) = fin.toe.sin_cos();
    middle + Vector::<2>::new(along * c + out * s, out * c - along * s)
}

fn cuts(fin: &Fin, middle: Vector<2>) -> Vec<Path> {
    let cut = fin.cut;
    (0..cut.count)
        .map(|k| {
            let centre = cut.spacing * (k as f64 - (cut.count as f64 - 1.0) / 2.0);
            let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(a, o)| {
                let along = centre + a * cut.length / 2.0;
                at(fin, middle, along, o * cut.width / 2.0)
            });
            Path::polyline(&corners, true)
        })
        .collect()
}

/// The cut-outs' common rectangle, on the inner side as much wider as the cut-outs lean inward over their depth.
fn shadow(fin: &Fin, middle: Vector<2>) -> [Vector<2>; 4] {
    let cut = fin.cut;
    let half = (cut.spacing * (cut.count as f64 - 1.0) + cut.length) / 2.0;
    let inner = -cut.width / 2.0 - cut.depth * fin.cant.sin();
    let outer = cut.width / 2.0;
    [(-half, inner), (half, inner), (half, outer), (-half, outer)]
        .map(|(along, out)| at(fin, middle, along, out))
}

/// The half-breadth asked for, or less where the cut-outs would meet the rail's strips.
fn held_in(room: &Room<'_>, fin: &Fin, x: f64, required: f64) -> f64 {
    // As high as the pad: where strips lean inboard over the cut-out, the pad must still reach past it.
    let high = fin.cut.depth + room.design.fins.floor;
    let corners = shadow(fin, Vector::<2>::new(x, required));
    let mut over = 0.0_f64;
    for x in places(&corners) {
        let (Some(plane), Some([_, outer])) = (room.plane(x), across(&corners, x)) else {
            continue;
        };
        let low = plane.heights(outer)[0];
        if let Some(limit) = room.strips(x, low - BELOW, low + high) {
            over = over.max(outer + CLEAR - limit);
        }
    }
    (required - over).max(0.0)
}

/// A round fitting.
fn round(room: &Room<'_>, kind: FittingKind, name: &str, hole: &Hole) -> PlacedFitting {
    let c = room.construction();
    let need = hole.diameter + 2.0 * hole.margin;
    let aside = c.spine / 2.0 + need / 2.0;
    let cleft = match room.design.outline.tail {
        Tail::Swallow { depth, .. } => depth,
        _ => 0.0,
    };
    let fits_block = kind == FittingKind::Plug && c.tail_block - cleft >= need;
    let x = hole.from_tail.unwrap_or_else(|| match kind {
        FittingKind::Plug if fits_block => (cleft + c.tail_block) / 2.0,
        FittingKind::Plug => c.tail_block + need / 2.0,
        _ => bay(room),
    });
    let radius = hole.diameter / 2.0;
    let [from, to] = room.hollow();
    let in_block = x + radius <= from || x - radius >= to;
    let y = hole
        .from_centre
        .unwrap_or(if in_block { 0.0 } else { aside });
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    PlacedFitting {
        name: name.into(),
        kind,
        through: hole.through,
        middle: [x, y],
        from_tail: x,
        toe: 0.0,
        cant: 0.0,
        base: hole.diameter,
        cuts: vec![Path::circle(Point::new(x, y), radius)],
        shadow: corners.map(|(a, b)| Vector::<2>::new(x + a * radius, y + b * radius)),
        depth: hole.depth,
        moved: 0.0,
        pad: None,
    }
}

/// The middle of the bay nearest to the vent's usual place.
fn bay(room: &Room<'_>) -> f64 {
    let want = VENT_AT * room.design.length;
    let middles = room.bays().into_iter().map(|[a, b]| (a + b) / 2.0);
    middles
        .min_by(|a, b| (a - want).abs().total_cmp(&(b - want).abs()))
        .unwrap_or(want)
}
