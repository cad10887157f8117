//! From plank to strip, machine by machine, with sizes to set and calipers to check.

use super::cautions::Caution;
use super::machine::Machine;
use super::profile::Profiles;
use super::router::{RouterSetup, bead_cutter, cove_cutter};
use super::{Shop, StockError};
use crate::rail::CourseKind;
use serde::Serialize;

/// A size and the readings that pass.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Window {
    /// What the machine is set to, mm.
    pub nominal: f64,
    /// Least reading that passes, mm.
    pub least: f64,
    /// Greatest reading that passes, mm.
    pub greatest: f64,
}

impl Window {
    fn new(nominal: f64, under: f64, over: f64) -> Self {
        Self {
            nominal,
            least: nominal - under,
            greatest: nominal + over,
        }
    }

    /// Whether a caliper reading, mm, passes. Calipers read 0.05 (common practice), so half of that is granted.
    pub fn passes(&self, reading: f64) -> bool {
        reading >= self.least - 0.025 && reading <= self.greatest + 0.025
    }
}

/// One step at one machine.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// The machine and what it does.
    pub machine: Machine,
    /// What to do, in a sentence.
    pub task: &'static str,
    /// Size before, mm, in the direction worked; `None` where it is the plank's own.
    pub before: Option<f64>,
    /// Size after, and the check.
    pub after: Option<Window>,
    /// Setting of the moulding cutter.
    pub router: Option<RouterSetup>,
    /// Cautions that belong beside this machine.
    pub cautions: Vec<Caution>,
}

impl Step {
    /// Softening, the last step of strips that are bent so.
    pub fn softening() -> Self {
        Self {
            machine: Machine::Soften,
            task: "Soak or steam each strip just before it is bent, clamp it to the frame, and let it dry there before it is glued; try a spare first.",
            before: None,
            after: None,
            router: None,
            cautions: Caution::at(Machine::Soften),
        }
    }
}

/// How one profile is milled.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MillingPlan {
    /// The profile's kind.
    pub kind: CourseKind,
    /// Thickness of the leaf as sawn, mm.
    pub leaf: f64,
    /// Width of the strip as ripped, mm.
    pub ripped: f64,
    /// Finished thickness and width, mm.
    pub finished: [f64; 2],
    /// Height a course of it gains, mm.
    pub pitch: f64,
    /// Steps in order; those a profile skips are left out.
    pub steps: Vec<Step>,
}

/// Rough thickness of the leaf and rough width of the strip, mm, that a kind is cut from.
pub fn rough(profiles: &Profiles, shop: &Shop, kind: CourseKind) -> [f64; 2] {
    let [thickness, width] = profiles.finished(kind);
    let a = &shop.allowances;
    match kind {
        CourseKind::Starter if profiles.laminations(kind) > 1 => {
            [thickness + a.sand_leaf, width + a.sand_square]
        }
        CourseKind::Starter => [thickness + a.sand_square, width + a.sand_square],
        _ => [thickness + a.sand_leaf, width + a.mould],
    }
}

/// The milling plan of `kind`.
///
/// The caliper windows are common practice, no published source: leaves and squares as sawn may be half a millimetre under, strips as
/// ripped 0.2 mm; sanded faces 0.1 mm either way; moulded widths read up to 0.1 mm under and not over.
///
/// # Errors
///
/// [`StockError::Value`] from [`Profiles::check`] and [`Shop::check`].
pub fn milling_plan(
    profiles: &Profiles,
    shop: &Shop,
    kind: CourseKind,
) -> Result<MillingPlan, StockError> {
    profiles.check()?;
    shop.check()?;
    let [leaf, ripped] = rough(profiles, shop, kind);
    let finished = profiles.finished(kind);
    let step = |machine, task, before, after| Step {
        machine,
        task,
        before,
        after,
        router: None,
        cautions: Caution::at(machine),
    };
    let mut steps = vec![
        step(
            Machine::Dress,
            "Plane one face and one edge true; mark both.",
            None,
            None,
        ),
        step(
            Machine::Resaw,
            "Saw thin boards off, dressed face to the fence; dress the sawn face again if it wanders.",
            None,
            Some(Window::new(leaf, 0.5, 0.5)),
        ),
    ];
    let sand_leaves = step(
        Machine::SandLeaf,
        "Sand both faces of every resawn board to thickness, all boards at each setting.",
        Some(leaf),
        Some(Window::new(finished[0], 0.1, 0.1)),
    );
    if kind == CourseKind::Starter {
        let laminated = profiles.laminations(kind) > 1;
        let [rip, sand] = if laminated {
            [
                "Rip resawn boards into laminations, dressed edge to the fence.",
                "Sand the sawn edges to width, a starter's laminations on edge together; they are glued to each other on the frame.",
            ]
        } else {
            [
                "Rip resawn boards into square starters, dressed edge to the fence.",
                "Sand to size both ways, a little off each face in turn; no moulding.",
            ]
        };
        if laminated {
            steps.push(sand_leaves);
        }
        let window = Some(Window::new(ripped, 0.5, 0.0));
        steps.push(step(Machine::Rip, rip, None, window));
        let window = Some(Window::new(finished[1], 0.1, 0.1));
        steps.push(step(Machine::SandSquare, sand, Some(ripped), window));
    } else {
        steps.push(sand_leaves);
        steps.push(step(
            Machine::Rip,
            "Rip resawn boards into strips, dressed edge to the fence.",
            None,
            Some(Window::new(ripped, 0.2, 0.0)),
        ));
        // The cove's edge is trued by half the allowance; a bead-only strip has all of it taken at the bead.
        let coved = kind == CourseKind::BeadAndCove;
        let mould = shop.allowances.mould;
        let bead = if coved { mould / 2.0 } else { mould };
        steps.push(Step {
            router: Some(bead_cutter(profiles, bead)),
            ..step(
                Machine::MouldBead,
                "Round one edge of every strip, bead first; try the setting on waste of the same thickness.",
                Some(ripped),
                Some(Window::new(ripped - bead, 0.1, 0.0)),
            )
        });
        if coved {
            steps.push(Step {
                router: Some(cove_cutter(profiles, mould - bead)),
                ..step(
                    Machine::MouldCove,
                    "Hollow the other edge, the bead held in a coved fence; measure lip plane to crown.",
                    Some(ripped - bead),
                    Some(Window::new(finished[1], 0.1, 0.0)),
                )
            });
        }
    }
    Ok(MillingPlan {
        kind,
        leaf,
        ripped,
        finished,
        pitch: profiles.pitch(kind),
        steps,
    })
}
