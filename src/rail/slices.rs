//! Strips cut by a plane of constant x.

use super::course::CourseKind;
use super::frame::SquareFrame;
use super::profile::{Profile, profile};
use super::stack::Stack;
use crate::design::Construction;
use crate::geometry::curve::Vector;
use crate::geometry::polygon;

/// One strip's exact cross-section where a plane of constant x cuts it.
///
/// The profile (lines and true arcs) lies in the plane square to the strip; the frame carries it along the strip into the cutting plane,
/// where an arc of an oblique strip becomes an arc of an ellipse.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseSlice {
    /// What the strip is.
    pub kind: CourseKind,
    /// Index of the course.
    pub course: usize,
    /// Profile before the top is planed.
    pub profile: Profile,
    /// Its axes.
    pub frame: SquareFrame,
}

/// The slices of every strip of `stack`.
pub fn slices(stack: &Stack, construction: &Construction) -> Vec<CourseSlice> {
    let every = 0..stack.courses.len();
    every
        .filter_map(|course| slice(stack, course, construction))
        .collect()
}

/// The slice of one strip of `stack`, by the index of its course.
pub fn slice(stack: &Stack, course: usize, construction: &Construction) -> Option<CourseSlice> {
    let section = stack.courses.get(course)?;
    Some(CourseSlice {
        kind: section.kind(),
        course,
        profile: profile(section, &construction.strip),
        frame: section.body().frame,
    })
}

impl CourseSlice {
    /// The slice as a polygon in the cutting plane, within `tolerance` mm of the exact slice before planing.
    ///
    /// Obliquity stretches the profile's chord errors by at most 1 / cos α, which is allowed for.
    pub fn polygon(&self, tolerance: f64) -> Vec<Vector<2>> {
        let stretch = self.frame.along.x.abs().max(1e-3);
        let flat = self.profile.flatten(tolerance * stretch);
        flat.into_iter().map(|p| self.frame.plane(p)).collect()
    }

    /// What remains of the slice after the top is planed to the deck's inner face (and the starter to the bottom's); empty if nothing
    /// does. The faces count as straight on from their land lines.
    pub fn planed(&self, stack: &Stack, tolerance: f64) -> Vec<Vector<2>> {
        // Far enough to hold any rail.
        const FAR: f64 = 2000.0;
        let mut remainder = Some(self.polygon(tolerance));
        for face in stack.faces.iter() {
            let (along, inward) = (face.outboard * FAR, face.normal() * FAR);
            let half_plane = [
                face.land - along,
                face.land + along,
                face.land + along + inward,
                face.land - along + inward,
            ];
            remainder = remainder.and_then(|polygon| polygon::intersection(&polygon, &half_plane));
        }
        remainder.unwrap_or_default()
    }
}
