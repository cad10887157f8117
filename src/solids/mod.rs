//! The board's parts as meshes.

mod bed;
mod frame;
mod lofted;
mod shell;
mod strips;

pub use bed::bed_solids;
pub use frame::frame_preview;
pub use lofted::lofted_solid;
pub use shell::shell_mesh;
pub use strips::strip_solids;

use crate::board::Board;
use crate::mesh::{Mesh, MeshError};

/// Greatest distance, mm, of the shell's mesh from its patches, unless asked otherwise.
pub const MESH_TOLERANCE: f64 = 0.1;

/// The end blocks as they are when the board is finished.
pub fn block_solids(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let bodies = board.blocks.iter().flat_map(|block| &block.bodies);
    bodies.map(lofted_solid).collect()
}

/// The finished shell, then the parts of the frame with the strips' slices at the ribs.
pub fn meshes(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let mut meshes = vec![shell_mesh(&board.shell, MESH_TOLERANCE)?];
    meshes.extend(frame_preview(board)?);
    Ok(meshes)
}
