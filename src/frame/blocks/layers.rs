//! The layers a block is glued up from.

use super::BoardEnd;
use super::half::Half;
use crate::design::Design;
use crate::geometry::curve::Vector;
use crate::geometry::curve::polyline::{self, height_on};
use crate::geometry::path::{Path, arcs_of_polyline};

/// One layer, seen from above: x from the tail, y to starboard.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockLayer {
    /// Number from the bottom, starting with 1.
    pub number: usize,
    /// Heights of its two faces over the base plane, mm.
    pub z: [f64; 2],
    /// Where it begins and ends, mm from the tail.
    pub ends: [f64; 2],
    /// Its contour; two contours where a swallow tail's horns are apart at this height.
    pub outlines: Vec<Path>,
}

impl BlockLayer {
    /// Volume, mm³.
    pub fn volume(&self) -> f64 {
        let area: f64 = self.outlines.iter().map(|p| p.area().abs()).sum();
        area * (self.z[1] - self.z[0])
    }
}

/// Step along the board, mm, in which a contour is grown.
const STEP: f64 = 0.5;
/// Directions in which it is grown at a place.
const DIRECTIONS: usize = 32;
/// Greatest distance, mm, of the drawn contour from that.
const DRAWN: f64 = 0.03;
/// A turn sharper than this, radians, is a corner.
const CORNER: f64 = 0.3;
/// A layer narrower than this at its widest, mm, is left out: the glue of the next one does without.
const NARROWEST: f64 = 3.0;

/// Layers from the bottom up through `body`; `outer` reaches on to the tip.
///
/// The contour is the widest section over the layer's height, grown by the oversize except at the block's face.
pub(super) fn layers(
    design: &Design,
    which: BoardEnd,
    face: f64,
    cleft: Option<f64>,
    body: &[Half],
    outer: &[Half],
) -> Vec<BlockLayer> {
    let z = || body.iter().flat_map(|h| &h.1).map(|p| p.y);
    let (low, high) = (
        z().fold(f64::INFINITY, f64::min),
        z().fold(f64::NEG_INFINITY, f64::max),
    );
    let layer = design.blocks.layer;
    // Bounded by the least thickness of a layer and the greatest of a board with its rocker.
    let count = (((high - low) / layer - 1e-6).ceil().max(1.0) as usize).min(400);
    let half_cleft = body.iter().chain(outer).map(|h| inner(&h.1));
    let half_cleft = half_cleft.fold(0.0, f64::max);
    let ground = Ground {
        which,
        face,
        oversize: design.blocks.oversize,
        // Half-width at x = 0 of the straight-walled cleft.
        cleft: cleft.map(|depth| [cleft_half_width(design).unwrap_or(half_cleft), depth]),
    };
    let mut out: Vec<BlockLayer> = Vec::new();
    for k in 0..count {
        let z = [low + layer * k as f64, low + layer * (k + 1) as f64];
        let widest: Vec<Vector<2>> = outer
            .iter()
            .filter_map(|(x, half)| Some(Vector::<2>::new(*x, widest(half, z)?)))
            .collect();
        if let Some((ends, outlines)) = ground.contours(&spread(&widest, outer)) {
            out.push(BlockLayer {
                number: out.len() + 1,
                z,
                ends,
                outlines,
            });
        }
    }
    out
}

fn cleft_half_width(design: &Design) -> Option<f64> {
    match design.outline.tail {
        crate::design::Tail::Swallow { width, .. } => Some(width / 2.0),
        _ => None,
    }
}

/// Half-breadth at which a half section begins.
fn inner(half: &[Vector<2>]) -> f64 {
    half.iter().map(|p| p.x).fold(f64::INFINITY, f64::min)
}

/// Greatest half-breadth of a half section between two heights.
fn widest(half: &[Vector<2>], z: [f64; 2]) -> Option<f64> {
    let mut found: Option<f64> = None;
    let mut see = |y: f64| found = Some(found.map_or(y, |f: f64| f.max(y)));
    for (i, a) in half.iter().enumerate() {
        if (z[0]..=z[1]).contains(&a.y) {
            see(a.x);
        }
        let b = half.get(i + 1).or(half.first()).unwrap_or(a);
        for level in z {
            if (a.y - level) * (b.y - level) < 0.0 {
                see(height_on(a.yx(), b.yx(), level));
            }
        }
    }
    found
}

/// The widths on, at either end, to the next plane that has none: the true end lies between.
fn spread(widest: &[Vector<2>], outer: &[Half]) -> Vec<Vector<2>> {
    let mut points = widest.to_vec();
    points.sort_by(|a, b| a.x.total_cmp(&b.x));
    let (Some(first), Some(last)) = (points.first().copied(), points.last().copied()) else {
        return points;
    };
    let planes = || outer.iter().map(|h| h.0);
    let before = planes()
        .filter(|x| *x < first.x)
        .fold(f64::NEG_INFINITY, f64::max);
    let after = planes()
        .filter(|x| *x > last.x)
        .fold(f64::INFINITY, f64::min);
    if before.is_finite() {
        points.insert(0, Vector::<2>::new(before, first.y));
    }
    if after.is_finite() {
        points.push(Vector::<2>::new(after, last.y));
    }
    points
}

struct Ground {
    which: BoardEnd,
    face: f64,
    oversize: f64,
    /// Half-width at the tips and depth.
    cleft: Option<[f64; 2]>,
}

impl Ground {
    /// Ends and contours of the layer that is as wide as `widest`, (x, half-breadth) in rising x.
    fn contours(&self, widest: &[Vector<2>]) -> Option<([f64; 2], Vec<Path>)> {
        let (first, last) = (widest.first()?.x, widest.last()?.x);
        if widest.iter().all(|p| p.y < NARROWEST) || last - first < STEP {
            return None;
        }
        let (mut from, mut to) = (first - self.oversize, last + self.oversize);
        match self.which {
            BoardEnd::Tail => to = to.min(self.face),
            BoardEnd::Nose => from = from.max(self.face),
        }
        let count = ((to - from) / STEP).ceil().max(2.0) as usize;
        let chain: Vec<[f64; 3]> = (0..=count)
            .map(|k| from + (to - from) * k as f64 / count as f64)
            .map(|x| [x, self.inner(x), self.grown(widest, x)])
            .filter(|[_, inner, outer]| outer - inner > 1e-6)
            .collect();
        let (start, end) = (chain.first()?, chain.last()?);
        let ends = [start[0], end[0]];
        let outer: Vec<Vector<2>> = chain.iter().map(|p| Vector::<2>::new(p[0], p[2])).collect();
        let wall: Vec<Vector<2>> = chain
            .iter()
            .filter(|p| p[1] > 0.0)
            .map(|p| Vector::<2>::new(p[0], p[1]))
            .collect();
        let mirror = |p: &Vector<2>| Vector::<2>::new(p.x, -p.y);
        let paths = if wall.len() == chain.len() {
            // Two horns apart.
            let mut ring = outer.clone();
            ring.extend(wall.iter().rev());
            let port: Vec<Vector<2>> = ring.iter().map(mirror).collect();
            vec![drawn(&ring), drawn(&port)]
        } else {
            let mut ring = outer.clone();
            // From the nose's end round port to the tail, then round the cleft.
            ring.extend(outer.iter().rev().map(mirror));
            ring.extend(wall.iter().map(mirror));
            ring.extend(self.apex().filter(|_| !wall.is_empty()));
            ring.extend(wall.iter().rev());
            vec![drawn(&ring)]
        };
        Some((ends, paths))
    }

    /// Half-width of the cleft less the oversize, 0 where there is none.
    fn inner(&self, x: f64) -> f64 {
        self.cleft.map_or(0.0, |[half, depth]| {
            let slope = half / depth;
            (half - slope * x - self.oversize * slope.hypot(1.0)).max(0.0)
        })
    }

    /// The bottom of the cleft less the oversize.
    fn apex(&self) -> Option<Vector<2>> {
        let [half, depth] = self.cleft?;
        let slope = half / depth;
        let x = (half - self.oversize * slope.hypot(1.0)) / slope;
        Some(Vector::<2>::new(x, 0.0))
    }

    /// Half-breadth grown by the oversize all round.
    fn grown(&self, widest: &[Vector<2>], x: f64) -> f64 {
        let o = self.oversize;
        let corners = widest.iter().filter_map(|p| {
            let square = o * o - (p.x - x).powi(2);
            (square >= 0.0).then(|| p.y + square.sqrt())
        });
        (0..=DIRECTIONS)
            .filter_map(|k| {
                let angle = std::f64::consts::PI * k as f64 / DIRECTIONS as f64;
                Some(at(widest, x - o * angle.cos())? + o * angle.sin())
            })
            .chain(corners)
            .fold(0.0, f64::max)
    }
}

/// The greatest height of points in rising x, straight between them; `None` outside.
fn at(points: &[Vector<2>], x: f64) -> Option<f64> {
    const HAIR: f64 = 1e-9;
    let (first, last) = (points.first()?.x, points.last()?.x);
    let inside = x >= first - HAIR && x <= last + HAIR;
    inside.then(|| polyline::heights(points, x.clamp(first, last)).fold(0.0, f64::max))
}

/// A closed contour of lines and arcs.
fn drawn(ring: &[Vector<2>]) -> Path {
    let mut points = ring.to_vec();
    points.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
    if let (Some(first), Some(last)) = (points.first().copied(), points.last())
        && (first - last).norm() > 1e-6
    {
        points.push(first);
    }
    let path = match arcs_of_polyline(&points, CORNER, DRAWN) {
        Ok(fitted) => Path {
            closed: true,
            ..fitted
        }
        .without_empty_segments(),
        Err(_) => Path::polyline(&points, true),
    };
    if path.area() < 0.0 {
        path.reversed()
    } else {
        path
    }
}
