//! Fins, leash plug and vent: where they stand, the pads of solid wood that hold them, and what they clash with.

mod clash;
mod fitting;
mod overlap;
mod place;
mod room;
mod solid;
mod trouble;

pub use fitting::{FittingKind, Pad, PadPiece, PlacedFitting};
pub use trouble::Trouble;

use crate::design::Design;
use crate::frame::Rib;
use crate::frame::blocks::Block;
use crate::rail::Rail;
use crate::shape::{BoardFamily, Shell};

use room::Room;

/// All fittings of a board and what is wrong with their places.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pads {
    /// Fins, then plug, then vent.
    pub fittings: Vec<PlacedFitting>,
    /// Clashes, with what to change.
    pub troubles: Vec<Trouble>,
}

/// The fittings of `design` with their pads.
pub fn pads(
    shell: &Shell,
    family: &BoardFamily,
    design: &Design,
    rail: &Rail,
    ribs: &[Rib],
    blocks: &[Block],
) -> Pads {
    let room = Room {
        shell,
        plan: family.plan(),
        design,
        rail,
        ribs,
    };
    let (mut fittings, mut troubles) = (Vec::new(), clash::missing(blocks));
    for mut fitting in place::fittings(&room) {
        if !clash::on_board(&room, &fitting, &mut troubles) {
            continue;
        }
        if !room.held_by_block(&fitting) {
            fitting.pad = solid::pad(&room, &fitting);
        }
        clash::check(&room, &fitting, &mut troubles);
        fittings.push(fitting);
    }
    overlap::each_other(&fittings, &mut troubles);
    Pads { fittings, troubles }
}
