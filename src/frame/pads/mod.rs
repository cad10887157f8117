//! Fins, leash plug and vent: where they stand, the pads of solid wood that hold them, and what they clash with.

mod clash;
mod fitting;
mod overlap;
mod place;
mod room;
mod solid;

pub use fitting::{FittingKind, Pad, PadPiece, PlacedFitting};

use crate::design::Design;
use crate::design::finding::Finding;
use crate::frame::Rib;
use crate::frame::blocks::Block;
use crate::rail::Rail;
use crate::shape::{BoardFamily, Shell};

use room::Room;

/// All fittings of a board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pads {
    /// Fins, then plug, then vent.
    pub fittings: Vec<PlacedFitting>,
}

/// The fittings of `design` with their pads, and what is wrong with their places: blocks that are missing, clashes, pads that have no room.
pub fn pads(
    shell: &Shell,
    family: &BoardFamily,
    design: &Design,
    rail: &Rail,
    ribs: &[Rib],
    blocks: &[Block],
) -> (Pads, Vec<Finding>) {
    let room = Room {
        shell,
        plan: family.plan(),
        design,
        rail,
        ribs,
    };
    let (mut fittings, mut findings) = (Vec::new(), clash::missing(blocks));
    for mut fitting in place::fittings(&room) {
        if !clash::on_board(&room, &fitting, &mut findings) {
            continue;
        }
        if !room.held_by_block(&fitting) {
            fitting.pad = solid::pad(&room, &fitting);
        }
        clash::check(&room, &fitting, &mut findings);
        fittings.push(fitting);
    }
    overlap::each_other(&fittings, &mut findings);
    (Pads { fittings }, findings)
}
