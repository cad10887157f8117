//! From a design to everything that follows from it.

use crate::bed::{Bed, bed};
use crate::blocks::{Block, blocks};
use crate::curve::CurveError;
use crate::design::Design;
use crate::frame::{FrameError, Rib, Spine, planes, ribs, spine};
use crate::pads::{Pads, pads};
use crate::rail::{Limits, Rail, Strip, Warning, solve, strips, warnings};
use crate::shell::{BoardFamily, DEFAULT_TOLERANCE, Measures, Shell, ShellError, loft, measures};
use crate::yard::Yard;

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
    /// The rail along the whole board.
    pub rail: Rail,
    /// The starboard rail's strips along the board.
    pub strips: Vec<Strip>,
    /// The ribs, from the tail.
    pub ribs: Vec<Rib>,
    /// The spine.
    pub spine: Spine,
    /// Where a course cannot hold.
    pub warnings: Vec<Warning>,
    /// The wood its rail takes.
    pub yard: Yard,
    /// The solid end blocks, tail first; one is missing where the skins leave no room for it.
    pub blocks: Vec<Block>,
    /// Fins, leash plug and vent, their pads and clashes.
    pub pads: Pads,
    /// The building bed.
    pub bed: Bed,
}

/// Spacing of the planes, mm, in which the rail is solved between ribs.
const RAIL_STEP: f64 = 10.0;

impl Board {
    /// Solves everything.
    pub fn new(design: Design) -> Result<Self, BoardError> {
        let family = BoardFamily::new(&design)?;
        let shell = loft(&family, DEFAULT_TOLERANCE)?;
        let measures = measures(&shell)?;
        let rail = solve(
            &shell,
            &design.construction,
            &rail_planes(&design, RAIL_STEP),
        )?;
        let strips = strips(&rail).map_err(BoardError::Strips)?;
        let ribs = ribs(&design.construction, &rail)?;
        let spine = spine(&shell, &design.construction, &ribs)?;
        let warnings = warnings(&shell, &design.construction, &rail, &Limits::default())?;
        let yard = Yard::new(&design, &strips);
        let blocks = blocks(&shell, &design);
        let pads = pads(&shell, &family, &design, &rail, &ribs, &blocks);
        let bed = bed(&shell, &design);
        Ok(Self {
            design,
            family,
            shell,
            measures,
            rail,
            strips,
            ribs,
            spine,
            warnings,
            yard,
            blocks,
            pads,
            bed,
        })
    }
}

/// Planes for the rail: both faces and the centre of every rib, and others about `step` mm apart from block to block.
pub fn rail_planes(design: &Design, step: f64) -> Vec<f64> {
    let c = &design.construction;
    let mut planes = planes(c);
    let (start, end) = (c.tail_block, design.length - c.nose_block);
    let count = ((end - start) / step).ceil().max(1.0) as usize;
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
