//! Meshes as binary STL, in millimetres.
//!
//! The format keeps f32 numbers and no connections, so what matters is whether the triangles still close
//! *after* rounding: vertices that coincide then are joined, triangles lost by that are left out, and the rest
//! must pass the same gate as any mesh before a byte is written.

use super::ExportError;
use crate::geometry::mesh::edges::{EdgeFaults, EdgeTable};
use crate::geometry::mesh::{Mesh, MeshReport};
use nalgebra::Vector3;
use std::io::Write;
use std::sync::mpsc;

const HEADER: usize = 80;
const RECORD: usize = 50;
/// Triangles encoded at a time.
const BATCH: usize = 8192;

/// The meshes as one STL file; `title` goes into its header.
pub fn write(meshes: &[Mesh], title: &str) -> Result<Vec<u8>, ExportError> {
    let stl = Stl::new(meshes, title)?;
    let mut bytes = Vec::with_capacity(stl.size());
    bytes.extend_from_slice(&stl.header);
    for mesh in &stl.meshes {
        for triangles in mesh.triangles.chunks(BATCH) {
            encode(&mesh.vertices, triangles, &mut bytes);
        }
    }
    Ok(bytes)
}

/// Meshes that passed the gate with the file's numbers, ready to be written.
pub struct Stl {
    header: [u8; HEADER + 4],
    meshes: Vec<Rounded>,
}

impl Stl {
    /// Rounds the meshes and passes each through the gate.
    pub fn new(meshes: &[Mesh], title: &str) -> Result<Self, ExportError> {
        let meshes: Vec<Rounded> = meshes.iter().map(Rounded::new).collect::<Result<_, _>>()?;
        let count: usize = meshes.iter().map(|mesh| mesh.triangles.len()).sum();
        let Ok(written) = u32::try_from(count) else {
            return Err(ExportError::TooManyTriangles { count });
        };
        let mut header = [0; HEADER + 4];
        // Never "solid": readers take that for the text form.
        let words = format!("binary stl, mm: {title}");
        let ascii = words.chars().filter(|c| c.is_ascii() && !c.is_control());
        for (slot, c) in header[..HEADER].iter_mut().zip(ascii) {
            *slot = c as u8;
        }
        header[HEADER..].copy_from_slice(&written.to_le_bytes());
        Ok(Self { header, meshes })
    }

    /// Bytes in the file.
    pub fn size(&self) -> usize {
        let count: usize = self.meshes.iter().map(|mesh| mesh.triangles.len()).sum();
        HEADER + 4 + count * RECORD
    }

    /// Writes the file in large pieces, working out the next ones while one is being written. No
    /// buffering around `out` is needed.
    pub fn write_to(&self, out: &mut impl Write) -> std::io::Result<()> {
        out.write_all(&self.header)?;
        std::thread::scope(|scope| {
            let (full, pieces) = mpsc::sync_channel::<Vec<u8>>(2);
            let (back, empties) = mpsc::channel::<Vec<u8>>();
            scope.spawn(move || {
                for mesh in &self.meshes {
                    for triangles in mesh.triangles.chunks(BATCH) {
                        let mut bytes = empties.try_recv().unwrap_or_default();
                        bytes.clear();
                        encode(&mesh.vertices, triangles, &mut bytes);
                        // The writer is gone after an error of its own, which it returns.
                        if full.send(bytes).is_err() {
                            return;
                        }
                    }
                }
            });
            for bytes in pieces {
                out.write_all(&bytes)?;
                // A worker that has finished needs no more buffers.
                let _ = back.send(bytes);
            }
            Ok(())
        })
    }
}

/// A mesh with the file's numbers.
struct Rounded {
    vertices: Vec<[f32; 3]>,
    triangles: Vec<[u32; 3]>,
}

impl Rounded {
    fn new(mesh: &Mesh) -> Result<Self, ExportError> {
        let limit = mesh.vertices.len();
        let in_range = mesh
            .triangles
            .iter()
            .flatten()
            .all(|&i| (i as usize) < limit);
        // Adding zero turns -0 into 0.
        let vertices: Vec<[f32; 3]> = mesh
            .vertices
            .iter()
            .map(|v| [v.x as f32 + 0.0, v.y as f32 + 0.0, v.z as f32 + 0.0])
            .collect();
        let finite = vertices.iter().all(|v| v.iter().all(|n| n.is_finite()));
        if !in_range || !finite || mesh.triangles.is_empty() {
            return Err(unfit(mesh, mesh.check(0.0)));
        }
        // Vertices seldom meet, so the table is made beside the search for those that do.
        let (target, table) = std::thread::scope(|scope| {
            let table = scope.spawn(|| EdgeTable::new(limit, &mesh.triangles));
            (joined(&vertices), table.join().ok())
        });
        let (triangles, table) = match (target, table) {
            (None, Some(table)) => (mesh.triangles.clone(), table),
            (target, _) => {
                let target = target.unwrap_or_else(|| (0..limit as u32).collect());
                let triangles: Vec<[u32; 3]> = mesh
                    .triangles
                    .iter()
                    .map(|t| t.map(|i| target[i as usize]))
                    .filter(|[a, b, c]| a != b && b != c && c != a)
                    .collect();
                let table = EdgeTable::new(limit, &triangles);
                (triangles, table)
            }
        };
        let rounded = Self {
            vertices,
            triangles,
        };
        rounded.pass(&table, mesh)?;
        Ok(rounded)
    }

    /// The gate, in two halves side by side: edges, and areas with the volume.
    fn pass(&self, table: &EdgeTable, source: &Mesh) -> Result<(), ExportError> {
        let half = self.triangles.len() / 2;
        let (low, high) = self.triangles.split_at(half);
        let look = |triangles| (table.faults(triangles), areas(&self.vertices, triangles));
        let halves = std::thread::scope(|scope| {
            let first = scope.spawn(|| look(low));
            let second = look(high);
            [first.join().unwrap_or_else(|_| look(low)), second]
        });
        let sum =
            |count: fn(&(EdgeFaults, Areas)) -> usize| halves.iter().map(count).sum::<usize>();
        let report = MeshReport {
            triangles: self.triangles.len(),
            not_finite: 0,
            bad_indices: 0,
            open_edges: sum(|(edges, _)| edges.unmatched),
            degenerate: sum(|(_, areas)| areas.degenerate),
            duplicate: sum(|(edges, _)| edges.folded) / 2,
            volume: halves.iter().map(|(_, areas)| areas.volume).sum(),
        };
        if report.is_sound() {
            Ok(())
        } else {
            Err(unfit(source, report))
        }
    }
}

fn unfit(mesh: &Mesh, report: MeshReport) -> ExportError {
    ExportError::UnfitMesh {
        name: mesh.name.clone(),
        report,
    }
}

struct Areas {
    degenerate: usize,
    volume: f64,
}

/// Triangles without area, and the volume seen from the first vertex.
fn areas(vertices: &[[f32; 3]], triangles: &[[u32; 3]]) -> Areas {
    let origin = vertices.first().map_or_else(Vector3::zeros, wide);
    let mut areas = Areas {
        degenerate: 0,
        volume: 0.0,
    };
    for triangle in triangles {
        let [a, b, c] = triangle.map(|i| wide(&vertices[i as usize]) - origin);
        let normal = (b - a).cross(&(c - a));
        areas.volume += a.dot(&normal) / 6.0;
        areas.degenerate += usize::from(normal == Vector3::zeros());
    }
    areas
}

/// Appends the records of some triangles.
fn encode(vertices: &[[f32; 3]], triangles: &[[u32; 3]], bytes: &mut Vec<u8>) {
    for triangle in triangles {
        let corners = triangle.map(|i| vertices[i as usize]);
        let [a, b, c] = corners.map(|v| wide(&v));
        let normal = (b - a).cross(&(c - a)).normalize();
        let unit = [normal.x, normal.y, normal.z].map(|n| n as f32 + 0.0);
        let mut record = [0u8; RECORD];
        let numbers = std::iter::once(unit).chain(corners).flatten();
        for (slot, number) in record.chunks_exact_mut(4).zip(numbers) {
            slot.copy_from_slice(&number.to_le_bytes());
        }
        bytes.extend_from_slice(&record);
    }
}

fn wide(v: &[f32; 3]) -> Vector3<f64> {
    Vector3::new(f64::from(v[0]), f64::from(v[1]), f64::from(v[2]))
}

/// For each vertex the first one with the same numbers; `None` when all differ.
fn joined(vertices: &[[f32; 3]]) -> Option<Vec<u32>> {
    let slots = (vertices.len() * 2).next_power_of_two().max(2);
    let shift = 64 - slots.trailing_zeros();
    let mut table = vec![u32::MAX; slots];
    let mut target: Option<Vec<u32>> = None;
    for (index, vertex) in vertices.iter().enumerate() {
        let [x, y, z] = vertex.map(|n| u64::from(n.to_bits()));
        let mixed = (x | y << 32).wrapping_mul(0x9e37_79b9_7f4a_7c15)
            ^ z.wrapping_mul(0xc2b2_ae3d_27d4_eb4f);
        let mut slot = (mixed.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> shift) as usize;
        let index = index as u32;
        let first = loop {
            match table[slot] {
                u32::MAX => {
                    table[slot] = index;
                    break index;
                }
                other if vertices[other as usize] == *vertex => break other,
                _ => slot = (slot + 1) & (slots - 1),
            }
        };
        if first != index && target.is_none() {
            target = Some((0..index).collect());
        }
        if let Some(target) = &mut target {
            target.push(first);
        }
    }
    target
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::mesh::{PlateFrame, extrude};
    use nalgebra::{Point3, Vector2};

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
        let stl = Stl::new(&[block(), block().mirror()], "solid board").expect("sound");
        let mut streamed = Vec::new();
        stl.write_to(&mut streamed).expect("a vector takes all");
        assert!(streamed == bytes && stl.size() == bytes.len());
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
