//! Where a spine that is longer than the sheet is divided, and how its pieces are joined.

use super::edges::Edges;
use super::relief::slot_bite;
use crate::design::SpineJoint;
use crate::design::finding::{Change, Code, Finding, Part};
use crate::geometry::path::{Path, Point, Segment};
use std::f64::consts::PI;

/// Radius of a key's head over the spine's height (house rule).
const HEAD: f64 = 0.2;
/// Half the neck's width over the head's radius: the head is two thirds wider than its neck (house rule).
const NECK: f64 = 0.6;
/// Least wood above and below a key's shoulders, mm.
const SHOULDER: f64 = 3.0;
/// Least wood between a joint and a slot's bites, mm.
const CLEAR: f64 = 5.0;
/// Length of a scarf over the thickness: 8 at least (common in boat-building).
const SCARF: f64 = 8.0;
/// Pieces at most.
const MOST: usize = 12;
/// Places tried along the spine are this far apart, mm.
const STEP: f64 = 2.0;

/// A key: a round head on a narrower neck, of one piece with the spine's after part, that drops sideways into a socket of the fore
/// part and cannot be drawn out along the spine.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct SpineKey {
    /// Where the after piece's upright end lies, mm from the tail.
    pub x: f64,
    /// Height of the key's middle, mm.
    pub z: f64,
    /// Radius of the head, mm.
    pub head: f64,
    /// Radius of the hollows between neck and end, mm.
    pub fillet: f64,
    /// Half the neck's width, mm.
    pub neck: f64,
    /// Distance between tongue and socket, mm.
    pub gap: f64,
}

/// A joint between two pieces of the spine.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[non_exhaustive]
pub enum PieceJoint {
    /// A key locked in a socket.
    Key(SpineKey),
    /// A slope through the thickness, glued face to face.
    Scarf {
        /// Its middle, mm from the tail.
        x: f64,
        /// Its length, mm.
        length: f64,
    },
}

impl SpineKey {
    /// Key for a spine of `height` about `z` at `x`; `None` where there is no room for one with hollows that the cutter reaches.
    fn new(x: f64, z: f64, height: f64, cutter: f64, gap: f64) -> Option<Self> {
        let head = HEAD * height;
        // The socket's convex parts are the tongue's hollows less the gap; the tongue's hollows take the cutter.
        let fillet = (head / 2.0).max(cutter + gap);
        let neck = NECK * head;
        let key = Self {
            x,
            z,
            head,
            fillet,
            neck,
            gap,
        };
        (key.shoulder() + SHOULDER <= height / 2.0 && head >= cutter).then_some(key)
    }

    /// Half the distance of the points where the hollows leave the end, mm.
    pub fn shoulder(&self) -> f64 {
        self.neck + self.fillet
    }

    /// Distance of the head's centre from the end, mm.
    pub fn reach(&self) -> f64 {
        let both = self.head + self.fillet;
        self.fillet + (both * both - self.shoulder().powi(2)).sqrt()
    }

    /// Length of the key over the end, head included, mm.
    pub fn length(&self) -> f64 {
        self.reach() + self.head
    }

    /// The contour from the end's foot over its lower shoulder and round the head to its upper shoulder, moved outward by `out`.
    pub(super) fn upward(&self, out: f64) -> Vec<Segment> {
        let (head, fillet) = (self.head + out, self.fillet - out);
        // From a hollow's centre to the head's; they touch on the way.
        let (run, rise) = (self.reach() - self.fillet, self.shoulder());
        let slope = rise.atan2(run);
        let share = fillet / (head + fillet);
        let touch = |side: f64| {
            Point::new(
                self.x + self.fillet + run * share,
                self.z + side * rise * (1.0 - share),
            )
        };
        let shoulder = |side: f64| Point::new(self.x + out, self.z + side * rise);
        // Both hollows turn clockwise, and the head back by as much.
        let hollow = -((PI - slope) / 4.0).tan();
        let round = ((PI - slope) / 2.0).tan();
        vec![
            Segment::Line { to: shoulder(-1.0) },
            Segment::Arc {
                to: touch(-1.0),
                bulge: hollow,
            },
            Segment::Arc {
                to: touch(1.0),
                bulge: round,
            },
            Segment::Arc {
                to: shoulder(1.0),
                bulge: hollow,
            },
        ]
    }

    /// As [`upward`](Self::upward), from the top down.
    pub(super) fn downward(&self, out: f64) -> Vec<Segment> {
        let up = Path {
            start: Point::new(self.x + out, self.z - self.shoulder() - 1.0),
            segments: self.upward(out),
            closed: false,
        };
        let mut down = up.reversed();
        // The line down to the foot is the contour's own.
        down.segments.pop();
        let mut segments = vec![Segment::Line { to: down.start }];
        segments.extend(down.segments);
        segments
    }
}

impl PieceJoint {
    /// From and to where it reaches along the spine, mm from the tail.
    pub fn range(&self) -> [f64; 2] {
        match *self {
            Self::Key(key) => [key.x, key.x + key.length() + key.gap],
            Self::Scarf { x, length } => [x - length / 2.0, x + length / 2.0],
        }
    }
}

/// The spine's ends and joints.
pub(super) struct Plan {
    pub ends: [f64; 2],
    pub joints: Vec<PieceJoint>,
    pub finding: Option<Finding>,
}

/// Joints of a spine between `ends`: as few as the sheet allows, evenly spread, each moved to where it clears the slots.
pub(super) fn plan(edges: &Edges<'_>, ends: [f64; 2]) -> Plan {
    let sheet = edges.c.frame.sheet;
    let done = |joints, finding| Plan {
        ends,
        joints,
        finding,
    };
    if ends[1] - ends[0] <= sheet.length {
        return done(Vec::new(), None);
    }
    if let Some(joints) = divided(edges, ends, sheet.joint) {
        return done(joints, None);
    }
    let finding = |code| Finding::new(code, Part::Spine).measured(ends[1] - ends[0], sheet.length);
    match divided(edges, ends, SpineJoint::Scarf) {
        Some(joints) if sheet.joint == SpineJoint::Key => done(
            joints,
            Some(finding(Code::SpineScarfed).remedies([
                Change::ScarfSpine,
                Change::SmallerCutter(None),
                Change::WiderRibSpacing,
            ])),
        ),
        _ => done(
            Vec::new(),
            Some(
                finding(Code::SpineUndivided)
                    .remedies([Change::LongerSheet, Change::WiderRibSpacing]),
            ),
        ),
    }
}

fn divided(edges: &Edges<'_>, ends: [f64; 2], kind: SpineJoint) -> Option<Vec<PieceJoint>> {
    let most = edges.c.frame.sheet.length;
    let whole = ends[1] - ends[0];
    let least = (whole / most).ceil() as usize;
    (least.max(2)..=MOST).find_map(|count| {
        let joints: Option<Vec<PieceJoint>> = (1..count)
            .map(|k| ends[0] + whole * k as f64 / count as f64)
            .map(|x| nearest(edges, ends, kind, x, whole / count as f64 / 2.0))
            .collect();
        let joints = joints?;
        // Each piece reaches from the start of one joint to the end of the next.
        let starts = std::iter::once(ends[0]).chain(joints.iter().map(|j| j.range()[0]));
        let stops = joints.iter().map(|j| j.range()[1]).chain([ends[1]]);
        let fit = starts.zip(stops).all(|(from, to)| to - from <= most);
        fit.then_some(joints)
    })
}

/// The joint nearest to `x` that clears slots and ends, no farther than `most` from it.
fn nearest(
    edges: &Edges<'_>,
    ends: [f64; 2],
    kind: SpineJoint,
    x: f64,
    most: f64,
) -> Option<PieceJoint> {
    let steps = (most / STEP) as usize;
    (0..=2 * steps).find_map(|i| {
        // 0, +1, −1, +2, −2 and so on.
        let away = STEP * i.div_ceil(2) as f64;
        let x = if i % 2 == 1 { x + away } else { x - away };
        let joint = at(edges, kind, x)?;
        clear(edges, ends, &joint).then_some(joint)
    })
}

/// The joint of this kind at `x`.
fn at(edges: &Edges<'_>, kind: SpineJoint, x: f64) -> Option<PieceJoint> {
    let c = edges.c;
    match kind {
        SpineJoint::Scarf => Some(PieceJoint::Scarf {
            x,
            length: SCARF * c.spine,
        }),
        SpineJoint::Key => {
            let (low, high) = (edges.bottom.point(x).y, edges.deck.point(x).y);
            let gap = c.slot_clearance / 2.0;
            SpineKey::new(x, (low + high) / 2.0, high - low, c.frame.cutter / 2.0, gap)
                .map(PieceJoint::Key)
        }
    }
}

/// Whether a joint keeps off slots and ends.
fn clear(edges: &Edges<'_>, ends: [f64; 2], joint: &PieceJoint) -> bool {
    let c = edges.c;
    let [from, to] = joint.range();
    let slot = (c.rib + c.slot_clearance) / 2.0 + slot_bite(c) + CLEAR;
    let off = |x: f64| to + slot <= x || x + slot <= from;
    from >= ends[0] + CLEAR && to <= ends[1] - CLEAR && edges.ribs.iter().all(|r| off(r.x))
}
