//! Strips as solids.

use super::{lofted_solid, within_board};
use crate::board::Board;
use crate::geometry::lofted::{Lofted, Slice};
use crate::geometry::mesh::{Mesh, MeshError};
use crate::rail::{Strip, slice};

/// Chord tolerance of bead and cove, mm.
const TOLERANCE: f64 = 0.02;
/// Least distance of the sections a strip is drawn through, mm.
const APART: f64 = 8.0;

/// Every strip of both rails as a closed solid with its true bead and cove, before anything is planed.
///
/// Sections are those of the rail's planes, joined by straight generators; over 10 mm of a strip bent to a radius of 500 mm these
/// miss the bend by 0.03 mm.
pub fn strip_solids(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let mut meshes = Vec::new();
    for strip in &board.strips {
        let starboard = solid(board, strip)?;
        let mut port = starboard.mirror();
        port.name = format!("{}-port", starboard.name);
        meshes.push(Mesh {
            name: format!("{}-starboard", starboard.name),
            ..starboard
        });
        meshes.push(port);
    }
    within_board(board, meshes)
}

fn solid(board: &Board, strip: &Strip) -> Result<Mesh, MeshError> {
    let mut sections: Vec<Slice> = Vec::new();
    let last = strip.planes.len() - 1;
    for (i, &plane) in strip.planes.iter().enumerate() {
        let stack = &board.rail.stacks[plane];
        let far = sections.last().is_none_or(|s| stack.x - s.x >= APART);
        // The last section always counts; one too near before it makes way.
        if i == last
            && sections.len() > 1
            && sections.last().is_some_and(|s| stack.x - s.x < APART / 4.0)
        {
            sections.pop();
        }
        if far || i == last {
            let Some(slice) = slice(stack, strip.course, &board.design.construction) else {
                continue;
            };
            // Flattened in the strip's own plane, so that every section has the same corners.
            let corners = slice.profile.flatten(TOLERANCE);
            let ring = corners.into_iter().map(|p| slice.frame.plane(p)).collect();
            sections.push(Slice { x: stack.x, ring });
        }
    }
    lofted_solid(&Lofted {
        name: strip_name(strip),
        slices: sections,
    })
}

/// What a strip's solid is called.
pub(super) fn strip_name(strip: &Strip) -> String {
    format!("strip-{:02}-from-{:04.0}", strip.course + 1, strip.ends[0])
}
