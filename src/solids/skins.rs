//! Skins as solids.

use nalgebra::Point3;

use crate::board::Board;
use crate::curve::Vector;
use crate::mesh::Mesh;
use crate::rail::{SkinFace, at_depth};
use crate::shell::ShellError;

/// Greatest distance of columns, mm: on the tightest bend a skin takes by default, 120 mm, their chords miss it by 0.01 mm.
const COLUMN: f64 = 3.0;
/// Planes nearer to each other than this, mm, are one.
const APART: f64 = 0.5;
/// Tips this long, mm, are shaped as one with their blocks.
const TIP: f64 = 12.0;
/// How closely sections are followed, mm.
const ACCURACY: f64 = 1e-4;

/// Bottom and deck skin as closed solids, out to the finished outline; bent, and not yet trimmed to the finished rail.
///
/// Sections stand in the rail's planes and those of the end blocks, to 12 mm short of the ends and as far as a swallow tail's cleft lets them
/// reach across; beyond the land the skin goes on straight, as it does in the rail.
pub fn skin_solids(board: &Board) -> Result<[Mesh; 2], ShellError> {
    let c = &board.design.construction;
    let horns = board.family.plan().cleft_depth().unwrap_or(0.0);
    let (tail, nose) = board.shell.x_range();
    let blocks = board.blocks.iter().flat_map(|b| b.bodies.first());
    let mut rows: Vec<f64> = blocks
        .flat_map(|body| body.slices.iter().map(|s| s.x))
        .filter(|x| (horns.max(tail + TIP)..=nose - TIP).contains(x))
        .collect();
    rows.extend(board.rail.stacks.iter().map(|s| s.x));
    rows.sort_by(f64::total_cmp);
    rows.dedup_by(|a, b| *a - *b < APART);
    let widest = board.measures.width / 2.0;
    let columns = (widest / COLUMN).ceil().max(2.0) as usize;
    let solid = |name: &str, bottom: bool, thickness: f64| -> Result<Mesh, ShellError> {
        let mut sections = Vec::new();
        for &x in &rows {
            let section = board.shell.section(x)?;
            let at = |depth| at_depth(&board.shell, &section, c, x, bottom, depth, ACCURACY);
            let (Some(outer), Some(inner)) = (at(0.0), at(thickness)) else {
                continue;
            };
            let edge = board.shell.half_width(x);
            let [low, high] = if bottom {
                [outer, inner]
            } else {
                [inner, outer]
            };
            sections.push((x, edge, low, high));
        }
        Ok(plate(name, &sections, columns))
    };
    Ok([
        solid("bottom-skin", true, c.bottom_skin)?,
        solid("deck-skin", false, c.deck_skin)?,
    ])
}

/// The solid between two faces over planes of constant x, from port edge to starboard edge.
fn plate(name: &str, sections: &[(f64, f64, SkinFace, SkinFace)], half: usize) -> Mesh {
    let columns = 2 * half + 1;
    let mut vertices = Vec::new();
    for (x, edge, low, high) in sections {
        for face in [low, high] {
            let starboard: Vec<Vector<2>> = (0..=half)
                .map(|i| edge * i as f64 / half as f64)
                .map(|y| Vector::<2>::new(y, face.height(y)))
                .collect();
            vertices.extend(
                starboard
                    .iter()
                    .skip(1)
                    .rev()
                    .map(|p| Point3::new(*x, -p.x, p.y)),
            );
            vertices.extend(starboard.iter().map(|p| Point3::new(*x, p.x, p.y)));
        }
    }
    // Round each section: along the lower face to starboard, then back along the upper.
    let around = 2 * columns;
    let place = |section: usize, k: usize| {
        let k = k % around;
        let within = if k < columns {
            k
        } else {
            columns + around - 1 - k
        };
        (section * around + within) as u32
    };
    let mut triangles = Vec::new();
    for s in 0..sections.len().saturating_sub(1) {
        for k in 0..around {
            let (a, b) = (place(s, k), place(s, k + 1));
            let (c, d) = (place(s + 1, k + 1), place(s + 1, k));
            triangles.extend([[a, b, c], [a, c, d]]);
        }
    }
    for (section, turned) in [(0, true), (sections.len().saturating_sub(1), false)] {
        for k in 0..columns - 1 {
            let (a, b) = (place(section, k), place(section, k + 1));
            let (c, d) = (
                place(section, around - 2 - k),
                place(section, around - 1 - k),
            );
            for t in [[a, b, c], [a, c, d]] {
                triangles.push(if turned { [t[0], t[2], t[1]] } else { t });
            }
        }
    }
    Mesh {
        name: name.into(),
        vertices,
        triangles,
    }
}
