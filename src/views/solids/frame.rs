//! The frame in place, with the strips as slices at the ribs.

use nalgebra::Vector2;

use super::bounds::within_board;
use super::plates::{across, rib_solid, spine_solid};
use crate::board::Board;
use crate::geometry::curve::Vector;
use crate::geometry::mesh::{Mesh, MeshError, extrude};

/// Chord tolerance of arcs in the preview, mm.
const TOLERANCE: f64 = 0.02;

/// Ribs and spine as plates, and at each rib the strips of both rails as slices of the rib's thickness, planed for the deck.
///
/// A preview: the halves of a half-lap show as slots, and slices overlap where lips dig in.
pub fn frame_preview(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let mut meshes = Vec::new();
    for rib in &board.ribs {
        let name = format!("rib-{:02}", rib.number);
        meshes.push(rib_solid(rib, TOLERANCE)?);
        for slice in &rib.slices {
            let polygon = slice.planed(&rib.stack, TOLERANCE);
            if polygon.len() < 3 {
                continue;
            }
            for (side, mirror) in [("starboard", 1.0), ("port", -1.0)] {
                let points: Vec<Vector2<f64>> = apart(&polygon)
                    .iter()
                    .map(|p| Vector2::new(mirror * p.x, p.y))
                    .collect();
                let name = format!("{name}-{side}-course-{}", slice.course + 1);
                meshes.push(extrude(&name, &points, &[], &across(rib), rib.thickness)?);
            }
        }
    }
    meshes.push(spine_solid(&board.spine, TOLERANCE)?);
    within_board(board, meshes)
}

/// The polygon without corners that nearly coincide, which clipping leaves.
fn apart(polygon: &[Vector<2>]) -> Vec<Vector<2>> {
    const NEAR: f64 = 1e-4;
    let mut out: Vec<Vector<2>> = Vec::with_capacity(polygon.len());
    for p in polygon {
        if out.last().is_none_or(|q| (p - q).norm() > NEAR) {
            out.push(*p);
        }
    }
    while out.len() > 3 && (out[0] - out[out.len() - 1]).norm() <= NEAR {
        out.pop();
    }
    out
}
