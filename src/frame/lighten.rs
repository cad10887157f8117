//! Holes for ribs and spine: for lightness where there is room, and for air where bays would be shut.

use super::breathing::{Airways, sealed_bays, sealed_finding};
use super::deepest::deepest;
use super::holes::Room;
use super::relief::slot_bite;
use super::{FrameError, KeepOut, Rib, Spine, relief};
use crate::design::Construction;
use crate::design::finding::Finding;
use crate::geometry::curve::Vector;
use crate::geometry::parallel;
use crate::geometry::path::{Path, Placement};

/// Least wood round an air hole, mm (common practice, no published source).
const ROUND_AIR: f64 = 5.0;
/// How far beyond the lap's web an air hole is looked for first, mm.
const NEAR: f64 = 30.0;

/// Ribs and spine with their holes, which keep clear of `keep`, and what is wrong with the ways of the air to the vent at `vent`
/// (mm from the tail and to starboard).
pub fn lighten(
    c: &Construction,
    mut ribs: Vec<Rib>,
    mut spine: Spine,
    keep: &[KeepOut],
    vent: Option<[f64; 2]>,
) -> Result<(Vec<Rib>, Spine, Option<Finding>), FrameError> {
    let holes = parallel::try_map(&ribs, |rib| rib_holes(rib, c, keep))?;
    for (rib, holes) in ribs.iter_mut().zip(holes) {
        rib.holes = holes;
    }
    spine.holes = spine_holes(&spine, c, &ribs, keep)?;
    let sealed = sealed_bays(&ribs, &spine, vent);
    let finding = sealed_finding(&sealed, c.frame.holes.breather);
    Ok((ribs, spine, finding))
}

/// The holes of both halves, from port to starboard.
fn rib_holes(rib: &Rib, c: &Construction, keep: &[KeepOut]) -> Result<Vec<Path>, FrameError> {
    let half = |side: f64| -> Result<Vec<Path>, FrameError> {
        let holes = rib_room(rib, c, keep, side, None)
            .holes(&format!("rib {}", rib.number), &c.frame.holes)?;
        Ok(if holes.is_empty() {
            rib_breather(rib, c, keep, side).into_iter().collect()
        } else {
            holes
        })
    };
    let mirror = Placement::mirror(std::f64::consts::FRAC_PI_2);
    let starboard = half(1.0)?;
    let thick = [rib.x - rib.thickness / 2.0, rib.x + rib.thickness / 2.0];
    // A rib is symmetric, and so are its holes where no pad stands over it.
    let port = if keep.iter().all(|k| k.across(thick).is_none()) {
        starboard.clone()
    } else {
        half(-1.0)?
    };
    let mut holes: Vec<Path> = port
        .iter()
        .rev()
        .map(|hole| hole.transform(&mirror).reversed())
        .collect();
    holes.extend(starboard);
    Ok(holes)
}

/// Where a half of a rib may be pierced; the port half is seen mirrored. With `air`, by an air hole, whose webs are no more than that.
fn rib_room(rib: &Rib, c: &Construction, keep: &[KeepOut], side: f64, air: Option<f64>) -> Room {
    let rule = &c.frame.holes;
    let at_most = |web: f64| air.map_or(web, |air| web.min(air));
    let lap = slot_reach(c, rib.slot_width) + at_most(rule.lap_web);
    let mut edges = vec![(rib.half.clone(), at_most(rule.web))];
    let rails = rib.rails.iter();
    // A bite for the cutter beside the starters takes from the web there.
    let relief_depth = relief::relief_depth(c.frame.relief, c.frame.cutter / 2.0);
    edges.extend(rails.map(|rail| (rail.clone(), at_most(rule.rail_web) + relief_depth)));
    let thick = [rib.x - rib.thickness / 2.0, rib.x + rib.thickness / 2.0];
    let kept = keep.iter().filter_map(|k| k.across(thick)).map(|[a, b]| {
        let (a, b) = (side * a, side * b);
        [a.min(b) - rule.web, a.max(b) + rule.web]
    });
    let kept = kept.filter(|[_, to]| *to > lap);
    Room {
        contour: rib.half.clone(),
        edges,
        columns: std::iter::once([-lap, lap]).chain(kept).collect(),
    }
}

/// How far a slot reaches from its middle, bites for the cutter included, mm.
fn slot_reach(c: &Construction, width: f64) -> f64 {
    width / 2.0 + slot_bite(c)
}

/// An air hole through a half rib: beside the lap's web if there is room, else wherever there is.
fn rib_breather(rib: &Rib, c: &Construction, keep: &[KeepOut], side: f64) -> Option<Path> {
    let rule = &c.frame.holes;
    let radius = rule.breather / 2.0;
    let far = rib.half.iter().map(|p| p.x).fold(0.0, f64::max) + 1.0;
    let lap = slot_reach(c, rib.slot_width) + rule.lap_web;
    let near = lap + 2.0 * radius + NEAR;
    let room = rib_room(rib, c, keep, side, Some(ROUND_AIR));
    let with = |columns: &[[f64; 2]]| {
        let mut room = Room {
            contour: room.contour.clone(),
            edges: room.edges.clone(),
            columns: room.columns.clone(),
        };
        room.columns.extend(columns.iter().filter(|c| c[0] < c[1]));
        air_hole(&room, radius)
    };
    with(&[[-lap, lap], [near, far]])
        .or_else(|| with(&[[-lap, lap]]))
        .or_else(|| with(&[]))
}

/// A round hole at the deepest place of a room.
fn air_hole(room: &Room, radius: f64) -> Option<Path> {
    let centres = room.centres(radius);
    let places = centres.iter().filter_map(|piece| deepest(piece));
    let (centre, _) = places.max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(Path::circle(centre, radius))
}

/// The holes of every bay of the spine, from the tail; where no way leads from port to starboard, an air hole.
fn spine_holes(
    spine: &Spine,
    c: &Construction,
    ribs: &[Rib],
    keep: &[KeepOut],
) -> Result<Vec<Path>, FrameError> {
    let mut holes = spine_room(spine, c, ribs, keep, None).holes("the spine", &c.frame.holes)?;
    let opened = |holes: &[Path]| {
        let mut with = spine.clone();
        with.holes = holes.to_vec();
        Airways::of(ribs, &with)
    };
    let mut airways = opened(&holes);
    // From the middle outwards.
    let mut bays: Vec<usize> = (0..=ribs.len()).collect();
    bays.sort_by_key(|&bay| (2 * bay).abs_diff(ribs.len()));
    for bay in bays {
        if airways.joined(2 * bay, 2 * bay + 1) {
            continue;
        }
        let mut room = spine_room(spine, c, ribs, keep, Some(ROUND_AIR));
        let [start, end] = spine.ends;
        let from = bay.checked_sub(1).and_then(|i| ribs.get(i));
        let to = ribs.get(bay);
        room.crop([from.map_or(start, |rib| rib.x), to.map_or(end, |rib| rib.x)]);
        room.columns.extend(from.map(|rib| [start - 1.0, rib.x]));
        room.columns.extend(to.map(|rib| [rib.x, end + 1.0]));
        holes.extend(air_hole(&room, c.frame.holes.breather / 2.0));
        airways = opened(&holes);
    }
    holes.sort_by(|a, b| a.bounds().min.x.total_cmp(&b.bounds().min.x));
    Ok(holes)
}

/// Where the spine may be pierced; `air` as in [`rib_room`].
fn spine_room(
    spine: &Spine,
    c: &Construction,
    ribs: &[Rib],
    keep: &[KeepOut],
    air: Option<f64>,
) -> Room {
    let rule = &c.frame.holes;
    let at_most = |web: f64| air.map_or(web, |air| web.min(air));
    let [bottom, deck] = &spine.edges;
    let mut contour = bottom.clone();
    contour.extend(deck.iter().rev());
    let end = |pick: fn(&[Vector<2>]) -> Option<&Vector<2>>| -> Vec<Vector<2>> {
        [bottom, deck]
            .into_iter()
            .filter_map(|e| pick(e).copied())
            .collect()
    };
    let laps = ribs.iter().map(|rib| {
        let half = slot_reach(c, spine.slot_width) + at_most(rule.lap_web);
        [rib.x - half, rib.x + half]
    });
    let kept = keep.iter().filter_map(|k| {
        let [a, b] = k.along([-spine.thickness / 2.0, spine.thickness / 2.0])?;
        Some([a - rule.web, b + rule.web])
    });
    let joints = spine.joints.iter().map(|joint| {
        let [a, b] = joint.range();
        [a - rule.web, b + rule.web]
    });
    Room {
        contour,
        edges: vec![
            (bottom.clone(), at_most(rule.web)),
            (deck.clone(), at_most(rule.web)),
            (end(<[_]>::first), at_most(rule.rail_web)),
            (end(<[_]>::last), at_most(rule.rail_web)),
        ],
        columns: laps.chain(kept).chain(joints).collect(),
    }
}
