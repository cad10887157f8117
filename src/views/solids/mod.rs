//! The board's parts as meshes.

mod bed;
mod bounds;
mod frame;
mod lofted;
mod planed;
mod plates;
mod shell;
mod skins;
mod strips;

pub use bed::bed_solids;
pub use bounds::within_board;
pub use frame::frame_preview;
pub use lofted::lofted_solid;
pub use planed::planed_strips;
pub use plates::{rib_solid, spine_solid};
pub use shell::shell_mesh;
pub use skins::skin_bodies;
pub use strips::strip_solids;

use crate::board::Board;
use crate::geometry::mesh::{Mesh, MeshError};

/// Greatest distance, mm, of the shell's mesh from its patches, unless asked otherwise.
pub const MESH_TOLERANCE: f64 = 0.1;

/// The end blocks as they are when the board is finished.
pub fn block_solids(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let bodies = board.blocks.iter().flat_map(|block| &block.bodies);
    within_board(board, bodies.map(lofted_solid).collect::<Result<_, _>>()?)
}

/// The pads of fins, leash plug and vent in place, nothing cut out of them yet.
pub fn pad_solids(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let pads = board.pads.fittings.iter().filter_map(|f| f.pad.as_ref());
    let solids = pads
        .flat_map(|pad| &pad.pieces)
        .map(|piece| lofted_solid(&piece.body));
    within_board(board, solids.collect::<Result<_, _>>()?)
}

/// The finished shell, then the parts of the frame with the strips' slices at the ribs.
pub fn meshes(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let mut meshes = vec![shell_mesh(&board.shell, MESH_TOLERANCE)?];
    meshes.extend(frame_preview(board)?);
    Ok(meshes)
}
