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
pub fn intersection(a: &[Vector<2>], b: &[Vector<2>]) -> Option<Vec<Vector<2>>> {
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
/// [`arc_sagitta`]. Nothing where a number is beyond a kilometre or none.
pub fn stroke_outline(line: &[Vector<2>], radius: f64) -> Vec<Vec<Vector<2>>> {
    if !within_reach(line, radius) {
        return Vec::new();
    }
    let style = StrokeStyle::new(2.0 * radius)
        .line_join(LineJoin::Round(ARC_STEP))
        .start_cap(LineCap::Round(ARC_STEP))
        .end_cap(LineCap::Round(ARC_STEP));
    contours(plain(line).stroke_as::<i64>(style, false))
}

/// `polygon` and everything nearer to it than `radius`, as outer contours and holes; arcs as in [`stroke_outline`]. Nothing where a number is
/// beyond a kilometre or none.
pub fn offset_outline(polygon: &[Vector<2>], radius: f64) -> Vec<Vec<Vector<2>>> {
    if !within_reach(polygon, radius) {
        return Vec::new();
    }
    let mut polygon = plain(polygon);
    if area_of(&polygon) < 0.0 {
        polygon.reverse();
    }
    let style = OutlineStyle::new(radius).line_join(LineJoin::Round(ARC_STEP));
    contours(polygon.outline_as::<i64>(&style))
}

/// What is left of `subject` without `clips`: the outer contours of the pieces, counter-clockwise. Holes in pieces are filled.
pub fn difference(subject: &[Vector<2>], clips: &[Vec<Vector<2>>]) -> Vec<Vec<Vector<2>>> {
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

/// Whether all numbers are such as the crate takes without a panic: finite, and of a size that its integer grid holds.
fn within_reach(points: &[Vector<2>], radius: f64) -> bool {
    const MOST: f64 = 1e6;
    let numbers = points.iter().flat_map(|p| p.iter().copied());
    numbers.chain([radius]).all(|number| number.abs() <= MOST)
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

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn square(side: f64) -> Vec<Vector<2>> {
        [[0.0, 0.0], [side, 0.0], [side, side], [0.0, side]]
            .map(Vector::from)
            .to_vec()
    }

    fn total(contours: &[Vec<Vector<2>>]) -> f64 {
        contours.iter().map(|c| area(c)).sum()
    }

    /// Steiner's formula: area, and perimeter times the radius, and a circle.
    #[test]
    fn an_offset_has_the_area_of_steiner_s_formula() {
        for radius in [0.5, 3.0, 20.0] {
            let exact = 100.0 + 40.0 * radius + PI * radius * radius;
            let found = total(&offset_outline(&square(10.0), radius));
            let inscribed = 2.0 * PI * radius * arc_sagitta(radius);
            assert!(
                found <= exact + 1e-6 && exact - found <= inscribed + 1e-6,
                "{found}"
            );
        }
    }

    #[test]
    fn a_stroke_is_a_stadium() {
        let line = [[0.0, 0.0], [30.0, 40.0]].map(Vector::from);
        let exact = 50.0 * 6.0 + PI * 9.0;
        let found = total(&stroke_outline(&line, 3.0));
        assert!(found <= exact + 1e-6 && exact - found <= 2.0 * PI * 3.0 * arc_sagitta(3.0) + 1e-6);
    }

    #[test]
    fn numbers_that_are_none_give_nothing() {
        for wrong in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300] {
            assert!(offset_outline(&square(10.0), wrong).is_empty());
            assert!(stroke_outline(&square(10.0), wrong).is_empty());
            assert!(offset_outline(&square(wrong), 1.0).is_empty());
            assert!(stroke_outline(&square(wrong), 1.0).is_empty());
        }
    }
}
