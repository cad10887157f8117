//! Strips cut by a plane of constant x.

use super::courses::{Course, Kind, Stack};
use super::frame::SquareFrame;
use super::profile::{Profile, profile};
use crate::curve::Vector;
use crate::design::Construction;

/// One strip's exact cross-section where a plane of constant x cuts it.
///
/// The profile (lines and true arcs) lies in the plane square to the strip; the frame carries it along the strip into the cutting plane,
/// where an arc of an oblique strip becomes an arc of an ellipse.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseSlice {
    /// What the strip is.
    pub kind: Kind,
    /// Index of the course.
    pub course: usize,
    /// Profile before the top is planed.
    pub profile: Profile,
    /// Its axes.
    pub frame: SquareFrame,
}

/// The slices of every strip of `stack`.
pub fn slices(stack: &Stack, construction: &Construction) -> Vec<CourseSlice> {
    let slice = |(index, course): (usize, &Course)| CourseSlice {
        kind: course.kind,
        course: index,
        profile: profile(
            course.kind,
            &construction.strip,
            &construction.starter,
            course.rise,
            -course.bevel.tan(),
        ),
        frame: course.frame,
    };
    stack.courses.iter().enumerate().map(slice).collect()
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

    /// The slice as left after the top is planed to the deck's inner face (and the starter to the bottom's).
    ///
    /// The half-planes of the faces beyond their land lines cut the polygon (Sutherland & Hodgman, 1974).
    pub fn planed(&self, stack: &Stack, tolerance: f64) -> Vec<Vector<2>> {
        let mut polygon = self.polygon(tolerance);
        for face in &stack.faces {
            polygon = clip(&polygon, |p| face.inside(p));
        }
        polygon
    }
}

/// The part of a polygon where `inside` is not negative; `inside` is taken as linear along each edge.
fn clip(polygon: &[Vector<2>], inside: impl Fn(&Vector<2>) -> f64) -> Vec<Vector<2>> {
    let mut out = Vec::with_capacity(polygon.len() + 2);
    for (i, a) in polygon.iter().enumerate() {
        let b = &polygon[(i + 1) % polygon.len()];
        let (fa, fb) = (inside(a), inside(b));
        if fa >= 0.0 {
            out.push(*a);
        }
        if (fa < 0.0) != (fb < 0.0) && fa != fb {
            let t = fa / (fa - fb);
            if t > 1e-12 && t < 1.0 - 1e-12 {
                out.push(a + (b - a) * t);
            }
        }
    }
    out
}
