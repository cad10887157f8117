//! A course: one strip where it passes a plane of constant x.

use serde::Serialize;

use super::frame::SquareFrame;
use super::joint::StripJoint;
use crate::geometry::curve::Vector;

/// What a course is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CourseKind {
    /// A square starter.
    Starter,
    /// Flat under, rounded on top.
    BeadOnly,
    /// Hollowed under, rounded on top.
    BeadAndCove,
}

/// What courses of every kind have: where they lie and how large they are.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseBody {
    /// Middle of its base, or the centre of the bead it sits on: (y, z), mm.
    pub foot: Vector<2>,
    /// Its bead's centre (a starter: the middle of its top): (y, z), mm.
    pub head: Vector<2>,
    /// From foot to head square to the strip, mm.
    pub rise: f64,
    /// Its axes at the foot.
    pub frame: SquareFrame,
    /// Thickness across the rail, mm.
    pub thickness: f64,
    /// Fraction of its height that stays below the deck, where the guide turns it: 0 where it runs out.
    pub(super) remaining: f64,
}

/// One strip where it passes the plane.
#[derive(Debug, Clone, PartialEq)]
pub enum Course {
    /// A square starter.
    Starter {
        /// Place and size.
        body: CourseBody,
        /// Angle to which the base is planed, radians, positive where the strip leans outboard of what it stands on.
        bevel: f64,
        /// Thickness of the starters side by side that lie inboard of this one, mm.
        backing: f64,
    },
    /// Flat under, rounded on top.
    BeadOnly {
        /// Place and size.
        body: CourseBody,
        /// Angle to which the base is planed, radians, positive where the strip leans outboard of what it stands on.
        bevel: f64,
        /// Height of the square shoulders over the head, mm.
        shoulder: f64,
    },
    /// Hollowed under, rounded on top.
    BeadAndCove {
        /// Place and size.
        body: CourseBody,
        /// The joint with the strip below.
        joint: StripJoint,
        /// Height of the lips beside the cove over the foot, mm.
        lip: f64,
        /// Height of the square shoulders over the head, mm.
        shoulder: f64,
    },
}

impl Course {
    /// What it is made of.
    pub fn kind(&self) -> CourseKind {
        match self {
            Self::Starter { .. } => CourseKind::Starter,
            Self::BeadOnly { .. } => CourseKind::BeadOnly,
            Self::BeadAndCove { .. } => CourseKind::BeadAndCove,
        }
    }

    /// Where it lies and how large it is.
    pub fn body(&self) -> &CourseBody {
        match self {
            Self::Starter { body, .. }
            | Self::BeadOnly { body, .. }
            | Self::BeadAndCove { body, .. } => body,
        }
    }

    pub(super) fn body_mut(&mut self) -> &mut CourseBody {
        match self {
            Self::Starter { body, .. }
            | Self::BeadOnly { body, .. }
            | Self::BeadAndCove { body, .. } => body,
        }
    }

    /// Whether it is moulded: every course but a starter.
    pub fn is_moulded(&self) -> bool {
        self.kind() != CourseKind::Starter
    }

    /// Angle to which its base is planed, radians, positive where it leans outboard of what it stands on; 0 of a coved strip, which turns on
    /// the bead below.
    pub fn bevel(&self) -> f64 {
        match self {
            Self::Starter { bevel, .. } | Self::BeadOnly { bevel, .. } => *bevel,
            Self::BeadAndCove { .. } => 0.0,
        }
    }

    /// A coved strip's joint with the strip below.
    pub fn joint(&self) -> Option<StripJoint> {
        match self {
            Self::BeadAndCove { joint, .. } => Some(*joint),
            Self::Starter { .. } | Self::BeadOnly { .. } => None,
        }
    }

    /// Height of its square shoulders over the head, mm; 0 of a starter, whose head is its top.
    pub fn shoulder(&self) -> f64 {
        match self {
            Self::BeadOnly { shoulder, .. } | Self::BeadAndCove { shoulder, .. } => *shoulder,
            Self::Starter { .. } => 0.0,
        }
    }

    /// Whether further starters lie inboard of it, side by side.
    pub(super) fn has_backing(&self) -> bool {
        matches!(self, Self::Starter { backing, .. } if *backing > 0.0)
    }

    /// Height over the foot at which the face on the side `out` (mm outboard of the middle, inboard negative) begins.
    pub(super) fn base(&self, out: f64) -> f64 {
        out * self.bevel().tan()
    }

    /// The course's inner face in the plane: from its foot to its shoulder, (y, z), mm.
    pub fn inner_face(&self) -> [Vector<2>; 2] {
        let body = self.body();
        let half = body.thickness / 2.0;
        [self.base(-half), body.rise + self.shoulder()].map(|up| body.inner(up))
    }

    /// What of the inner face is wood: from the base, or the lip beside a cove, to the shoulder.
    pub fn inner_wood(&self) -> [Vector<2>; 2] {
        let [foot, shoulder] = self.inner_face();
        let low = match self {
            Self::BeadAndCove { body, lip, .. } => body.inner(*lip),
            Self::Starter { .. } | Self::BeadOnly { .. } => foot,
        };
        [low, shoulder]
    }

    /// As [`inner_face`](Self::inner_face), up to the height of the head, where the next strip's foot is.
    pub(super) fn rested_face(&self) -> [Vector<2>; 2] {
        let [foot, _] = self.inner_face();
        [foot, self.body().inner(self.body().rise)]
    }

    /// How far it stands off the upright in the plane, radians, positive inboard.
    pub fn lean(&self) -> f64 {
        let ray = self.body().head - self.body().foot;
        (-ray.x).atan2(ray.y)
    }

    /// Angle between the strip and the plane's normal, radians.
    pub fn obliquity(&self) -> f64 {
        self.body().frame.along.x.clamp(-1.0, 1.0).acos()
    }

    /// The course a share `t` of the way to where it passes another plane.
    pub(super) fn towards(&self, other: &Self, t: f64) -> Self {
        let mut course = self.clone();
        *course.body_mut() = self.body().towards(other.body(), t);
        if let Self::Starter { bevel, .. } | Self::BeadOnly { bevel, .. } = &mut course {
            *bevel = number(*bevel, other.bevel(), t);
        }
        course
    }
}

impl CourseBody {
    /// Half way from foot to head, in the plane at `x` it belongs to.
    pub(super) fn middle(&self, x: f64) -> Vector<3> {
        let middle = (self.foot + self.head) / 2.0;
        Vector::<3>::new(x, middle.x, middle.y)
    }

    /// The point of the inner face's plane at a height over the foot, mm.
    pub(super) fn inner(&self, height: f64) -> Vector<2> {
        self.frame
            .plane(Vector::<2>::new(-self.thickness / 2.0, height))
    }

    /// Its axes moved up to its bead's centre.
    pub(super) fn bead(&self) -> SquareFrame {
        SquareFrame {
            origin: self.head,
            ..self.frame
        }
    }

    fn towards(&self, other: &Self, t: f64) -> Self {
        let (a, b) = (&self.frame, &other.frame);
        Self {
            foot: self.foot.lerp(&other.foot, t),
            head: self.head.lerp(&other.head, t),
            rise: number(self.rise, other.rise, t),
            frame: SquareFrame {
                origin: a.origin.lerp(&b.origin, t),
                along: a.along.lerp(&b.along, t),
                up: a.up.lerp(&b.up, t),
                out: a.out.lerp(&b.out, t),
            },
            ..*self
        }
    }
}

fn number(a: f64, b: f64, t: f64) -> f64 {
    a + (b - a) * t
}
