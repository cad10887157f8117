//! Paths as chords within a tolerance.

use super::segment::{CentreArc, lyon_cubic};
use super::{Path, Point, Segment};

impl Path {
    /// Points along the path whose chords lie within `tolerance` mm of it, first and last point included;
    /// a closed path repeats its start. Arcs are divided evenly, cubics by lyon.
    pub fn flatten(&self, tolerance: f64) -> Vec<Point> {
        let tolerance = if tolerance.is_finite() {
            tolerance.max(1e-9)
        } else {
            f64::MAX
        };
        let mut points = vec![self.start];
        for (from, segment) in self.pieces() {
            match *segment {
                Segment::Line { to } => points.push(to),
                Segment::Arc { to, bulge } => {
                    if let Some(arc) = CentreArc::new(from, to, bulge) {
                        let count = chord_count(&arc, tolerance);
                        for i in 1..count {
                            points.push(arc.at(f64::from(i) / f64::from(count)));
                        }
                    }
                    points.push(to);
                }
                Segment::Cubic { c1, c2, to } => {
                    lyon_cubic(from, c1, c2, to).for_each_flattened(tolerance, &mut |line| {
                        points.push(Point::new(line.to.x, line.to.y));
                    });
                    if let Some(last) = points.last_mut() {
                        *last = to;
                    }
                }
            }
        }
        points
    }
}

/// Chords needed so that none has a sagitta above `tolerance`; never fewer than one a quarter turn.
fn chord_count(arc: &CentreArc, tolerance: f64) -> u32 {
    let ratio = (1.0 - tolerance / arc.radius).clamp(-1.0, 1.0);
    let step = (2.0 * ratio.acos()).min(std::f64::consts::FRAC_PI_2);
    let count = (arc.sweep.abs() / step - 1e-9).ceil();
    // A step of zero, from a tolerance lost against the radius, would ask for endless chords.
    if count.is_finite() {
        count.clamp(1.0, 1e6) as u32
    } else {
        1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flattened_circle_keeps_within_tolerance_and_uses_it() {
        for tolerance in [1.0, 0.1, 0.01] {
            let points = Path::circle(Point::origin(), 50.0).flatten(tolerance);
            let worst = points
                .windows(2)
                .map(|w| 50.0 - nalgebra::center(&w[0], &w[1]).coords.norm())
                .fold(0.0, f64::max);
            assert!(worst <= tolerance, "{worst} over {tolerance}");
            assert!(worst > tolerance / 3.0, "{worst} wastes {tolerance}");
        }
    }
}
