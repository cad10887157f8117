//! Where the board's parts can be.

use nalgebra::Point3;

use crate::board::Board;
use crate::geometry::mesh::{Mesh, MeshError};

/// How far, mm, a part may reach outside the board's box: strips stand proud before they are planed, by less than their width however obliquely
/// they cross a plane, and run on past an end.
const MARGIN: f64 = 250.0;

/// The meshes, if every corner lies in the board's box grown by 250 mm; so a length taken from them is bounded by the board's.
pub fn within_board(board: &Board, meshes: Vec<Mesh>) -> Result<Vec<Mesh>, MeshError> {
    let bounds = board_box(board);
    for mesh in &meshes {
        mesh.within(&bounds, MARGIN)?;
    }
    Ok(meshes)
}

/// The upright box of the shell's nets, which hold it, mirrored, and down to the bed's table.
fn board_box(board: &Board) -> [Point3<f64>; 2] {
    let mut bounds = [
        Point3::new(0.0, 0.0, board.bed.table.min(0.0)),
        Point3::origin(),
    ];
    for p in board.shell.patches.iter().flat_map(|patch| patch.net()) {
        let [low, high] = &mut bounds;
        for (i, value) in [p.x, p.y.abs(), p.z].into_iter().enumerate() {
            low[i] = low[i].min(value);
            high[i] = high[i].max(value);
        }
    }
    bounds[0].y = -bounds[1].y;
    bounds
}
