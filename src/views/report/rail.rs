//! The rail in a few numbers: the worst of everything, and where.

use serde::Serialize;

use crate::board::Board;
use crate::rail::{Margin, Margins, Stack};

/// The worst value of something, and where it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Worst {
    /// The value, mm or degrees.
    pub value: f64,
    /// Place, mm from the tail.
    pub x: f64,
    /// Number of the nearest rib.
    pub rib: Option<usize>,
    /// Number of the course from the bottom skin, starting with 1.
    pub course: usize,
}

/// The worst of each thing a rail is judged by; nothing where there are no such joints.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Worsts {
    /// Greatest roll of a joint, degrees either way.
    pub roll: Option<Worst>,
    /// Greatest depth to which a lip digs in, mm.
    pub dig_in: Option<Worst>,
    /// Widest joint, mm.
    pub mouth_gap: Option<Worst>,
    /// Steepest base that is planed, degrees either way.
    pub bevel: Option<Worst>,
    /// Least wood behind the finished rail, mm.
    pub cover: Option<Worst>,
    /// Least stock proud of the finished rail, mm.
    pub proud: Option<Worst>,
}

/// The rail's summary.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RailReport {
    /// Depth of the guide under the finished surface, mm.
    pub guide_depth: f64,
    /// Wood asked for behind the finished rail, mm.
    pub cover_asked: f64,
    /// Stock asked for outside the finished rail, mm.
    pub proud_asked: f64,
    /// Height one nested strip gains, mm.
    pub pitch: f64,
    /// The worst at the ribs' centre planes.
    pub at_ribs: Worsts,
    /// The worst in any plane from block to block.
    pub anywhere: Worsts,
}

impl RailReport {
    /// Summarises the rail of `board`.
    pub(super) fn new(board: &Board) -> Self {
        let c = &board.design.construction;
        let mut at_ribs = Worsts::default();
        for rib in &board.ribs {
            let margins = board.rail.at(rib.x).and_then(|found| found.1);
            at_ribs.take(&rib.stack, margins, Some(rib.number));
        }
        let mut anywhere = Worsts::default();
        for (stack, margins) in board.rail.stacks.iter().zip(&board.rail.margins) {
            let nearest = board
                .ribs
                .iter()
                .min_by(|a, b| (a.x - stack.x).abs().total_cmp(&(b.x - stack.x).abs()));
            anywhere.take(stack, margins.as_ref(), nearest.map(|rib| rib.number));
        }
        Self {
            guide_depth: board.rail.depth,
            cover_asked: c.cover,
            proud_asked: c.proud,
            pitch: c.strip.pitch(),
            at_ribs,
            anywhere,
        }
    }
}

impl Worsts {
    fn take(&mut self, stack: &Stack, margins: Option<&Margins>, rib: Option<usize>) {
        let worst = |value: f64, index: usize| Worst {
            value,
            x: stack.x,
            rib,
            course: index + 1,
        };
        for (i, course) in stack.courses.iter().enumerate() {
            if let Some(joint) = course.joint() {
                greater(&mut self.roll, worst(joint.roll.abs().to_degrees(), i));
                greater(&mut self.dig_in, worst(joint.dig_in, i));
                greater(&mut self.mouth_gap, worst(joint.mouth_gap, i));
            } else {
                greater(&mut self.bevel, worst(course.bevel().abs().to_degrees(), i));
            }
        }
        if let Some(margins) = margins {
            let margin = |m: Margin| worst(m.least, m.course);
            less(&mut self.cover, margin(margins.cover));
            less(&mut self.proud, margin(margins.proud));
        }
    }
}

/// Keeps the greater; of equal ones the first.
fn greater(slot: &mut Option<Worst>, new: Worst) {
    if slot.is_none_or(|old| new.value > old.value) {
        *slot = Some(new);
    }
}

fn less(slot: &mut Option<Worst>, new: Worst) {
    if slot.is_none_or(|old| new.value < old.value) {
        *slot = Some(new);
    }
}
