//! How long the writers take, beside a raw write of as many bytes.
#![allow(missing_docs, clippy::unwrap_used)]

use boardwright::geometry::mesh::Mesh;
use boardwright::geometry::path::{Path, Point, Segment};
use boardwright::output::export::{dxf, stl};
use boardwright::views::drawing::{Drawing, Item, Layer, Shape};
use criterion::{Criterion, criterion_group, criterion_main};
use nalgebra::Point3;
use std::f64::consts::TAU;
use std::hint::black_box;

/// 24 closed outlines of 300 vertices, every other piece an arc.
fn outlines() -> Drawing {
    let outline = |rib: u32| {
        let at = |i: u32| {
            let (sin, cos) = (TAU * f64::from(i % 300) / 300.0).sin_cos();
            let size = 1.0 + 0.02 * f64::from(rib);
            Point::new(
                250.123 * size * cos + f64::from(rib) * 600.0,
                30.456 * size * sin,
            )
        };
        let piece = |i: u32| match i % 2 {
            0 => Segment::Line { to: at(i + 1) },
            _ => Segment::Arc {
                to: at(i + 1),
                bulge: 0.003_217,
            },
        };
        Item {
            part: format!("rib-{rib:02}"),
            layer: Layer::OutsideCut,
            shape: Shape::Path(Path {
                start: at(0),
                segments: (0..300).map(piece).collect(),
                closed: true,
            }),
        }
    };
    Drawing {
        title: "ribs".into(),
        items: (1..=24).map(outline).collect(),
    }
}

/// A torus of a million triangles.
fn torus() -> Mesh {
    let (around, across) = (1000u32, 500u32);
    let vertex = |i: u32, j: u32| {
        let (sin, cos) = (TAU * f64::from(i) / f64::from(around)).sin_cos();
        let (rise, reach) = (TAU * f64::from(j) / f64::from(across)).sin_cos();
        let radius = 900.0 + 150.0 * reach;
        Point3::new(radius * cos, radius * sin, 150.0 * rise)
    };
    let index = |i: u32, j: u32| (i % around) * across + j % across;
    Mesh {
        name: "torus".into(),
        vertices: (0..around)
            .flat_map(|i| (0..across).map(move |j| vertex(i, j)))
            .collect(),
        triangles: (0..around)
            .flat_map(|i| {
                (0..across).flat_map(move |j| {
                    let [a, b] = [index(i, j), index(i + 1, j)];
                    let [c, d] = [index(i + 1, j + 1), index(i, j + 1)];
                    [[a, b, c], [a, c, d]]
                })
            })
            .collect(),
    }
}

fn writers(criterion: &mut Criterion) {
    let drawing = outlines();
    criterion.bench_function("dxf r2000, 24 outlines of 300", |bencher| {
        bencher.iter(|| dxf::write(black_box(&drawing), &dxf::DxfOptions::default()).unwrap());
    });

    let meshes = [torus()];
    let bytes = stl::write(&meshes, "torus").unwrap();
    let folder = std::env::temp_dir().join(format!("boardwright-bench-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("torus.stl");
    let mut group = criterion.benchmark_group("a million triangles");
    group.sample_size(10);
    group.bench_function("raw write of the bytes", |bencher| {
        bencher.iter(|| std::fs::write(&file, black_box(&bytes)).unwrap());
    });
    group.bench_function("stl gate and bytes", |bencher| {
        bencher.iter(|| stl::write(black_box(&meshes), "torus").unwrap());
    });
    group.bench_function("stl gate, bytes and write", |bencher| {
        bencher.iter(|| {
            let bytes = stl::write(black_box(&meshes), "torus").unwrap();
            std::fs::write(&file, bytes).unwrap();
        });
    });
    group.bench_function("mesh check", |bencher| {
        bencher.iter(|| black_box(&meshes[0]).check(1e-9));
    });
    group.finish();
    std::fs::remove_dir_all(&folder).unwrap();
}

criterion_group!(benches, writers);
criterion_main!(benches);
