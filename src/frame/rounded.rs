//! A room for a disc's centre, grown by the disc, as a contour whose round corners are each one arc.

use super::FrameError;
use super::chain::{CORNER, arcs};
use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Segment, close};

/// Corners nearer than this to each other, mm, are one: what clipping leaves of them points anywhere.
const HAIR: f64 = 2e-3;
/// How near, mm, to a corner's circle its rounding's points lie: they are computed on it, to a grid far finer.
const ON: f64 = 1e-4;

/// A closed polygon without points a hair apart.
pub(super) fn without_hairs(polygon: &[Vector<2>]) -> Vec<Vector<2>> {
    let mut points: Vec<Vector<2>> = Vec::with_capacity(polygon.len());
    for p in polygon {
        if points.last().is_none_or(|q| (p - q).norm() > HAIR) {
            points.push(*p);
        }
    }
    while points.len() > 3 && (points[0] - points[points.len() - 1]).norm() <= HAIR {
        points.pop();
    }
    points
}

/// The outline of `cell` grown by `radius` (`grown`, whose roundings are chords) as lines and arcs: about each corner of the cell one arc of that
/// radius, along its sides what [`arcs`] fits.
///
/// An arc fitted to the chords would have to guess where it begins, and come out in pieces of several radii.
pub(super) fn rounded(
    part: &str,
    outline: &[Vector<2>],
    cell: &[Vector<2>],
    radius: f64,
) -> Result<Path, FrameError> {
    let centres = corners(cell);
    let about = |p: &Vector<2>| {
        centres
            .iter()
            .position(|c| ((p - c).norm() - radius).abs() < ON)
    };
    let mut points = without_hairs(outline);
    let mut labels: Vec<Option<usize>> = points.iter().map(about).collect();
    let n = points.len();
    // Begin where a corner's rounding begins, so that none passes the seam.
    let begins = |i: &usize| labels[*i].is_some() && labels[*i] != labels[(i + n - 1) % n];
    let seam = (0..n).find(begins).unwrap_or(0);
    points.rotate_left(seam);
    labels.rotate_left(seam);
    points.extend(points.first().copied());
    let mut segments = Vec::new();
    // Up to here the outline is drawn; `first` is where the next run of points on one circle begins.
    let (mut drawn, mut first) = (0, 0);
    while first < n {
        let run = labels[first..]
            .iter()
            .take_while(|l| **l == labels[first])
            .count();
        let last = first + run - 1;
        if let Some(corner) = labels[first].filter(|_| run > 1) {
            if first > drawn {
                segments.extend(arcs(part, &points[drawn..=first])?);
            }
            segments.extend(arc(centres[corner], &points[first..=last]));
            drawn = last;
        }
        first += run;
    }
    if drawn < n {
        segments.extend(arcs(part, &points[drawn..=n])?);
    }
    let start = points.first().copied().unwrap_or_default();
    Ok(close(start, segments))
}

/// The corners of a closed polygon that turn outward by more than a dense line does.
fn corners(cell: &[Vector<2>]) -> Vec<Vector<2>> {
    let n = cell.len();
    let turn: f64 = cell
        .iter()
        .zip(cell.iter().cycle().skip(1))
        .map(|(a, b)| a.perp(b))
        .sum();
    let sharp = |i: &usize| {
        let (a, p, b) = (cell[(i + n - 1) % n], cell[*i], cell[(i + 1) % n]);
        let (before, after) = (p - a, b - p);
        before.perp(&after) * turn > 0.0 && before.angle(&after) > CORNER
    };
    (0..n).filter(sharp).map(|i| cell[i]).collect()
}

/// The arc about `centre` through a run of points on its circle, in two where it turns by more than half a circle.
fn arc(centre: Vector<2>, run: &[Vector<2>]) -> Vec<Segment> {
    let (Some(&first), Some(&last)) = (run.first(), run.last()) else {
        return Vec::new();
    };
    let turn = |w: &[Vector<2>]| {
        let (a, b) = (w[0] - centre, w[1] - centre);
        a.perp(&b).atan2(a.dot(&b))
    };
    let sweep: f64 = run.windows(2).map(turn).sum();
    let to = |p: Vector<2>, sweep: f64| Segment::Arc {
        to: p,
        bulge: (sweep / 4.0).tan(),
    };
    if sweep.abs() <= std::f64::consts::PI {
        return vec![to(last, sweep)];
    }
    let (s, c) = (sweep / 2.0).sin_cos();
    let spoke = first - centre;
    let middle = centre + Vector::<2>::new(spoke.x * c - spoke.y * s, spoke.x * s + spoke.y * c);
    vec![to(middle, sweep / 2.0), to(last, sweep / 2.0)]
}
