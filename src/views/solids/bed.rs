//! The building bed's cradles as solids under the board.

use nalgebra::{Point3, Vector2, Vector3};

use crate::board::Board;
use crate::geometry::mesh::{Mesh, MeshError, PlateFrame, extrude};
use crate::geometry::path::Path;

/// Chord tolerance of arcs, mm.
const TOLERANCE: f64 = 0.02;

/// Every cradle, its upper edge not yet bevelled.
pub fn bed_solids(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let ring = |path: &Path| -> Vec<Vector2<f64>> {
        let mut points = path.flatten(TOLERANCE);
        points.pop();
        points
    };
    let bed = &board.bed;
    let cradles = bed.cradles.iter().map(|cradle| {
        let frame = PlateFrame {
            origin: Point3::new(cradle.x - cradle.thickness / 2.0, 0.0, bed.table),
            across: Vector3::y(),
            up: Vector3::z(),
            through: Vector3::x(),
        };
        let holes: Vec<_> = cradle.holes.iter().map(ring).collect();
        extrude(
            &format!("cradle-{:02}", cradle.number),
            &ring(&cradle.outline),
            &holes,
            &frame,
            cradle.thickness,
        )
    });
    super::within_board(board, cradles.collect::<Result<_, _>>()?)
}
