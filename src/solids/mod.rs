//! The board's parts as meshes.

mod bed;
mod frame;
mod shell;
mod strips;

pub use bed::bed_solids;
pub use frame::frame_preview;
pub use shell::shell_mesh;
pub use strips::strip_solids;

use crate::board::Board;
use crate::mesh::{Mesh, MeshError};

/// Greatest distance, mm, of the shell's mesh from its patches, unless asked otherwise.
pub const MESH_TOLERANCE: f64 = 0.1;

/// The finished shell, then the parts of the frame with the strips' slices at the ribs.
pub fn meshes(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let mut meshes = vec![shell_mesh(&board.shell, MESH_TOLERANCE)?];
    meshes.extend(frame_preview(board)?);
    Ok(meshes)
}
