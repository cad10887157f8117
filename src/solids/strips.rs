//! Strips as solids.

use nalgebra::{Point2, Point3};

use crate::board::Board;
use crate::curve::Vector;
use crate::mesh::{Mesh, MeshError, triangulate_ring};
use crate::rail::{Strip, slices};

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
    Ok(meshes)
}

fn solid(board: &Board, strip: &Strip) -> Result<Mesh, MeshError> {
    let mut sections: Vec<(f64, Vec<Vector<2>>)> = Vec::new();
    let last = strip.planes.len() - 1;
    for (i, &plane) in strip.planes.iter().enumerate() {
        let stack = &board.rail.stacks[plane];
        let far = sections.last().is_none_or(|s| stack.x - s.0 >= APART);
        // The last section always counts; one too near before it makes way.
        if i == last
            && sections.len() > 1
            && sections.last().is_some_and(|s| stack.x - s.0 < APART / 4.0)
        {
            sections.pop();
        }
        if far || i == last {
            let all = slices(stack, &board.design.construction);
            let Some(slice) = all.get(strip.course) else {
                continue;
            };
            // Flattened in the strip's own plane, so that every section has the same corners.
            let corners = slice.profile.flatten(TOLERANCE);
            sections.push((
                stack.x,
                corners.into_iter().map(|p| slice.frame.plane(p)).collect(),
            ));
        }
    }
    let n = sections.first().map_or(0, |s| s.1.len());
    sections.retain(|s| s.1.len() == n);
    let vertices: Vec<Point3<f64>> = sections
        .iter()
        .flat_map(|(x, points)| points.iter().map(|p| Point3::new(*x, p.x, p.y)))
        .collect();
    let mut triangles = Vec::new();
    let id = |section: usize, corner: usize| (section * n + corner % n) as u32;
    for s in 0..sections.len().saturating_sub(1) {
        for k in 0..n {
            // Profiles run counter-clockwise seen from the nose (out is y, up is z).
            let (a, b, c, d) = (id(s, k), id(s, k + 1), id(s + 1, k + 1), id(s + 1, k));
            triangles.push([a, b, c]);
            triangles.push([a, c, d]);
        }
    }
    if let (Some(first), Some(end)) = (sections.first(), sections.last()) {
        let ring = |points: &[Vector<2>]| {
            points
                .iter()
                .map(|p| Point2::new(p.x, p.y))
                .collect::<Vec<_>>()
        };
        let base = ((sections.len() - 1) * n) as u32;
        triangles.extend(
            triangulate_ring(&ring(&first.1))?
                .into_iter()
                .map(|[a, b, c]| [a, c, b]),
        );
        triangles.extend(
            triangulate_ring(&ring(&end.1))?
                .into_iter()
                .map(|t| t.map(|i| base + i)),
        );
    }
    let name = format!("strip-{:02}-from-{:04.0}", strip.course + 1, strip.ends[0]);
    Ok(Mesh {
        name,
        vertices,
        triangles,
    })
}
