//! Ribs.

use super::bevels::{Bevels, Facet, bevels, facets};
use super::chain::{LINE_TOLERANCE, arcs};
use super::lands::{chain_lengths, net_area};
use super::stairs::without_stairs;
use super::{FrameError, Lands, relief};
use crate::design::finding::{BoardEnd, Change, Code, Fact, Finding, Part, Place, RibFault, Spot};
use crate::design::{Construction, Design};
use crate::geometry::curve::Vector;
use crate::geometry::curve::polyline::height_on;
use crate::geometry::parallel;
use crate::geometry::path::{Path, Placement, close};
use crate::geometry::polygon;
use crate::rail::{CourseSlice, Rail, Stack, slices};
use crate::shape::SkinFace;

/// One rib, seen from the tail: y to starboard, z up, both in the board's coordinates.
#[derive(Debug, Clone, PartialEq)]
pub struct Rib {
    /// Number from the tail, starting with 1.
    pub number: usize,
    /// Centre plane, mm from the tail.
    pub x: f64,
    /// Thickness, mm.
    pub thickness: f64,
    /// The contour that clears bottom, deck and rail wherever they are known from face to face, with the slot for the spine from below.
    pub outline: Path,
    /// Lightening and air holes, from port to starboard, none of which crosses the centreline.
    pub holes: Vec<Path>,
    /// Half of the contour without the slot, from the bottom's centre round the rail to the deck's, as dense points.
    pub(super) half: Vec<Vector<2>>,
    /// The strips' inner faces at the rib's two faces, as dense points.
    pub(super) rails: Vec<Vec<Vector<2>>>,
    /// Glued areas.
    pub lands: Lands,
    /// Heights of bottom and deck edge on the centreline, mm.
    pub heights: [f64; 2],
    /// Height of the slot's end, mm.
    pub slot_top: f64,
    /// Width of the slot, mm.
    pub slot_width: f64,
    /// How far the edges lean.
    pub bevels: Bevels,
    /// The faces of its ends, from the bottom up, one for each strip they bear on.
    pub facets: Vec<Facet>,
    /// The rail's stack in the centre plane.
    pub stack: Stack,
    /// The strips cut by the centre plane.
    pub slices: Vec<CourseSlice>,
}

/// The planes, mm from the tail, in which the rail must be solved for the ribs: both faces and the centre of each.
pub(crate) fn planes(construction: &Construction) -> Vec<f64> {
    let half = construction.rib / 2.0;
    construction
        .rib_stations
        .iter()
        .flat_map(|x| [x - half, *x, x + half])
        .collect()
}

/// A slot may be narrower than the cutter by the rounding of a length, mm, and no more.
const FIT: f64 = 1e-6;

/// Every rib of the frame, still without holes, and which of them had to be left out. The rail must have been solved at both faces
/// and the centre of each.
pub fn ribs(design: &Design, rail: &Rail) -> Result<(Vec<Rib>, Vec<Finding>), FrameError> {
    let construction = &design.construction;
    let (mut ribs, mut findings) = (Vec::new(), Vec::new());
    let mut first_fault = None;
    let stations: Vec<_> = construction.rib_stations.iter().zip(1..).collect();
    let results = parallel::map(&stations, |&(&x, number)| {
        rib(number, x, construction, rail)
    });
    for result in results {
        match result {
            Ok(rib) => ribs.push(rib),
            Err(error @ FrameError::Rib { number, x, fault }) => {
                first_fault.get_or_insert(error);
                let end = if x < design.length / 2.0 {
                    BoardEnd::Tail
                } else {
                    BoardEnd::Nose
                };
                let place = Place {
                    rib: Some(number),
                    ..Place::at(x)
                };
                let changes = [
                    Change::MoveRib,
                    Change::LongerBlock(end),
                    Change::ThickerBoard,
                ];
                findings.push(
                    Finding::new(Code::RibLeftOut, Part::Rib(number))
                        .at(place)
                        .fact(Fact::Rib(fault))
                        .remedies(changes),
                );
            }
            Err(error) => return Err(error),
        }
    }
    // A frame without a single rib is none.
    if let (true, Some(error)) = (ribs.is_empty(), first_fault) {
        return Err(error);
    }
    findings.extend(narrow(construction, &ribs));
    findings.extend(unrelieved(construction, &ribs));
    Ok((ribs, findings))
}

/// Slots that the cutter does not go into.
fn narrow(c: &Construction, ribs: &[Rib]) -> Option<Finding> {
    let cutter = c.frame.cutter;
    // The ribs' slots for the spine, and the spine's for the ribs.
    let kinds = [
        (false, c.spine + c.slot_clearance, "spine"),
        (true, c.rib + c.slot_clearance, "rib"),
    ];
    let too_narrow: Vec<_> = kinds.into_iter().filter(|k| k.1 + FIT < cutter).collect();
    let narrowest = too_narrow.iter().map(|k| k.1).reduce(f64::min)?;
    let keys = too_narrow.iter().map(|k| k.2).collect();
    let mut finding = Finding::new(Code::SlotNarrow, Part::Slots)
        .measured(narrowest, cutter)
        .remedies([
            Change::SmallerCutter(Some(narrowest)),
            Change::SawSlots,
            Change::ThickerStock(keys),
        ]);
    for (in_spine, width, _) in too_narrow {
        finding = finding.fact(Fact::Slots { in_spine, width });
    }
    finding.places = ribs.iter().map(spot).collect();
    Some(finding)
}

fn spot(rib: &Rib) -> Spot {
    Spot {
        place: Place {
            rib: Some(rib.number),
            ..Place::at(rib.x)
        },
        value: None,
    }
}

/// Slots that the cutter goes into but finds no room to relieve.
fn unrelieved(c: &Construction, ribs: &[Rib]) -> Option<Finding> {
    let cutter = c.frame.cutter;
    // Slots that the cutter does not go into are a finding of their own.
    let fits = |width: f64, depth: f64| {
        width + FIT < cutter || relief::fits(c.frame.relief, cutter / 2.0, width, depth)
    };
    let square = ribs.iter().filter(|r| {
        // The rib's own slot, and the spine's for it.
        let [bottom, deck] = r.heights;
        !(fits(r.slot_width, r.slot_top - bottom)
            && fits(c.rib + c.slot_clearance, deck - r.slot_top))
    });
    let places: Vec<Spot> = square.map(spot).collect();
    (!places.is_empty()).then(|| Finding {
        limit: Some(cutter),
        places,
        ..Finding::new(Code::SlotUnrelieved, Part::Slots)
            .remedies([Change::SquareCorners, Change::SmallerCutter(None)])
    })
}

impl Rib {
    /// Area of a face, mm², holes left out.
    pub fn area(&self) -> f64 {
        net_area(&self.outline, &self.holes)
    }

    /// Width, mm, of the wood beside the slot that is free of holes on both sides.
    pub fn lap_room(&self) -> f64 {
        let nearest = |hole: &Path| {
            let bounds = hole.bounds();
            bounds.min.x.max(-bounds.max.x)
        };
        let outline = self.outline.bounds().max.x;
        self.holes.iter().map(nearest).fold(outline, f64::min) - self.slot_width / 2.0
    }
}

fn rib(number: usize, x: f64, c: &Construction, rail: &Rail) -> Result<Rib, FrameError> {
    let fail = |fault| FrameError::Rib { number, x, fault };
    let half = c.rib / 2.0;
    let stack = |x: f64| {
        rail.at(x)
            .map(|s| s.0)
            .filter(|s| (s.x - x).abs() < 1e-6)
            .ok_or(fail(RibFault::NoHollow))
    };
    let (aft, centre, fore) = (stack(x - half)?, stack(x)?, stack(x + half)?);
    // Not the faces' alone, since what moves aslant, as the starters' upper edge does, cuts a corner between them, and a strip may begin there.
    let through = rail.stacks.iter().filter(|s| (s.x - x).abs() < half + 1e-6);
    let through = through.map(|stack| Some((stack, stack.inner_boundary()?)));
    let through: Option<Vec<Through>> = through.collect();
    let no_room = fail(RibFault::RailFills);
    let through = through.ok_or(no_room.clone())?;
    let polygons: Option<Vec<_>> = through.iter().map(half_polygon).collect();
    let mut polygons = polygons.ok_or(no_room)?;
    polygons.extend(through.windows(2).flat_map(|w| between(&w[0], &w[1])));
    let chain = common(&polygons).ok_or(fail(RibFault::FacesApart))?;
    let (bottom, deck) = (chain[0].y, chain[chain.len() - 1].y);
    let slot_width = c.spine + c.slot_clearance;
    if deck - bottom < 4.0 || chain.iter().all(|p| p.x < 2.0 * slot_width) {
        return Err(fail(RibFault::TooSmall));
    }
    let slot_top = (bottom + deck) / 2.0;
    // The first and the last plane are its faces.
    let faces = through.first().into_iter().chain(through.last());
    let rails: Vec<Vec<Vector<2>>> = faces.map(|(_, rail)| rail.clone()).collect();
    let on_rails: Vec<&[Vector<2>]> = rails.iter().map(Vec::as_slice).collect();
    let [on_bottom, on_deck, on_rail] = chain_lengths(&chain, &on_rails);
    let lands = Lands {
        bottom: (2.0 * on_bottom - slot_width) * c.rib,
        deck: 2.0 * on_deck * c.rib,
        ends: 2.0 * on_rail * c.rib,
        laps: 2.0 * (deck - slot_top) * c.spine,
    };
    Ok(Rib {
        number,
        x,
        thickness: c.rib,
        outline: outline(number, &chain, slot_width / 2.0, slot_top, c)?,
        holes: Vec::new(),
        half: chain,
        rails,
        lands,
        heights: [bottom, deck],
        slot_top,
        slot_width,
        bevels: bevels(aft, centre, fore, c.rib),
        facets: facets(centre),
        stack: centre.clone(),
        slices: slices(centre, c),
    })
}

/// A plane through a rib, with its strips' inner sides.
type Through<'a> = (&'a Stack, Vec<Vector<2>>);

/// Half a rib in one plane, from the bottom's centre round the rail to the deck's centre.
fn half_polygon((stack, rail): &Through) -> Option<Vec<Vector<2>>> {
    let (first, last) = (rail.first()?, rail.last()?);
    let mut points = face_line(&stack.faces[0], first.x);
    points.extend_from_slice(rail);
    let mut deck = face_line(&stack.faces[1], last.x);
    deck.reverse();
    points.extend(deck);
    points
        .iter()
        .all(|p| p.iter().all(|c| c.is_finite()))
        .then_some(points)
}

/// Greatest step, mm, by which a corner of the rail moves from one plane to the next that a rib clears; a square corner that moves aslant enters the rib by
/// a third of it.
const MOVED: f64 = 0.08;
/// Planes at most between two of the rail's.
const MOST: usize = 64;

/// What lies inboard of the strips in planes between two of the rail's, where they run straight: a corner that moves aslant, as those of starters do,
/// is in neither plane where it is half way.
fn between((aft, a): &Through, (fore, b): &Through) -> Vec<Vec<Vector<2>>> {
    // Past bottom and deck of any board.
    const PAST: f64 = 1000.0;
    let moved = a.iter().zip(b).map(|(p, q)| (q - p).norm());
    let steps = if a.len() == b.len() {
        ((moved.fold(0.0, f64::max) / MOVED).ceil() as usize).clamp(1, MOST)
    } else {
        MOST
    };
    let inboard = |rail: Vec<Vector<2>>| {
        let (first, last) = (rail[0], rail[rail.len() - 1]);
        let at = |y: f64, z: f64| Vector::<2>::new(y, z);
        let mut ring = vec![at(0.0, first.y - PAST), at(first.x, first.y - PAST)];
        ring.extend_from_slice(&rail);
        ring.extend([at(last.x, last.y + PAST), at(0.0, last.y + PAST)]);
        ring
    };
    let rails = aft.inner_boundaries_between(fore, [a, b], steps);
    rails.into_iter().map(inboard).collect()
}

/// A skin's inner face from y = 0 to before `end`, dense enough for [`LINE_TOLERANCE`].
fn face_line(face: &SkinFace, end: f64) -> Vec<Vector<2>> {
    let nodes = face.line.nodes();
    let mut points = vec![Vector::<2>::new(0.0, face.height(0.0))];
    let mut inner: Vec<Vector<2>> = Vec::new();
    for w in nodes.windows(2) {
        // Sagitta of the piece from its turn; a Hermite piece turns little, so halves of its chord error add up to this.
        let turn = w[0].tangent.angle(&w[1].tangent);
        let chord = (w[1].point - w[0].point).norm();
        let count = (chord * turn / 8.0 / LINE_TOLERANCE)
            .sqrt()
            .ceil()
            .clamp(1.0, 64.0) as usize;
        let step = (w[1].v - w[0].v) / count as f64;
        inner.extend((0..count).map(|k| face.line.point(w[0].v + step * k as f64)));
    }
    inner.extend(nodes.last().map(|n| n.point));
    inner.push(face.land);
    inner.sort_by(|a, b| a.x.total_cmp(&b.x));
    const APART: f64 = 1e-3;
    points.extend(
        inner
            .into_iter()
            .filter(|p| p.x > APART && p.x < end - APART),
    );
    points.dedup_by(|a, b| (*a - *b).norm() < APART);
    points
}

/// What half ribs have in common, as the chain from the bottom's centre to the deck's.
fn common(halves: &[Vec<Vector<2>>]) -> Option<Vec<Vector<2>>> {
    let (first, others) = halves.split_first()?;
    let mut points = others.iter().try_fold(first.clone(), |so_far, half| {
        polygon::intersection(&so_far, half)
    })?;
    // Start at the bottom's centre: the lowest point on the centreline.
    let on_centre = |p: &Vector<2>| p.x.abs() < 1e-5;
    let start = (0..points.len())
        .filter(|&i| on_centre(&points[i]))
        .min_by(|&i, &j| points[i].y.total_cmp(&points[j].y))?;
    points.rotate_left(start);
    let end = (0..points.len())
        .filter(|&i| on_centre(&points[i]))
        .max_by(|&i, &j| points[i].y.total_cmp(&points[j].y))?;
    points.truncate(end + 1);
    (points.len() > 3).then_some(points)
}

/// The whole contour: starboard chain, its mirror image, and the slot from below.
fn outline(
    number: usize,
    chain: &[Vector<2>],
    half_slot: f64,
    slot_top: f64,
    c: &Construction,
) -> Result<Path, FrameError> {
    // Cut the chain where the slot begins.
    let after = chain
        .iter()
        .position(|p| p.x > half_slot)
        .unwrap_or(1)
        .max(1);
    let (a, b) = (chain[after - 1], chain[after]);
    let mut starboard = vec![Vector::<2>::new(half_slot, height_on(a, b, half_slot))];
    starboard.extend_from_slice(&chain[after..]);
    starboard.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
    let starboard = without_stairs(&starboard);
    let starboard = relief::corners(&starboard, c.frame.relief, c.frame.cutter / 2.0);
    let start = starboard[0];
    let mut segments = arcs(&format!("rib {number}"), &starboard)?;
    let half = Path {
        start,
        segments,
        closed: false,
    };
    let port = half
        .transform(&Placement::mirror(std::f64::consts::FRAC_PI_2))
        .reversed();
    segments = half.segments;
    segments.extend(port.segments);
    let at = |x: f64, y: f64| Vector::<2>::new(x, y);
    segments.extend(relief::slot(
        [at(-half_slot, start.y), at(half_slot, start.y)],
        [at(-half_slot, slot_top), at(half_slot, slot_top)],
        c.frame.relief,
        c.frame.cutter / 2.0,
    ));
    Ok(close(start, segments))
}
