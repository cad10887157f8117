//! From a design to everything that follows from it.
//!
//! In: a [`Design`]. Out: a [`Board`], which runs all wings below in their order and adds what needs them all: what it weighs ([`mass`]) and how
//! it lies in the water ([`afloat`]).
//!
//! Start with [`Board::new`].

pub mod afloat;
pub mod mass;

use std::cell::RefCell;

use crate::board::afloat::{FloatState, Load, float_findings, float_states};
use crate::board::mass::{BoardParts, Mass};
use crate::design::finding::{Finding, by_severity};
use crate::design::{Construction, Design};
use crate::frame::bed::{BuildingBed, bed};
use crate::frame::blocks::{Block, blocks};
use crate::frame::pads::{FittingKind, Pads, pads};
use crate::frame::{FrameError, KeepOut, Rib, Spine, lighten, planes, ribs, spine};
use crate::geometry::curve::CurveError;
use crate::rail::{Rail, RailContext, RailLimits, RailProblem, Strip, rail_findings, strips};
use crate::shape::{
    BoardFamily, DEFAULT_TOLERANCE, Measures, Shell, ShellError, loft, measures, shape_findings,
};
use crate::wood::skin::Panels;
use crate::wood::strip_work::{RailWood, unjudged};

/// Why a board could not be made of a design.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BoardError {
    /// The shell could not be lofted.
    #[error(transparent)]
    Shell(#[from] ShellError),
    /// The frame could not be drawn.
    #[error(transparent)]
    Frame(#[from] FrameError),
    /// A strip's path could not be fitted.
    #[error("the strips' paths could not be drawn: {0}")]
    Strips(CurveError),
}

/// A board: every value that a design leads to, each made from the ones before it.
#[derive(Debug, Clone, PartialEq)]
pub struct Board {
    /// What the maker decided.
    pub design: Design,
    /// The exact curves and sections.
    pub family: BoardFamily,
    /// The lofted shell.
    pub shell: Shell,
    /// Its measures.
    pub measures: Measures,
    /// Skins and finished section in the rail's planes, for solving the rail with other strips.
    pub rail_context: RailContext,
    /// The rail along the whole board.
    pub rail: Rail,
    /// The starboard rail's strips along the board.
    pub strips: Vec<Strip>,
    /// The ribs, from the tail.
    pub ribs: Vec<Rib>,
    /// The spine.
    pub spine: Spine,
    /// The wood its rail takes.
    pub rail_wood: RailWood,
    /// The solid end blocks, tail first; one is missing where the skins leave no room for it.
    pub blocks: Vec<Block>,
    /// Fins, leash plug and vent with their pads.
    pub pads: Pads,
    /// The building bed.
    pub bed: BuildingBed,
    /// Bottom and deck skin as panels.
    pub panels: Panels,
    /// What it weighs.
    pub mass: Mass,
    /// How it lies in sea and fresh water.
    pub float_states: Vec<FloatState>,
    /// What is wrong with it or worth knowing, but for strips and wood, whose remedies must be tried: see [`Board::findings`].
    pub quick_findings: Vec<Finding>,
}

/// Most planes of a rail beside those of the ribs: half a millimetre apart on the longest board.
pub const MOST_PLANES: f64 = 9000.0;

/// Spacing of the planes, mm, in which the rail is solved between ribs.
const RAIL_STEP: f64 = 10.0;

impl Board {
    /// Solves everything.
    pub fn new(design: Design) -> Result<Self, BoardError> {
        let family = BoardFamily::new(&design)?;
        let shell = loft(&family, DEFAULT_TOLERANCE)?;
        let measures = measures(&shell)?;
        let mut findings = shape_findings(&design, &shell, &measures);
        let planes = rail_planes(&design, RAIL_STEP);
        let rail_context = RailContext::new(&shell, &design.construction, &planes)?;
        let rail = RailProblem::new(&shell, &rail_context, &design.construction).solve()?;
        let strips = strips(&rail).map_err(BoardError::Strips)?;
        let (ribs, of_ribs) = ribs(&design, &rail)?;
        let (spine, of_spine) = spine(&shell, &design, &ribs)?;
        let blocks = blocks(&shell, &design);
        let (pads, clashes) = pads(&shell, &family, &design, &rail, &ribs, &blocks);
        let (ribs, spine, sealed) = lighten(
            &design.construction,
            ribs,
            spine,
            &under_pads(&pads),
            vent(&pads),
        )?;
        let c = &design.construction;
        let of_rail = rail_findings(&shell, &rail_context, c, &rail, &RailLimits::default())?;
        let rail_wood = RailWood::new(&design, &strips);
        let bed = bed(&shell, &design);
        let (panels, of_skins) = Panels::new(&design, &shell);
        let mass = Mass::new(&BoardParts {
            design: &design,
            shell: &shell,
            rail: &rail,
            strips: &strips,
            ribs: &ribs,
            spine: &spine,
            panels: &panels,
            blocks: &blocks,
            pads: &pads,
        })?;
        let alone = Load {
            mass: mass.total,
            centre: mass.centre,
        };
        let rider = design.rider.map(|rider| {
            let x = rider.x.unwrap_or(measures.centre_of_volume[0]);
            Load {
                mass: rider.mass,
                centre: [x, shell.centre_heights(x)[1] + rider.height],
            }
        });
        let float_states = float_states(&shell, alone, rider)?;
        findings.extend(of_ribs);
        findings.extend(of_spine);
        findings.extend(sealed);
        findings.extend(of_rail);
        findings.extend(unjudged(&design, &rail_wood.strips, &strips));
        findings.extend(of_skins);
        findings.extend(clashes);
        findings.extend(float_findings(&float_states));
        Ok(Self {
            design,
            family,
            shell,
            measures,
            rail_context,
            rail,
            strips,
            ribs,
            spine,
            rail_wood,
            blocks,
            pads,
            bed,
            panels,
            mass,
            float_states,
            quick_findings: by_severity(findings),
        })
    }
}

impl Board {
    /// Everything that is wrong with it or worth knowing, each once: errors first, then warnings, then notes.
    ///
    /// Takes as long as [`Board::strip_findings`].
    pub fn findings(&self) -> Vec<Finding> {
        let mut findings = self.quick_findings.clone();
        findings.extend(self.strip_findings());
        by_severity(findings)
    }

    /// What of its strips and their wood passes a limit or cannot be had, with changes that serve, the easiest first.
    ///
    /// Sections that are offered are tried with the rail solved again: where strips pass a limit this takes several times as long as all the rest.
    pub fn strip_findings(&self) -> Vec<Finding> {
        // Findings share their trials: the rail does not depend on the wood.
        let tried: RefCell<Vec<(Construction, Option<Vec<Strip>>)>> = RefCell::default();
        let lay = |c: &Construction| {
            let problem = RailProblem::new(&self.shell, &self.rail_context, c);
            strips(&problem.solve().ok()?).ok()
        };
        let re_solve = |changed: &Design| {
            let c = &changed.construction;
            let known = tried
                .borrow()
                .iter()
                .find(|t| t.0 == *c)
                .map(|t| t.1.clone());
            known.unwrap_or_else(|| {
                let strips = lay(c);
                tried.borrow_mut().push((c.clone(), strips.clone()));
                strips
            })
        };
        self.rail_wood
            .findings(&self.design, &self.strips, &re_solve)
    }
}

/// The boxes round the pads' rectangles, over which ribs and spine stay whole.
fn under_pads(pads: &Pads) -> Vec<KeepOut> {
    let pads = pads.fittings.iter().filter_map(|f| f.pad.as_ref());
    pads.map(|pad| {
        let range = |k: usize| {
            let of = |pick: fn(f64, f64) -> f64, start| {
                pad.rectangle.iter().map(|p| p[k]).fold(start, pick)
            };
            [of(f64::min, f64::INFINITY), of(f64::max, f64::NEG_INFINITY)]
        };
        KeepOut {
            x: range(0),
            y: range(1),
        }
    })
    .collect()
}

/// Where the vent opens into the hollow.
fn vent(pads: &Pads) -> Option<[f64; 2]> {
    let vent = pads.fittings.iter().find(|f| f.kind == FittingKind::Vent);
    vent.map(|f| f.middle)
}

/// Planes for the rail: both faces and the centre of every rib, and others about `step` mm apart from block to block; a step that is no
/// length, or asks for more than [`MOST_PLANES`], gives as few or as many as there may be.
pub fn rail_planes(design: &Design, step: f64) -> Vec<f64> {
    let c = &design.construction;
    let mut planes = planes(c);
    let (start, end) = (c.tail_block, design.length - c.nose_block);
    let count = (((end - start) / step).ceil().min(MOST_PLANES) as usize).max(1);
    // Planes too near to each other make directions of strips noisy.
    let apart = c.rib / 4.0;
    for i in 0..=count {
        let x = start + (end - start) * i as f64 / count as f64;
        if planes.iter().all(|p| (p - x).abs() > apart) {
            planes.push(x);
        }
    }
    planes.sort_by(f64::total_cmp);
    planes
}
