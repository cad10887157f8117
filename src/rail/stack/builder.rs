//! A stack that is being built: its courses so far and where the next one stands.

use super::hints::StackHints;
use crate::design::{Arrangement, Construction};
use crate::geometry::curve::Vector;
use crate::rail::constants::{DECK_GAP, DECK_LAND, LEAST_FORE};
use crate::rail::course::Course;
use crate::rail::frame::{SquareFrame, square};
use crate::rail::plane_context::StackPlane;
use crate::shape::SkinFace;

pub(super) struct StackBuilder<'a> {
    pub plane: &'a StackPlane,
    pub c: &'a Construction,
    pub hints: StackHints<'a>,
    /// Courses at most.
    pub most: usize,
    pub courses: Vec<Course>,
    /// Whether the last course stands off the guide because its base would have been planed too steeply.
    pub held_off_guide: bool,
    /// See [`Stack::required_outer_edge`](super::Stack::required_outer_edge).
    pub required_outer_edge: Option<f64>,
}

impl<'a> StackBuilder<'a> {
    pub fn new(
        plane: &'a StackPlane,
        c: &'a Construction,
        hints: StackHints<'a>,
        most: usize,
    ) -> Self {
        Self {
            plane,
            c,
            hints,
            most,
            courses: Vec::new(),
            held_off_guide: false,
            required_outer_edge: None,
        }
    }

    /// What the next course stands on: of starters side by side the outermost.
    pub fn carrier(&self) -> Option<&Course> {
        match self.c.starter.arrangement {
            Arrangement::SideBySide if self.courses.len() <= self.c.starter.count => {
                self.courses.first()
            }
            _ => self.courses.last(),
        }
    }

    /// The lean that the hints have for course `index`.
    pub fn lean(&self, index: usize) -> Option<f64> {
        self.hints.leans.get(index).copied().flatten()
    }

    /// The course below, if its head lies off the guide: it leans otherwise, or has been aimed at the deck, past which there is no
    /// guide to follow.
    fn off_guide(&self, v: f64) -> Option<&Course> {
        let (index, below) = (self.courses.len().checked_sub(1)?, self.courses.last()?);
        let past = self.plane.goal.is_some_and(|(goal, _)| v >= goal);
        (past || self.held_off_guide || self.lean(index).is_some()).then_some(below)
    }

    /// Where the next course stands.
    pub fn foot(&self, v: f64) -> Vector<2> {
        if let (Arrangement::SideBySide, Some(stand), Some(outer)) = (
            self.c.starter.arrangement,
            self.hints.stand,
            self.courses.first(),
        ) && self.courses.len() == self.c.starter.count
        {
            let outer = outer.body();
            return outer.frame.plane(Vector::<2>::new(stand, outer.rise));
        }
        self.off_guide(v)
            .map_or_else(|| self.plane.guide.point(v), |below| below.body().head)
    }

    /// Whether the deck lands on what the next course would stand on.
    pub fn reaches_deck(&self) -> bool {
        let carrier = self.carrier();
        carrier.is_some_and(|course| reaches(course, &self.plane.faces[1], self.plane.depth))
    }

    /// Direction of the next course, which starts at guide parameter `v`.
    pub fn direction(&self, v: f64) -> Vector<3> {
        self.hinted_direction()
            .unwrap_or_else(|| towards_nose(self.plane.guide.fore(v)))
    }

    /// The direction that the hints have for the next course.
    pub fn hinted_direction(&self) -> Option<Vector<3>> {
        let along = self.hints.directions.get(self.courses.len());
        along.copied().flatten().map(towards_nose)
    }

    /// The frame lying on the bottom skin's inner face, `out` along the face.
    pub fn skin_frame(&self, along: Vector<3>) -> SquareFrame {
        let face = &self.plane.faces[0];
        let out = square(face.outboard, &along).normalize();
        SquareFrame {
            origin: face.land,
            along,
            up: along.cross(&out),
            out,
        }
    }
}

/// Whether the deck lands on `course`: from [`DECK_LAND`] inboard to the finished surface its top is at or above the deck's inner face.
///
/// A bead counts with its rounding: what it leaves open at its shoulders, no further course could fill, whose lips would be shavings.
pub(super) fn reaches(course: &Course, deck: &SkinFace, depth: f64) -> bool {
    let body = course.body();
    let half = body.thickness / 2.0;
    let (inboard, bead) = match course {
        Course::Starter { .. } => (half, 0.0),
        Course::BeadOnly { shoulder, .. } | Course::BeadAndCove { shoulder, .. } => {
            (DECK_LAND * half, shoulder.hypot(half))
        }
    };
    [-inboard, depth.min(half)].iter().all(|&out| {
        let top = body.rise + (bead * bead - out * out).max(0.0).sqrt();
        deck.inside(&body.frame.plane(Vector::<2>::new(out, top))) <= DECK_GAP
    })
}

/// The direction, turned towards the nose until it holds [`LEAST_FORE`].
pub(super) fn towards_nose(along: Vector<3>) -> Vector<3> {
    let across = along.y.hypot(along.z);
    if along.x >= LEAST_FORE || across < 1e-12 {
        return along;
    }
    let share = (1.0 - LEAST_FORE * LEAST_FORE).sqrt() / across;
    Vector::<3>::new(LEAST_FORE, along.y * share, along.z * share)
}
