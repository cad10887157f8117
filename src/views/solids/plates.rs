//! Ribs and the spine as plates in place.

use nalgebra::{Point3, Vector3};

use crate::frame::{Rib, Spine};
use crate::geometry::mesh::{Mesh, MeshError, PlateFrame, extrude};
use crate::geometry::path::{Path, Point};

/// A rib as it is cut, square to its faces; arcs within `tolerance` mm.
pub fn rib_solid(rib: &Rib, tolerance: f64) -> Result<Mesh, MeshError> {
    let frame = across(rib);
    let name = format!("rib-{:02}", rib.number);
    extrude(
        &name,
        &ring(&rib.outline, tolerance),
        &rings(&rib.holes, tolerance),
        &frame,
        rib.thickness,
    )
}

/// The spine as it is cut; arcs within `tolerance` mm.
pub fn spine_solid(spine: &Spine, tolerance: f64) -> Result<Mesh, MeshError> {
    let frame = PlateFrame {
        origin: Point3::new(0.0, -spine.thickness / 2.0, 0.0),
        across: Vector3::x(),
        up: Vector3::z(),
        through: Vector3::y(),
    };
    extrude(
        "spine",
        &ring(&spine.outline, tolerance),
        &rings(&spine.holes, tolerance),
        &frame,
        spine.thickness,
    )
}

/// The plane of a rib's face towards the tail.
pub(super) fn across(rib: &Rib) -> PlateFrame {
    PlateFrame {
        origin: Point3::new(rib.x - rib.thickness / 2.0, 0.0, 0.0),
        across: Vector3::y(),
        up: Vector3::z(),
        through: Vector3::x(),
    }
}

fn rings(paths: &[Path], tolerance: f64) -> Vec<Vec<Point>> {
    paths.iter().map(|p| ring(p, tolerance)).collect()
}

fn ring(path: &Path, tolerance: f64) -> Vec<Point> {
    let mut points = path.flatten(tolerance);
    points.pop();
    points
}
