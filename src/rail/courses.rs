//! The stack of strips in one plane of constant x.

use std::sync::Arc;

use serde::Serialize;

use super::frame::{SquareFrame, square, square_distance};
use super::joint::{Joint, joint};
use crate::design::{Arrangement, Construction};
use crate::geometry::curve::Vector;
use crate::shape::{PlaneLine, SkinFace};

/// What a course is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A square starter.
    Starter,
    /// Flat under, rounded on top.
    BeadOnly,
    /// Hollowed under, rounded on top.
    BeadAndCove,
}

/// One strip where it passes the plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// What it is.
    pub kind: Kind,
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
    /// Angle to which a flat base is planed, radians, positive where the strip leans outboard of what it stands on.
    pub bevel: f64,
    /// The joint with the coved strip's neighbour below.
    pub joint: Option<Joint>,
    /// Height of the square shoulders over the head, mm.
    pub(super) shoulder: f64,
    /// Height of the lips beside the cove over the foot, mm; 0 with a flat base.
    pub(super) lip: f64,
    /// Share of its width below the deck, where the guide turns it: 0 where it runs out.
    pub(super) left: f64,
    /// Thickness of starters lying inboard of this one, mm.
    pub(super) backing: f64,
}

/// The cut of everything the rail is built between, in one plane.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Plane {
    pub x: f64,
    /// Inner faces of bottom and deck.
    pub faces: Arc<[SkinFace; 2]>,
    /// The finished section from land to land.
    pub finished: Arc<PlaneLine>,
    /// The guide: the surface moved inward by `depth`.
    pub guide: PlaneLine,
    /// Where the guide meets the deck's inner face: parameter and point.
    pub goal: Option<(f64, Vector<2>)>,
    pub depth: f64,
}

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
    pub closed: bool,
    /// Whether the guide meets the deck at or below the starters' tops, so that they fill the rail by themselves.
    pub filled: bool,
    /// How far out the finished surface asks starters abreast to go: where their outer face leaves the bottom skin, y in mm.
    pub(super) asked: Option<f64>,
}

/// How starters lie.
pub type Starters = Arrangement;

/// A course reaches the deck when its top lies at most this far, mm, below the deck's inner face: within the 0.3 mm that a bearing may gape, since
/// a further course would be planed away.
const REACHED: f64 = 0.25;
/// Share of half its thickness, inboard of its middle, over which a moulded strip must carry the deck.
const LAND: f64 = 0.9;
const MAX_COURSES: usize = 60;
/// Steepest bevel of a flat base, tan 60°: the planed base is then twice as wide as the strip is thick, and no plane held on it finds the strip's side
/// (common practice, no published source).
const STEEPEST: f64 = 1.732_050_807_568_877_2;
/// Share of its longer side that a bevel may take from the shorter one, so that a strip keeps both: past 45° a square starter would be a wedge.
const TAKEN: f64 = 0.95;
/// Least part of a strip's direction that points along the board: cos 75°. What runs more squarely across is no strip of the rail.
const FORE: f64 = 0.258_819_045_102_520_76;

/// What is known of the courses beforehand, from the bottom up.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Given<'a> {
    /// Their directions; else the guide's.
    pub along: &'a [Option<Vector<3>>],
    /// How they lean (see [`Course::lean`]); else as the guide has it.
    pub lean: &'a [Option<f64>],
    /// How far outboard of the middle of starters abreast, of the outermost, the first moulded strip stands, mm; else on the guide.
    pub stand: Option<f64>,
    /// The outer face of starters abreast where it leaves the bottom skin, y in mm; else as far out as the finished surface asks here.
    pub edge: Option<f64>,
}

/// Builds the stack in `plane`.
pub(super) fn stack(plane: &Plane, c: &Construction, given: &Given) -> Stack {
    let deck = &plane.faces[1];
    let mut builder = Builder {
        plane,
        c,
        given: *given,
        courses: Vec::new(),
        filled: false,
        turned: false,
        asked: None,
    };
    builder.build();
    let Builder {
        courses,
        filled,
        asked,
        ..
    } = builder;
    let carrier = courses
        .iter()
        .rev()
        .find(|k| k.kind != Kind::Starter || c.starter.arrangement == Arrangement::Stacked);
    let top = carrier.or(courses.first());
    let top_bevel = top.map(|top| {
        let slope = top.frame.local(top.frame.origin + deck.outboard);
        -slope.y.atan2(slope.x)
    });
    let closed = top.is_some_and(|top| reached(top, deck, plane.depth));
    Stack {
        x: plane.x,
        faces: plane.faces.clone(),
        courses,
        top_bevel,
        closed,
        filled,
        asked,
    }
}

/// Whether the deck lands on `course`: from [`LAND`] inboard to the finished surface its top is at or above the deck's inner face.
///
/// A bead counts with its rounding: what it leaves open at its shoulders, no further course could fill, whose lips would be shavings.
fn reached(course: &Course, deck: &SkinFace, depth: f64) -> bool {
    let half = course.thickness / 2.0;
    let (inboard, bead) = match course.kind {
        Kind::Starter => (half, 0.0),
        Kind::BeadOnly | Kind::BeadAndCove => (LAND * half, course.shoulder.hypot(half)),
    };
    [-inboard, depth.min(half)].iter().all(|&out| {
        let top = course.rise + (bead * bead - out * out).max(0.0).sqrt();
        deck.inside(&course.frame.plane(Vector::<2>::new(out, top))) <= REACHED
    })
}

struct Builder<'a> {
    plane: &'a Plane,
    c: &'a Construction,
    given: Given<'a>,
    courses: Vec<Course>,
    /// Whether the guide meets the deck at or below the starters' tops, so that they fill the rail by themselves.
    filled: bool,
    /// Whether the last course stands off the guide because its base would have been planed too steeply.
    turned: bool,
    /// See [`Stack::asked`].
    asked: Option<f64>,
}

/// A course's head.
struct Head {
    /// The guide's parameter nearest to it.
    v: f64,
    /// (y, z), mm.
    point: Vector<2>,
    /// See [`Course::left`].
    left: f64,
}

impl Builder<'_> {
    fn build(&mut self) {
        let v = match self.c.starter.arrangement {
            Arrangement::SideBySide => self.abreast(),
            Arrangement::Stacked => self.stacked(),
        };
        let Some(mut v) = v else { return };
        self.filled = self.plane.goal.is_some_and(|(goal, _)| v >= goal);
        if self.filled {
            return;
        }
        // At the centre plane it would meet the other rail's.
        let half = self.c.strip.thickness / 2.0;
        while self.courses.len() < MAX_COURSES && !self.done() && self.foot(v).x > half {
            let Some(next) = self.strip(v) else { return };
            v = next;
        }
    }

    /// What the next course stands on: of starters abreast the outermost.
    fn carrier(&self) -> Option<&Course> {
        match self.c.starter.arrangement {
            Arrangement::SideBySide if self.courses.len() <= self.c.starter.count => {
                self.courses.first()
            }
            _ => self.courses.last(),
        }
    }

    /// The lean given for course `index`.
    fn lean(&self, index: usize) -> Option<f64> {
        self.given.lean.get(index).copied().flatten()
    }

    /// The course below, if its head lies off the guide: it leans otherwise, or has been aimed at the deck, past which there is no
    /// guide to follow.
    fn off_guide(&self, v: f64) -> Option<&Course> {
        let (index, below) = (self.courses.len().checked_sub(1)?, self.courses.last()?);
        let past = self.plane.goal.is_some_and(|(goal, _)| v >= goal);
        (past || self.turned || self.lean(index).is_some()).then_some(below)
    }

    /// Where the next course stands.
    fn foot(&self, v: f64) -> Vector<2> {
        if let (Arrangement::SideBySide, Some(stand), Some(outer)) = (
            self.c.starter.arrangement,
            self.given.stand,
            self.courses.first(),
        ) && self.courses.len() == self.c.starter.count
        {
            return outer.frame.plane(Vector::<2>::new(stand, outer.rise));
        }
        self.off_guide(v)
            .map_or_else(|| self.plane.guide.point(v), |below| below.head)
    }

    fn done(&self) -> bool {
        let carrier = self.carrier();
        carrier.is_some_and(|course| reached(course, &self.plane.faces[1], self.plane.depth))
    }

    /// Direction of the next course, which starts at guide parameter `v`.
    fn direction(&self, v: f64) -> Vector<3> {
        self.known_direction()
            .unwrap_or_else(|| fore(self.plane.guide.fore(v)))
    }

    /// The direction given for the next course.
    fn known_direction(&self) -> Option<Vector<3>> {
        let along = self.given.along.get(self.courses.len());
        along.copied().flatten().map(fore)
    }

    /// The frame lying on the bottom skin's inner face, `out` along the face.
    fn skin_frame(&self, along: Vector<3>) -> SquareFrame {
        let face = &self.plane.faces[0];
        let out = square(face.outboard, &along).normalize();
        SquareFrame {
            origin: face.land,
            along,
            up: along.cross(&out),
            out,
        }
    }

    /// Starters side by side, flat on the skin. Gives the guide's parameter at the height of their tops.
    fn abreast(&mut self) -> Option<f64> {
        let size = self.c.starter.size;
        let guide = &self.plane.guide;
        if guide.is_empty() {
            return None;
        }
        let along = match self.known_direction() {
            Some(along) => along,
            None => fore(guide.fore(guide.last_rise(|p| self.plane.faces[0].inside(p) - size)?)),
        };
        let skin = self.skin_frame(along);
        let height = |p: &Vector<2>| skin.local(*p).y;
        let v = guide.last_rise(|p| height(p) - size)?;
        let reach = self.starter_reach(&skin)?;
        // Along the skin, y is in proportion to the distance.
        let [from, by] = [0.0, 1.0].map(|out| skin.plane(Vector::<2>::new(out, 0.0)).x);
        self.asked = Some(from + reach * (by - from));
        let outer = match self.given.edge {
            Some(y) => (y - from) / (by - from),
            None => reach,
        };
        for i in 0..self.c.starter.count {
            let middle = outer - size * (i as f64 + 0.5);
            let foot = skin.plane(Vector::<2>::new(middle, 0.0));
            let course = Course {
                kind: Kind::Starter,
                foot,
                head: skin.plane(Vector::<2>::new(middle, size)),
                rise: size,
                frame: SquareFrame {
                    origin: foot,
                    ..skin
                },
                thickness: size,
                bevel: 0.0,
                joint: None,
                shoulder: 0.0,
                lip: 0.0,
                left: 0.0,
                backing: if i == 0 {
                    size * (self.c.starter.count - 1) as f64
                } else {
                    0.0
                },
            };
            self.courses.push(course);
        }
        Some(v)
    }

    /// How far out along the skin the outer face of starters abreast must lie to be proud of the finished surface, square to that.
    ///
    /// Below the starters' top the distance is that from the face, above it that from the face's upper edge.
    fn starter_reach(&self, skin: &SquareFrame) -> Option<f64> {
        let (size, finished) = (self.c.starter.size, &self.plane.finished);
        let across = |d: &Vector<2>| skin.local(skin.origin + d);
        let height = |p: &Vector<2>| skin.local(*p).y;
        let mut places = vec![finished.start(), finished.end()];
        for border in [0.0, size] {
            finished.crossings(|p, _| height(p) - border, &mut places);
        }
        finished.crossings(|_, t| across(t).x, &mut places);
        // Where a circle of that radius about the edge touches the section.
        let proud = self.c.proud;
        let room = |p: &Vector<2>| (proud * proud - (height(p) - size).powi(2)).max(0.0).sqrt();
        let touch = |p: &Vector<2>, t: &Vector<2>| {
            let t = across(t);
            t.x * room(p) - t.y * (height(p) - size)
        };
        finished.crossings(touch, &mut places);
        let reach = |v: f64| {
            let (point, slant) = (finished.point(v), finished.cosine(v, &skin.along));
            let p = skin.local(point);
            let (proud, over) = (proud / slant.max(0.1), (p.y - size).max(0.0));
            // A place found on the border may lie beyond it by a rounding.
            (p.y >= -1e-9 && over <= proud).then(|| p.x + (proud * proud - over * over).sqrt())
        };
        places.into_iter().filter_map(reach).max_by(f64::total_cmp)
    }

    /// Starters one on the other, each turned to the guide. Gives the guide's parameter at the top of the last.
    fn stacked(&mut self) -> Option<f64> {
        let guide = &self.plane.guide;
        if guide.is_empty() {
            return None;
        }
        let mut v = guide.last_rise(|p| self.plane.faces[0].inside(p))?;
        for _ in 0..self.c.starter.count {
            if self.done() {
                break;
            }
            let along = self.direction(v);
            let below = self
                .courses
                .last()
                .map_or_else(|| self.skin_frame(along), |b| b.frame);
            let (size, half) = (self.c.starter.size, self.c.starter.size / 2.0);
            v = self.flat(v, Kind::Starter, along, &below, size, half)?;
        }
        Some(v)
    }

    /// A course with a flat base planed to stand on `below`; the bevel costs it half its thickness times the tangent.
    ///
    /// It turns no further from `below` than a base can be planed: its head then leaves the guide, which the margins show.
    fn flat(
        &mut self,
        v: f64,
        kind: Kind,
        along: Vector<3>,
        below: &SquareFrame,
        height: f64,
        half: f64,
    ) -> Option<f64> {
        let foot = self.foot(v);
        let slope = |p: &Vector<2>| {
            let up = square(p - foot, &along);
            up.dot(&below.out) / up.dot(&below.up).max(1e-9 * up.norm())
        };
        let shoulder = if kind == Kind::Starter {
            0.0
        } else {
            self.c.strip.springing()
        };
        let steepest = STEEPEST.min(TAKEN * (height + shoulder) / (2.0 * half));
        let rise = |p: &Vector<2>| {
            let rise = height - half * slope(p).abs().min(steepest);
            rise.max(0.25 * height)
        };
        let mut head = self.head(v, &along, rise)?;
        self.turned = slope(&head.point).abs() > steepest;
        if self.turned {
            let ray = ray(below, &along, steepest.copysign(slope(&head.point)))?;
            head.point = foot + ray * rise(&(foot + ray));
            let guide = &self.plane.guide;
            let level = guide.first_rise(v, |p| (p - head.point).dot(&ray));
            head.v = level.unwrap_or_else(|| guide.end());
        }
        self.courses.push(Course {
            kind,
            foot,
            head: head.point,
            rise: square_distance(head.point - foot, &along),
            frame: SquareFrame::new(foot, head.point, along),
            thickness: 2.0 * half,
            bevel: slope(&head.point).atan(),
            joint: None,
            shoulder,
            lip: 0.0,
            left: head.left,
            backing: 0.0,
        });
        Some(head.v)
    }

    /// Head of a course whose foot is at guide parameter `v`: as it leans, or else the guide's next point at the distance `rise` square to
    /// the strip.
    ///
    /// A strip that would pass the deck's inner face is aimed at where the guide meets that face instead, since only the
    /// part below it stays; following the guide on would turn it over for nothing. As that part shrinks to nothing, where
    /// the strip runs out, it comes to stand straight on the one below, so that strips do not kink there.
    fn head(&self, v: f64, along: &Vector<3>, rise: impl Fn(&Vector<2>) -> f64) -> Option<Head> {
        let guide = &self.plane.guide;
        let foot = self.foot(v);
        let unit = |d: Vector<2>| d / square_distance(d, along).max(1e-12);
        // Along one ray the bevel, and so the rise of a flat base, is the same.
        let on = |ray: Vector<2>| foot + ray * rise(&(foot + ray));
        if let Some(lean) = self.lean(self.courses.len()) {
            let ray = unit(Vector::<2>::new(-lean.sin(), lean.cos()));
            let point = on(ray);
            let level = guide.first_rise(v, |p| (p - point).dot(&ray));
            return Some(Head {
                v: level.unwrap_or_else(|| guide.end()),
                point,
                left: 1.0,
            });
        }
        let short = |p: &Vector<2>| {
            let d = square_distance(p - foot, along);
            if d <= 1e-9 { -1.0 } else { d - rise(p) }
        };
        let on_guide = guide.first_rise(v, short).map(|v| Head {
            v,
            point: guide.point(v),
            left: 1.0,
        });
        let Some((goal, point)) = self
            .plane
            .goal
            .filter(|g| on_guide.as_ref().is_none_or(|head| head.v > g.0))
        else {
            return on_guide;
        };
        let left = if goal > v {
            square_distance(point - foot, along)
        } else {
            0.0
        };
        let straight = self.carrier().map(|below| unit(below.head - below.foot));
        // The less of the strip is left, the less it turns.
        let share = (left / rise(&point)).min(1.0);
        let turn = if straight.is_some() {
            share * share * (3.0 - 2.0 * share)
        } else {
            1.0
        };
        let aim = if left > 1e-9 {
            unit(point - foot)
        } else {
            Vector::zeros()
        };
        let ray = unit(aim * turn + straight.unwrap_or_default() * (1.0 - turn));
        Some(Head {
            v: v.max(goal),
            point: on(ray),
            left: share,
        })
    }

    /// The next moulded strip, its foot at guide parameter `v`.
    fn strip(&mut self, v: f64) -> Option<f64> {
        let strip = &self.c.strip;
        let along = self.direction(v);
        let below = self.carrier();
        let on = below.map_or_else(|| self.skin_frame(along), |b| b.frame);
        if below.is_none_or(|b| b.kind == Kind::Starter) {
            let height = strip.width - strip.bead_radius;
            return self.flat(v, Kind::BeadOnly, along, &on, height, strip.thickness / 2.0);
        }
        let foot = self.foot(v);
        let pitch = strip.pitch();
        let head = self.head(v, &along, |_| pitch)?;
        let frame = SquareFrame::new(foot, head.point, along);
        let roll = (-frame.up.dot(&on.out)).atan2(frame.up.dot(&on.up));
        self.courses.push(Course {
            kind: Kind::BeadAndCove,
            foot,
            head: head.point,
            rise: pitch,
            frame,
            thickness: strip.thickness,
            bevel: 0.0,
            joint: Some(joint(strip, roll)),
            shoulder: strip.springing(),
            lip: strip.lip_height(),
            left: head.left,
            backing: 0.0,
        });
        Some(head.v)
    }
}

/// The direction, turned towards the nose until it holds [`FORE`].
fn fore(along: Vector<3>) -> Vector<3> {
    let across = along.y.hypot(along.z);
    if along.x >= FORE || across < 1e-12 {
        return along;
    }
    let share = (1.0 - FORE * FORE).sqrt() / across;
    Vector::<3>::new(FORE, along.y * share, along.z * share)
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

impl Course {
    /// The course's inner face in the plane: from its foot to its shoulder, (y, z), mm.
    pub fn inner_face(&self) -> [Vector<2>; 2] {
        let half = self.thickness / 2.0;
        let base = if self.kind == Kind::BeadAndCove {
            0.0
        } else {
            -half * self.bevel.tan()
        };
        [base, self.rise + self.shoulder].map(|up| self.frame.plane(Vector::<2>::new(-half, up)))
    }

    /// Half way from foot to head, in the plane at `x` it belongs to.
    pub(super) fn middle(&self, x: f64) -> Vector<3> {
        let middle = (self.foot + self.head) / 2.0;
        Vector::<3>::new(x, middle.x, middle.y)
    }

    /// How far it stands off the upright in the plane, radians, positive inboard.
    pub fn lean(&self) -> f64 {
        let ray = self.head - self.foot;
        (-ray.x).atan2(ray.y)
    }

    /// Angle between the strip and the plane's normal, radians.
    pub fn obliquity(&self) -> f64 {
        self.frame.along.x.clamp(-1.0, 1.0).acos()
    }
}
