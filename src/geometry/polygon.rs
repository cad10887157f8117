//! Areas, intersections, differences and neighbourhoods of polygons.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::stroke::offset::StrokeOffset;
use i_overlay::mesh::float::style::{LineCap, LineJoin, OutlineStyle, StrokeStyle};

use crate::geometry::curve::Vector;

/// Signed area of a polygon, mm², counter-clockwise positive.
pub fn area(polygon: &[Vector<2>]) -> f64 {
    let next = polygon.iter().cycle().skip(1);
    polygon
        .iter()
        .zip(next)
        .map(|(a, b)| a.perp(b))
        .sum::<f64>()
        / 2.0
}

/// The largest piece that two simple polygons have in common, counter-clockwise; `None` when they have no area in common or a
/// coordinate is not finite.
///
/// Computed on an integer grid of about 1e-9 of the polygons' size (crate `i_overlay`), to which corners are rounded.
pub fn common(a: &[Vector<2>], b: &[Vector<2>]) -> Option<Vec<Vector<2>>> {
    if a.iter()
        .chain(b)
        .any(|p| !(p.x.is_finite() && p.y.is_finite()))
    {
        return None;
    }
    let contour =
        |points: &[Vector<2>]| points.iter().map(|p| [p.x, p.y]).collect::<Vec<[f64; 2]>>();
    let shapes = contour(a).overlay(&contour(b), OverlayRule::Intersect, FillRule::NonZero);
    let outer = |shape: Vec<Vec<[f64; 2]>>| -> Option<Vec<Vector<2>>> {
        Some(
            shape
                .into_iter()
                .next()?
                .into_iter()
                .map(Vector::from)
                .collect(),
        )
    };
    let mut best = shapes
        .into_iter()
        .filter_map(outer)
        .max_by(|p, q| area(p).abs().total_cmp(&area(q).abs()))?;
    if area(&best) < 0.0 {
        best.reverse();
    }
    Some(best)
}

/// Chord of the polylines that stand for arcs, over the arc's radius. The crate goes no finer than π/100.
const ARC_STEP: f64 = 0.0315;

/// Distance, mm, by which such chords lie inside arcs of `radius`.
pub fn arc_sagitta(radius: f64) -> f64 {
    radius * ARC_STEP * ARC_STEP / 8.0
}

/// Everything nearer than `radius` to an open polyline, as outer contours and holes; arcs are inscribed polylines, see
/// [`arc_sagitta`].
pub fn around(line: &[Vector<2>], radius: f64) -> Vec<Vec<Vector<2>>> {
    let style = StrokeStyle::new(2.0 * radius)
        .line_join(LineJoin::Round(ARC_STEP))
        .start_cap(LineCap::Round(ARC_STEP))
        .end_cap(LineCap::Round(ARC_STEP));
    contours(plain(line).stroke_as::<i64>(style, false))
}

/// `polygon` and everything nearer to it than `radius`, as outer contours and holes; arcs as in [`around`].
pub fn grown(polygon: &[Vector<2>], radius: f64) -> Vec<Vec<Vector<2>>> {
    let mut polygon = plain(polygon);
    if area_of(&polygon) < 0.0 {
        polygon.reverse();
    }
    let style = OutlineStyle::new(radius).line_join(LineJoin::Round(ARC_STEP));
    contours(polygon.outline_as::<i64>(&style))
}

/// What is left of `subject` without `clips`: the outer contours of the pieces, counter-clockwise. Holes in pieces are filled.
pub fn remaining(subject: &[Vector<2>], clips: &[Vec<Vector<2>>]) -> Vec<Vec<Vector<2>>> {
    let clips: Vec<_> = clips.iter().map(|c| plain(c)).collect();
    let shapes =
        plain(subject).overlay_as::<i64>(&clips, OverlayRule::Difference, FillRule::NonZero);
    let outer = shapes.into_iter().filter_map(|s| s.into_iter().next());
    outer
        .map(|mut points| {
            if area_of(&points) < 0.0 {
                points.reverse();
            }
            points.into_iter().map(Vector::from).collect()
        })
        .collect()
}

/// The polyline with no more of its corners than keep every other within `tolerance` of it (Douglas & Peucker, *Algorithms for the reduction of
/// the number of points required to represent a digitized line*, 1973).
pub fn thinned(line: &[Vector<2>], tolerance: f64) -> Vec<Vector<2>> {
    let Some(last) = line.len().checked_sub(1) else {
        return Vec::new();
    };
    let mut kept = vec![false; line.len()];
    kept[0] = true;
    kept[last] = true;
    let mut stretches = vec![(0, last)];
    while let Some((from, to)) = stretches.pop() {
        let (a, d) = (line[from], line[to] - line[from]);
        let off = |i: usize| {
            let p = line[i] - a;
            let share = (p.dot(&d) / d.norm_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
            (p - d * share).norm()
        };
        let far = (from + 1..to).max_by(|&i, &j| off(i).total_cmp(&off(j)));
        if let Some(i) = far.filter(|&i| off(i) > tolerance) {
            kept[i] = true;
            stretches.extend([(from, i), (i, to)]);
        }
    }
    line.iter()
        .zip(kept)
        .filter_map(|(p, kept)| kept.then_some(*p))
        .collect()
}

fn plain(points: &[Vector<2>]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}

fn area_of(points: &[[f64; 2]]) -> f64 {
    let points: Vec<Vector<2>> = points.iter().copied().map(Vector::from).collect();
    area(&points)
}

fn contours(shapes: Vec<Vec<Vec<[f64; 2]>>>) -> Vec<Vec<Vector<2>>> {
    let contours = shapes.into_iter().flatten();
    contours
        .map(|c| c.into_iter().map(Vector::from).collect())
        .collect()
}
