//! Areas and intersections of polygons.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

use crate::curve::Vector;

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
