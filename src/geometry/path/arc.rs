//! Arcs by their end points and bulge, and the pair of arcs between two points with tangents.
//!
//! Lengths, points and radii are worked out from end points and bulge, not from `lyon_geom::Arc`: a slight arc has a centre far away, from
//! which rounding comes back magnified. On an arc of 500 mm that rises 1 µm the centre form misses the end point by some 1e-8 mm, these formulas
//! not at all; and lyon's length is that of chords. See the test below.

use super::{Point, Segment};

/// The bulge of the arc from `from` along unit `tangent` to `to`.
pub(super) fn bulge_along(from: Point, tangent: Point, to: Point) -> f64 {
    let chord = to - from;
    // The chord turns by half the included angle from the tangent.
    let half = tangent.perp(&chord).atan2(tangent.dot(&chord));
    (0.5 * half).tan()
}

/// Centre and radius of an arc; `None` for a line and for an arc without length.
pub(super) fn circle(from: Point, to: Point, bulge: f64) -> Option<(Point, f64)> {
    let chord = to - from;
    let b = bulge;
    if b == 0.0 || chord.norm_squared() == 0.0 {
        return None;
    }
    // The centre lies (1 - b²)/(4b) chords to the left of the middle.
    let left = Point::new(-chord.y, chord.x);
    let centre = (from + to) * 0.5 + left * ((1.0 - b * b) / (4.0 * b));
    Some((centre, chord.norm() * (1.0 + b * b) / (4.0 * b.abs())))
}

/// Length of an arc, mm.
pub(super) fn length(from: Point, to: Point, bulge: f64) -> f64 {
    let chord = (to - from).norm();
    // Radius times angle, with a series where that would divide 0 by 0.
    let b = bulge.abs();
    let stretch = if b < 1e-4 {
        1.0 + b * b * (2.0 / 3.0)
    } else {
        (1.0 + b * b) / b * b.atan()
    };
    chord * stretch
}

/// The point of an arc at a share (0 to 1) of its length.
pub(super) fn point(from: Point, to: Point, bulge: f64, share: f64) -> Point {
    let chord = to - from;
    let half = 2.0 * bulge.atan();
    if half.sin().abs() < 1e-12 {
        return from + chord * share;
    }
    // The chord to the point is sin(share·half)/sin(half) long, turned back by (1 - share)·half.
    let (sin, cos) = ((share - 1.0) * half).sin_cos();
    let turned = Point::new(cos * chord.x - sin * chord.y, sin * chord.x + cos * chord.y);
    turned * ((share * half).sin() / half.sin()) + from
}

/// The two arcs from `p` along unit `s` to `q` along unit `t`, joined with a common tangent, the first tangent length `ratio`
/// times the second; `None` when the points coincide or an arc would turn by more than half a circle.
///
/// Bolton, *Biarc curves*, Computer-Aided Design 7, 1975.
pub(super) fn biarc(
    (p, s): (Point, Point),
    (q, t): (Point, Point),
    ratio: f64,
) -> Option<[Segment; 2]> {
    let v = q - p;
    let square = v.norm_squared();
    let along = v.dot(&(s * ratio + t));
    let spread = 2.0 * ratio * (1.0 - s.dot(&t)).max(0.0);
    // d solves spread·d² + 2·along·d − v² = 0; this form of the root has no cancellation for along > 0.
    let root = (along * along + spread * square).sqrt();
    let d = if along > 0.0 {
        square / (along + root)
    } else if spread > 1e-12 {
        (root - along) / spread
    } else {
        return None;
    };
    if !(d.is_finite() && d > 0.0) {
        return None;
    }
    let joint = ((p + s * (ratio * d)) + (q - t * d) * ratio) / (1.0 + ratio);
    let first = bulge_along(p, s, joint);
    // The second arc seen from its end, where the tangent is known.
    let second = -bulge_along(q, -t, joint);
    let fine = first.abs() <= 1.0 && second.abs() <= 1.0;
    fine.then(|| [Segment::curved(joint, first), Segment::curved(q, second)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::path::Primitive;

    /// What the page says of lyon's arcs, measured: their ends and lengths on slight arcs, against those by bulge.
    #[test]
    fn a_slight_arc_keeps_its_ends_and_length() {
        let (from, to) = (Point::new(300.0, 40.0), Point::new(800.0, 52.0));
        let chord = (to - from).norm();
        let mut worst = 0.0_f64;
        for rise in [1e-3, 5e-4] {
            let bulge = 2.0 * rise / chord;
            let by_bulge = point(from, to, bulge, 1.0);
            assert!((by_bulge - to).norm() < 1e-12);
            let Primitive::Arc(arc) = Segment::curved(to, bulge).primitive(from) else {
                unreachable!("an arc");
            };
            let end = arc.to();
            worst = worst.max((Point::new(end.x, end.y) - to).norm());
            // Chord and 8/3 rise²/chord, to the next term of the series.
            let exact = chord + 8.0 / 3.0 * rise * rise / chord;
            assert!((length(from, to, bulge) - exact).abs() < 1e-12);
        }
        assert!(worst > 1e-9 && worst < 1e-6, "{worst}");
    }
}
