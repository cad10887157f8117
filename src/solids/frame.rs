//! The frame in place, with the strips as slices at the ribs.

use nalgebra::{Point2, Point3, Vector3};

use crate::board::Board;
use crate::curve::Vector;
use crate::drawing::{Path, Point};
use crate::frame::Rib;
use crate::mesh::{Mesh, MeshError, PlateFrame, extrude};

/// Chord tolerance of arcs in the preview, mm.
const TOLERANCE: f64 = 0.02;

/// Ribs and spine as plates, and at each rib the strips of both rails as slices of the rib's thickness, planed for the deck.
///
/// A preview: the halves of a half-lap show as slots, and slices overlap where lips dig in.
pub fn frame_preview(board: &Board) -> Result<Vec<Mesh>, MeshError> {
    let mut meshes = Vec::new();
    for rib in &board.ribs {
        let name = format!("rib-{:02}", rib.number);
        meshes.push(extrude(
            &name,
            &ring(&rib.outline),
            &rings(&rib.holes),
            &across(rib),
            rib.thickness,
        )?);
        for slice in &rib.slices {
            let polygon = slice.planed(&rib.stack, TOLERANCE);
            if polygon.len() < 3 {
                continue;
            }
            for (side, mirror) in [("starboard", 1.0), ("port", -1.0)] {
                let points: Vec<Point2<f64>> = apart(&polygon)
                    .iter()
                    .map(|p| Point2::new(mirror * p.x, p.y))
                    .collect();
                let name = format!("{name}-{side}-course-{}", slice.course + 1);
                meshes.push(extrude(&name, &points, &[], &across(rib), rib.thickness)?);
            }
        }
    }
    let spine = &board.spine;
    let along = PlateFrame {
        origin: Point3::new(0.0, -spine.thickness / 2.0, 0.0),
        across: Vector3::x(),
        up: Vector3::z(),
        through: Vector3::y(),
    };
    meshes.push(extrude(
        "spine",
        &ring(&spine.outline),
        &rings(&spine.holes),
        &along,
        spine.thickness,
    )?);
    Ok(meshes)
}

/// The plane of a rib's face towards the tail.
fn across(rib: &Rib) -> PlateFrame {
    PlateFrame {
        origin: Point3::new(rib.x - rib.thickness / 2.0, 0.0, 0.0),
        across: Vector3::y(),
        up: Vector3::z(),
        through: Vector3::x(),
    }
}

fn rings(paths: &[Path]) -> Vec<Vec<Point>> {
    paths.iter().map(ring).collect()
}

fn ring(path: &Path) -> Vec<Point> {
    let mut points = path.flatten(TOLERANCE);
    points.pop();
    points
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
