//! The stack of courses in one plane of constant x, built from the bottom skin up.
//!
//! In: the plane with its guide ([`StackPlane`](super::plane_context::StackPlane)) and what the whole board says of the courses there
//! ([`StackHints`]). Out: a [`Stack`]. Start with [`stack`].

mod bevelled;
mod builder;
mod coved;
mod head;
mod hints;
mod side_by_side;
mod stacked;

use std::sync::Arc;

pub(super) use hints::StackHints;

use super::constants::MOST_COURSES;
use super::course::Course;
use super::plane_context::StackPlane;
use crate::design::{Arrangement, Construction};
use crate::shape::SkinFace;
use builder::{StackBuilder, reaches};

/// The rail's stack in one plane: starters (outermost or lowest first), the bead-only strip, bead-and-cove strips.
#[derive(Debug, Clone, PartialEq)]
pub struct Stack {
    /// The plane, mm from the tail.
    pub x: f64,
    /// Inner faces of bottom and deck skin.
    pub faces: Arc<[SkinFace; 2]>,
    /// The courses from the bottom skin up.
    pub courses: Vec<Course>,
    /// Angle at which the top is planed for the deck, radians from square to the top strip; positive where the outer side is
    /// the lower.
    pub top_bevel: Option<f64>,
    /// Whether the deck lands on the top course.
    pub reaches_deck: bool,
    /// Whether the guide meets the deck at or below the starters' tops, so that they fill the rail by themselves.
    pub starters_suffice: bool,
    /// How far out the finished surface requires starters side by side to go: where their outer face leaves the bottom skin, y in mm.
    pub(super) required_outer_edge: Option<f64>,
}

/// Builds the stack in `plane`.
pub(super) fn stack(plane: &StackPlane, c: &Construction, hints: &StackHints) -> Stack {
    stack_up_to(plane, c, hints, MOST_COURSES)
}

/// As [`stack`], of no more than the lowest `most` courses: how they lie does not depend on those above. Starters side by side are all laid.
pub(super) fn stack_up_to(
    plane: &StackPlane,
    c: &Construction,
    hints: &StackHints,
    most: usize,
) -> Stack {
    let mut builder = StackBuilder::new(plane, c, *hints, most.min(MOST_COURSES));
    let suffice = lay_courses(&mut builder);
    let StackBuilder {
        courses,
        required_outer_edge,
        ..
    } = builder;
    let carrier = courses
        .iter()
        .rev()
        .find(|k| k.is_moulded() || c.starter.arrangement == Arrangement::Stacked);
    let top = carrier.or(courses.first());
    let deck = &plane.faces[1];
    let top_bevel = top.map(|top| {
        let frame = &top.body().frame;
        let slope = frame.local(frame.origin + deck.outboard);
        -slope.y.atan2(slope.x)
    });
    let reaches_deck = top.is_some_and(|top| reaches(top, deck, plane.depth));
    Stack {
        x: plane.x,
        faces: plane.faces.clone(),
        courses,
        top_bevel,
        reaches_deck,
        starters_suffice: suffice,
        required_outer_edge,
    }
}

/// Starters, then moulded strips until the deck lands on them; whether the starters fill the rail by themselves.
fn lay_courses(builder: &mut StackBuilder<'_>) -> bool {
    let v = match builder.c.starter.arrangement {
        Arrangement::SideBySide => builder.lay_starters_side_by_side(),
        Arrangement::Stacked => builder.lay_starters_stacked(),
    };
    let Some(mut v) = v else { return false };
    if builder.plane.goal.is_some_and(|(goal, _)| v >= goal) {
        return true;
    }
    // At the centre plane it would meet the other rail's.
    let half = builder.c.strip.thickness / 2.0;
    while builder.courses.len() < builder.most
        && !builder.reaches_deck()
        && builder.foot(v).x > half
    {
        let Some(next) = builder.lay_strip(v) else {
            break;
        };
        v = next;
    }
    false
}
