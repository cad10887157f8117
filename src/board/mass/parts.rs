//! What a board is weighed from.

use crate::design::Design;
use crate::frame::blocks::Block;
use crate::frame::pads::Pads;
use crate::frame::{Rib, Spine};
use crate::geometry::curve::Vector;
use crate::geometry::path::Path;
use crate::rail::{Rail, Strip};
use crate::shape::Shell;
use crate::wood::skin::Panels;

/// The parts made so far, from which a board is weighed.
#[derive(Debug, Clone, Copy)]
pub struct BoardParts<'a> {
    /// What the maker decided.
    pub design: &'a Design,
    /// The lofted shell.
    pub shell: &'a Shell,
    /// The rail along the board.
    pub rail: &'a Rail,
    /// The starboard rail's strips.
    pub strips: &'a [Strip],
    /// The ribs.
    pub ribs: &'a [Rib],
    /// The spine.
    pub spine: &'a Spine,
    /// The skins.
    pub panels: &'a Panels,
    /// The end blocks.
    pub blocks: &'a [Block],
    /// Fins, plug and vent with their pads.
    pub pads: &'a Pads,
}

/// Greatest distance of a part's polygon from its lines and arcs, mm.
const TOLERANCE: f64 = 0.01;

pub(super) fn polygon(path: &Path) -> Vec<Vector<2>> {
    path.flatten(TOLERANCE)
}
