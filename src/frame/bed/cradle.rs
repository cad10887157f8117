//! Cradles.

use super::edge::Face;
use crate::design::Design;
use crate::frame::arcs;
use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Placement, Point, Segment, close, line};
use crate::shape::Shell;

/// One cradle, seen from the tail: y to starboard, height over the table, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Cradle {
    /// Number from the tail, starting with 1.
    pub number: usize,
    /// Centre plane, mm from the tail.
    pub x: f64,
    /// Number of the rib that stands over it.
    pub rib: Option<usize>,
    /// Thickness, mm.
    pub thickness: f64,
    /// The contour, its upper edge clear of the bottom at both faces; the beam's notch is part of it.
    pub outline: Path,
    /// The hole on the centreline for string or light.
    pub holes: Vec<Path>,
    /// Half of its width, mm.
    pub half_width: f64,
    /// Heights of the upper edge over the table at the centreline and at its ends, mm.
    pub heights: [f64; 2],
    /// Angle by which the upper edge is bevelled for the skin to bear on the whole of it, at the centreline and at its ends, radians;
    /// positive where the face towards the nose is to be the higher.
    pub bevels: [f64; 2],
}

/// The bed.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildingBed {
    /// Height of the table in the board's coordinates, mm; negative, for it lies under the base plane.
    pub table: f64,
    /// Height of the sight line over the table, the same at every cradle, mm.
    pub sight: f64,
    /// Width and height of the beam, mm.
    pub beam: Option<[f64; 2]>,
    /// The cradles, from the tail.
    pub cradles: Vec<Cradle>,
    /// Stations, mm from the tail, that have no cradle because the bottom is too narrow there.
    pub left_out: Vec<f64>,
}

/// Least half-width of a cradle, mm: one less wide holds nothing.
const NARROWEST: f64 = 20.0;
/// Least width of a leg beside a beam, mm.
const LEG: f64 = 15.0;
/// Least wood over the sight hole, mm.
const OVER_HOLE: f64 = 8.0;

/// The cradles of `design`'s bed.
///
/// The upper edge is the lower of the finished bottom's sections at both faces and in the middle of the cradle, so that the skin
/// bears on one of its edges and is dented by neither.
pub fn bed(shell: &Shell, design: &Design) -> BuildingBed {
    let (c, b) = (&design.construction, &design.bed);
    let stations = match &b.stations {
        Some(stations) => stations.clone(),
        None => silent_stations(design),
    };
    let mut edges = Vec::new();
    let mut left_out = Vec::new();
    for x in stations {
        let planes = [x - b.thickness / 2.0, x, x + b.thickness / 2.0];
        let mut faces = Vec::new();
        for x in planes {
            faces.extend(Face::new(shell, c, x));
        }
        let reach = faces.iter().map(Face::reach).fold(f64::INFINITY, f64::min);
        let half = b.width.map_or(reach, |w| reach.min(w / 2.0));
        // Past a swallow tail's cleft the faces begin at its walls.
        if faces.len() == planes.len() && half >= NARROWEST {
            edges.push((x, half, faces));
        } else {
            left_out.push(x);
        }
    }
    let lines: Vec<Vec<Vector<2>>> = edges.iter().map(|(_, half, f)| edge(f, *half)).collect();
    let lowest = lines
        .iter()
        .flatten()
        .map(|p| p.y)
        .fold(f64::INFINITY, f64::min);
    let table = if lowest.is_finite() { lowest } else { 0.0 } - b.base_height;
    let notch = b.beam.map_or(0.0, |beam| beam[1]);
    let sight = (notch + b.base_height) / 2.0;
    let mut cradles = Vec::new();
    for ((x, half, faces), line) in edges.iter().zip(&lines) {
        let number = cradles.len() + 1;
        let lean = |y: f64| match faces.as_slice() {
            [aft, .., fore] => (fore.height(y) - aft.height(y)).atan2(b.thickness),
            _ => 0.0,
        };
        let heights = [line.first(), line.last()].map(|p| p.map_or(0.0, |p| p.y - table));
        let roomy = b.base_height - notch >= b.sight_hole + 2.0 * OVER_HOLE;
        let hole = (b.sight_hole > 0.0 && roomy)
            .then(|| Path::circle(Point::new(0.0, sight), b.sight_hole / 2.0));
        cradles.push(Cradle {
            number,
            x: *x,
            rib: c
                .rib_stations
                .iter()
                .position(|r| (r - x).abs() < c.rib / 2.0)
                .map(|i| i + 1),
            thickness: b.thickness,
            outline: outline(number, line, table, b.beam),
            holes: hole.into_iter().collect(),
            half_width: *half,
            heights,
            bevels: [lean(0.0), lean(*half)],
        });
    }
    BuildingBed {
        table,
        sight,
        beam: b.beam,
        cradles,
        left_out,
    }
}

/// A cradle at every rib and under the middle of either block, those that would touch another left out.
fn silent_stations(design: &Design) -> Vec<f64> {
    let c = &design.construction;
    let cleft = match design.outline.tail {
        crate::design::Tail::Swallow { depth, .. } => depth,
        _ => 0.0,
    };
    let mut stations = vec![(cleft + c.tail_block) / 2.0];
    stations.extend(&c.rib_stations);
    stations.push(design.length - c.nose_block / 2.0);
    let apart = 2.0 * design.bed.thickness;
    let mut kept: Vec<f64> = Vec::new();
    for x in stations {
        let fits = x > design.bed.thickness && x < design.length - design.bed.thickness;
        if fits && kept.last().is_none_or(|last| x - last >= apart) {
            kept.push(x);
        }
    }
    kept
}

/// The upper edge from the centre to `half`, (y, z) in the board's coordinates.
fn edge(faces: &[Face], half: f64) -> Vec<Vector<2>> {
    let mut stops: Vec<f64> = faces.iter().flat_map(Face::stops).collect();
    stops.extend([0.0, half]);
    stops.retain(|y| (0.0..=half).contains(y));
    stops.sort_by(f64::total_cmp);
    // Stops of different faces fall close to each other at random; the arcs are fitted better without such pairs.
    const APART: f64 = 0.05;
    let mut kept: Vec<f64> = Vec::new();
    for y in stops {
        if kept.last().is_none_or(|last| y - last >= APART) {
            kept.push(y);
        }
    }
    if let Some(last) = kept.last_mut() {
        *last = half;
    }
    let lowest = |y: f64| {
        faces
            .iter()
            .map(|f| f.height(y))
            .fold(f64::INFINITY, f64::min)
    };
    kept.iter()
        .map(|&y| Vector::<2>::new(y, lowest(y)))
        .collect()
}

/// The contour over the table: foot, ends, upper edge, and the notch for the beam; too narrow a cradle stands on the beam.
fn outline(number: usize, edge: &[Vector<2>], table: f64, beam: Option<[f64; 2]>) -> Path {
    let over: Vec<Vector<2>> = edge
        .iter()
        .map(|p| Vector::<2>::new(p.x, p.y - table))
        .collect();
    let (Some(centre), Some(end)) = (over.first(), over.last()) else {
        return Path::polyline(&[], true);
    };
    let out = Path {
        start: *centre,
        // Where no arcs fit, the dense polyline itself is as good a contour.
        segments: arcs(&format!("cradle {number}"), &over)
            .unwrap_or_else(|_| over.iter().skip(1).map(|p| line(p.x, p.y)).collect()),
        closed: false,
    };
    let home = out.reversed();
    let port = out.transform(&Placement::mirror(std::f64::consts::FRAC_PI_2));
    let straddles = beam.filter(|[width, _]| end.x >= width / 2.0 + LEG);
    let foot = match (beam, straddles) {
        (Some([_, height]), None) => height,
        _ => 0.0,
    };
    // Counter-clockwise from the foot's starboard corner.
    let mut segments = vec![line(end.x, end.y)];
    segments.extend(home.segments);
    segments.extend(port.segments);
    segments.push(line(-end.x, foot));
    if let Some([width, height]) = straddles {
        let half = width / 2.0;
        let notch: [Segment; 4] = [
            line(-half, 0.0),
            line(-half, height),
            line(half, height),
            line(half, 0.0),
        ];
        segments.extend(notch);
    }
    close(Vector::<2>::new(end.x, foot), segments)
}
