//! Meshes as binary STL, in millimetres, written by `stl_io`.
//!
//! The format keeps f32 numbers and no connections, so what matters is whether the triangles still close *after* rounding: vertices that
//! coincide then are joined, triangles lost by that are left out, and the rest must pass the same gate as any mesh before a byte is written.
//! `stl_io` leaves the file's 80 bytes of header empty; unit and title are put there afterwards.

use super::ExportError;
use crate::geometry::mesh::Mesh;
use nalgebra::{Point3, Vector3};
use std::collections::HashMap;
use stl_io::{Normal, Triangle, Vertex};

/// Bytes of the header, which any reader passes over.
const HEADER: usize = 80;

/// The meshes as one STL file; `title` goes into its header.
///
/// # Errors
/// [`ExportError::UnfitMesh`] for a mesh that fails the gate with the file's numbers, [`ExportError::TooManyTriangles`] for more than the
/// format counts, [`ExportError::NotWritten`] when `stl_io` fails.
pub fn write(meshes: &[Mesh], title: &str) -> Result<Vec<u8>, ExportError> {
    let mut triangles = Vec::with_capacity(meshes.iter().map(|mesh| mesh.triangles.len()).sum());
    for mesh in meshes {
        add(mesh, &mut triangles)?;
    }
    let count = triangles.len();
    if u32::try_from(count).is_err() {
        return Err(ExportError::TooManyTriangles { count });
    }
    let mut bytes = Vec::with_capacity(HEADER + 4 + 50 * count);
    stl_io::write_stl(&mut bytes, triangles.iter()).map_err(|source| ExportError::NotWritten {
        what: title.to_owned(),
        reason: source.to_string(),
    })?;
    // Never "solid": readers take that for the text form.
    let words = format!("binary stl, mm: {title}");
    let ascii = words.chars().filter(|c| c.is_ascii() && !c.is_control());
    for (slot, c) in bytes.iter_mut().take(HEADER).zip(ascii) {
        *slot = c as u8;
    }
    Ok(bytes)
}

/// Adds a mesh's triangles with the file's numbers, if they pass the gate.
fn add(mesh: &Mesh, triangles: &mut Vec<Triangle>) -> Result<(), ExportError> {
    let rounded = rounded(mesh);
    let report = rounded.check(0.0);
    if !report.is_sound() {
        return Err(ExportError::UnfitMesh {
            name: mesh.name.clone(),
            report,
        });
    }
    triangles.extend(rounded.triangles.iter().map(|corners| {
        let [a, b, c] = corners.map(|i| rounded.vertices[i as usize]);
        let normal = (b - a).cross(&(c - a)).normalize();
        Triangle {
            normal: Normal::new(numbers(normal)),
            vertices: [a, b, c].map(|p| Vertex::new(numbers(p.coords))),
        }
    }));
    Ok(())
}

/// The mesh with f32 numbers, vertices that coincide then joined. Indices out of range stay, for the gate to find.
fn rounded(mesh: &Mesh) -> Mesh {
    let mut first: HashMap<[u32; 3], u32> = HashMap::with_capacity(mesh.vertices.len());
    let mut target = Vec::with_capacity(mesh.vertices.len());
    let mut vertices = Vec::with_capacity(mesh.vertices.len());
    for (index, vertex) in (0u32..).zip(&mesh.vertices) {
        let place = numbers(vertex.coords);
        target.push(*first.entry(place.map(f32::to_bits)).or_insert(index));
        vertices.push(Point3::from(place.map(f64::from)));
    }
    let corner = |i: u32| target.get(i as usize).copied().unwrap_or(i);
    let triangles = mesh.triangles.iter().map(|t| t.map(corner));
    Mesh {
        name: mesh.name.clone(),
        vertices,
        triangles: triangles
            .filter(|[a, b, c]| a != b && b != c && c != a)
            .collect(),
    }
}

/// The file's numbers; adding zero turns -0 into 0.
fn numbers(v: Vector3<f64>) -> [f32; 3] {
    [v.x, v.y, v.z].map(|n| n as f32 + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::mesh::{PlateFrame, extrude};
    use nalgebra::Vector2;

    fn block() -> Mesh {
        let ring =
            [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)].map(|(x, y)| Vector2::new(x, y));
        extrude("block", &ring, &[], &PlateFrame::flat(), 6.0).expect("a rectangle is simple")
    }

    #[test]
    fn another_reader_finds_the_same_solid() {
        let bytes = write(&[block(), block().mirror()], "solid board").expect("sound");
        assert!(!bytes.starts_with(b"solid"));
        assert_eq!(bytes.len(), 84 + 24 * 50);
        assert!(bytes.starts_with(b"binary stl, mm: solid board\0"));
        let read = stl_io::read_stl(&mut std::io::Cursor::new(&bytes)).expect("readable");
        assert_eq!(read.faces.len(), 24);
        for face in &read.faces {
            let [a, b, c] = face.vertices.map(|i| Vector3::from(read.vertices[i].0));
            let normal = (b - a).cross(&(c - a)).normalize();
            assert!((normal - Vector3::from(face.normal.0)).norm() < 1e-6);
        }
    }

    #[test]
    fn vertices_that_meet_after_rounding_are_joined_before_writing() {
        // A corner cut so finely that f32 cannot hold it: the sliver goes and the block stays closed.
        let ring = [
            (2000.0, 0.0),
            (2040.0, 0.0),
            (2040.0, 30.0),
            (2_039.999_999, 30.0),
            (2000.0, 30.0),
        ];
        let ring = ring.map(|(x, y)| Vector2::new(x, y));
        let mesh = extrude("cut", &ring, &[], &PlateFrame::flat(), 6.0).expect("simple");
        assert!(mesh.check(0.0).is_sound());
        let bytes = write(std::slice::from_ref(&mesh), "").expect("sound after joining");
        assert_eq!(bytes.len(), 84 + 12 * 50);
    }

    #[test]
    fn a_mesh_that_collapses_or_leaks_is_refused() {
        let mut thin = block();
        thin.vertices
            .iter_mut()
            .for_each(|v| v.z = 5000.0 + v.z * 1e-6);
        assert!(matches!(
            write(&[thin], ""),
            Err(ExportError::UnfitMesh { .. })
        ));

        let mut open = block();
        open.triangles.pop();
        let Err(ExportError::UnfitMesh { report, .. }) = write(&[open], "") else {
            unreachable!("an open mesh was written")
        };
        assert_eq!(report.open_edges, 3);

        let mut inside_out = block();
        inside_out.triangles.iter_mut().for_each(|t| t.swap(0, 1));
        assert!(write(&[inside_out], "").is_err());

        let mut huge = block();
        huge.vertices[0] = Point3::new(1e300, 0.0, 0.0);
        assert!(write(&[huge], "").is_err());
    }
}
