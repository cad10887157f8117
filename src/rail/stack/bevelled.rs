//! Courses with a flat base, planed to stand on what lies below.

use super::builder::StackBuilder;
use crate::geometry::curve::Vector;
use crate::rail::constants::{BEVEL_SHARE, LEAST_RISE, STEEPEST_BEVEL};
use crate::rail::course::{Course, CourseBody};
use crate::rail::frame::{SquareFrame, square, square_distance};

/// Which course has the flat base.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum FlatBase {
    Starter,
    BeadOnly,
}

impl StackBuilder<'_> {
    /// A course with a flat base planed to stand on `below`; the bevel costs it half its thickness times the tangent.
    ///
    /// It turns no further from `below` than a base can be planed: its head then leaves the guide, which the margins show.
    pub fn lay_bevelled(
        &mut self,
        v: f64,
        base: FlatBase,
        along: Vector<3>,
        below: &SquareFrame,
    ) -> Option<f64> {
        let strip = &self.c.strip;
        // Height of the head over the foot before the base is planed.
        let (height, half, shoulder) = match base {
            FlatBase::Starter => (self.c.starter.size, self.c.starter.size / 2.0, 0.0),
            FlatBase::BeadOnly => (
                strip.width - strip.bead_radius,
                strip.thickness / 2.0,
                strip.springing(),
            ),
        };
        let foot = self.foot(v);
        let slope = |p: &Vector<2>| {
            let up = square(p - foot, &along);
            up.dot(&below.out) / up.dot(&below.up).max(1e-9 * up.norm())
        };
        let steepest = STEEPEST_BEVEL.min(BEVEL_SHARE * (height + shoulder) / (2.0 * half));
        let rise = |p: &Vector<2>| {
            let rise = height - half * slope(p).abs().min(steepest);
            rise.max(LEAST_RISE * height)
        };
        let mut head = self.head(v, &along, rise)?;
        self.held_off_guide = slope(&head.point).abs() > steepest;
        if self.held_off_guide {
            let ray = ray(below, &along, steepest.copysign(slope(&head.point)))?;
            head.point = foot + ray * rise(&(foot + ray));
            let guide = &self.plane.guide;
            let level = guide.first_rise(v, |p| (p - head.point).dot(&ray));
            head.v = level.unwrap_or_else(|| guide.end());
        }
        let bevel = slope(&head.point).atan();
        let body = CourseBody {
            foot,
            head: head.point,
            rise: square_distance(head.point - foot, &along),
            frame: SquareFrame::new(foot, head.point, along),
            thickness: 2.0 * half,
            remaining: head.remaining,
        };
        self.courses.push(match base {
            FlatBase::Starter => Course::Starter {
                body,
                bevel,
                backing: 0.0,
            },
            FlatBase::BeadOnly => Course::BeadOnly {
                body,
                bevel,
                shoulder,
            },
        });
        Some(head.v)
    }
}

/// The direction (y, z) in the plane, of unit length square to `along`, in which a strip stands whose base is planed by `slope` for `below`.
fn ray(below: &SquareFrame, along: &Vector<3>, slope: f64) -> Option<Vector<2>> {
    // Square to the strip it has to be square to this.
    let q = below.out - below.up * slope;
    let q = q - along * along.dot(&q);
    let ray = Vector::<2>::new(-q.z, q.y);
    let up = square(ray, along);
    let length = up.norm();
    (length > 1e-9).then(|| ray / length.copysign(up.dot(&below.up)))
}
