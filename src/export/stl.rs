//! Meshes as binary STL, in millimetres.
//!
//! The format keeps f32 numbers and no connections, so what matters is whether the triangles still close
//! *after* rounding: vertices that coincide then are joined, triangles lost by that are left out, and the rest
//! must pass the same gate as any mesh before a byte is written.

use super::ExportError;
use crate::mesh::edges::EdgeTable;
use crate::mesh::{Mesh, MeshReport};
use nalgebra::Vector3;

const HEADER: usize = 80;
const RECORD: usize = 50;

/// The meshes as one STL file; `title` goes into its header.
pub fn write(meshes: &[Mesh], title: &str) -> Result<Vec<u8>, ExportError> {
    let rounded: Vec<Rounded> = meshes.iter().map(Rounded::new).collect::<Result<_, _>>()?;
    let count: usize = rounded.iter().map(|mesh| mesh.triangles.len()).sum();
    let Ok(written) = u32::try_from(count) else {
        return Err(ExportError::TooManyTriangles { count });
    };
    let mut bytes = vec![0u8; HEADER + 4 + count * RECORD];
    // Never "solid": readers take that for the text form.
    let header = format!("binary stl, mm: {title}");
    let ascii = header.chars().filter(|c| c.is_ascii() && !c.is_control());
    for (slot, c) in bytes[..HEADER].iter_mut().zip(ascii) {
        *slot = c as u8;
    }
    bytes[HEADER..HEADER + 4].copy_from_slice(&written.to_le_bytes());
    let mut rest = &mut bytes[HEADER + 4..];
    for (mesh, source) in rounded.iter().zip(meshes) {
        let (records, after) = rest.split_at_mut(mesh.triangles.len() * RECORD);
        mesh.encode(records, source)?;
        rest = after;
    }
    Ok(bytes)
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
        let triangles = match joined(&vertices) {
            None => mesh.triangles.clone(),
            Some(target) => mesh
                .triangles
                .iter()
                .map(|t| t.map(|i| target[i as usize]))
                .filter(|[a, b, c]| a != b && b != c && c != a)
                .collect(),
        };
        Ok(Self {
            vertices,
            triangles,
        })
    }

    /// Writes the records and passes the gate, on as many threads as there are processors. The bytes do
    /// not depend on their number.
    fn encode(&self, records: &mut [u8], source: &Mesh) -> Result<(), ExportError> {
        let table = EdgeTable::new(self.vertices.len(), &self.triangles);
        let threads = match self.triangles.len() {
            0..20_000 => 1,
            _ => std::thread::available_parallelism()
                .map_or(1, usize::from)
                .min(16),
        };
        let share = self.triangles.len().div_ceil(threads).max(1);
        let chunks = self
            .triangles
            .chunks(share)
            .zip(records.chunks_mut(share * RECORD));
        let results: Vec<Gate> = std::thread::scope(|scope| {
            let (table, vertices) = (&table, self.vertices.as_slice());
            let mut workers = Vec::new();
            let mut results = Vec::new();
            for (i, (triangles, records)) in chunks.enumerate() {
                if i + 1 < threads {
                    workers.push(scope.spawn(move || gate(table, vertices, triangles, records)));
                } else {
                    results.push(gate(table, vertices, triangles, records));
                }
            }
            for worker in workers {
                results.push(worker.join().unwrap_or_else(|_| Gate {
                    degenerate: usize::MAX,
                    ..Gate::default()
                }));
            }
            results
        });
        let total = results.iter().fold(Gate::default(), |a, b| Gate {
            open: a.open + b.open,
            folded: a.folded + b.folded,
            degenerate: a.degenerate.saturating_add(b.degenerate),
            volume: a.volume + b.volume,
        });
        let report = MeshReport {
            triangles: self.triangles.len(),
            not_finite: 0,
            bad_indices: 0,
            open_edges: total.open,
            degenerate: total.degenerate,
            duplicate: total.folded / 2,
            volume: total.volume,
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

#[derive(Default)]
struct Gate {
    open: usize,
    folded: usize,
    degenerate: usize,
    volume: f64,
}

/// Writes some triangles and checks them against the whole mesh's edges.
fn gate(
    table: &EdgeTable,
    vertices: &[[f32; 3]],
    triangles: &[[u32; 3]],
    records: &mut [u8],
) -> Gate {
    let edges = table.faults(triangles);
    let mut gate = Gate {
        open: edges.unmatched,
        folded: edges.folded,
        ..Gate::default()
    };
    let origin = vertices.first().map_or_else(Vector3::zeros, wide);
    for (triangle, record) in triangles.iter().zip(records.chunks_exact_mut(RECORD)) {
        let corners = triangle.map(|i| &vertices[i as usize]);
        let [a, b, c] = corners.map(|v| wide(v) - origin);
        let normal = (b - a).cross(&(c - a));
        gate.volume += a.dot(&normal) / 6.0;
        let length = normal.norm();
        gate.degenerate += usize::from(length == 0.0);
        let unit = normal / length;
        let numbers = [unit.x as f32, unit.y as f32, unit.z as f32];
        let all = std::iter::once(&numbers).chain(corners).flatten();
        for (slot, number) in record.chunks_exact_mut(4).zip(all) {
            slot.copy_from_slice(&(number + 0.0).to_le_bytes());
        }
    }
    gate
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
    use crate::mesh::{PlateFrame, extrude};
    use nalgebra::{Point2, Point3};

    fn block() -> Mesh {
        let ring =
            [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)].map(|(x, y)| Point2::new(x, y));
        extrude("block", &ring, &[], &PlateFrame::flat(), 6.0).expect("a rectangle is simple")
    }

    #[test]
    fn another_reader_finds_the_same_solid() {
        let bytes = write(&[block(), block().mirror()], "solid board").expect("sound");
        assert!(!bytes.starts_with(b"solid"));
        assert_eq!(bytes.len(), 84 + 24 * 50);
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
        let ring = ring.map(|(x, y)| Point2::new(x, y));
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
