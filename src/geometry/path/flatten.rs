//! Paths as chords within a tolerance.

use super::segment::ours;
use super::{Path, Point, Primitive};
use lyon_geom::Arc;

impl Path {
    /// Points along the path whose chords lie within `tolerance` mm of it, first and last point included;
    /// a closed path repeats its start. Arcs are divided evenly (lyon leaves a short last chord), cubics by lyon.
    pub fn flatten(&self, tolerance: f64) -> Vec<Point> {
        let tolerance = if tolerance.is_finite() {
            tolerance.max(1e-9)
        } else {
            f64::MAX
        };
        let mut points = vec![self.start];
        for (from, segment) in self.pieces() {
            match segment.primitive(from) {
                Primitive::Line(_) => points.push(segment.to()),
                Primitive::Arc(arc) => {
                    let count = chord_count(&arc, tolerance);
                    for i in 1..count {
                        points.push(ours(arc.sample(f64::from(i) / f64::from(count))));
                    }
                    points.push(segment.to());
                }
                Primitive::Cubic(cubic) => {
                    cubic.for_each_flattened(tolerance, &mut |line| points.push(ours(line.to)));
                    if let Some(last) = points.last_mut() {
                        *last = segment.to();
                    }
                }
            }
        }
        points
    }
}

/// Chords needed so that none has a sagitta above `tolerance`; never fewer than one a quarter turn.
fn chord_count(arc: &Arc<f64>, tolerance: f64) -> u32 {
    let ratio = (1.0 - tolerance / arc.radii.x).clamp(-1.0, 1.0);
    let step = (2.0 * ratio.acos()).min(std::f64::consts::FRAC_PI_2);
    let count = (arc.sweep_angle.radians.abs() / step - 1e-9).ceil();
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
            let points = Path::circle(Point::zeros(), 50.0).flatten(tolerance);
            let worst = points
                .windows(2)
                .map(|w| 50.0 - (w[0] + w[1]).norm() / 2.0)
                .fold(0.0, f64::max);
            assert!(worst <= tolerance, "{worst} over {tolerance}");
            assert!(worst > tolerance / 3.0, "{worst} wastes {tolerance}");
        }
    }
}
