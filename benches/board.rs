//! From design to files: `cargo bench --bench board`.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use boardwright::board::{Board, rail_planes};
use boardwright::design::{Design, parse};
use boardwright::frame::ribs;
use boardwright::output::{OutputOptions, files};
use boardwright::rail::{solve, strips};
use boardwright::shape::{BoardFamily, DEFAULT_TOLERANCE, loft, measures};
use boardwright::views::report::report;
use boardwright::views::solids::{MESH_TOLERANCE, shell_mesh};
use criterion::{Criterion, criterion_group, criterion_main};

fn design(name: &str) -> Design {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    parse(&text, name).unwrap()
}

/// The noserider with 24 ribs.
fn ribbed() -> Design {
    let design = design("noserider-9ft4");
    let (from, to) = (250.0, design.length - 330.0);
    let stations = (0..24)
        .map(|i| from + (to - from) * f64::from(i) / 23.0)
        .collect();
    design
        .with(|draft| draft.construction.rib_stations = stations)
        .unwrap()
}

/// The noserider two inches longer.
fn longer() -> Design {
    let text = std::fs::read_to_string("examples/noserider-9ft4.toml").unwrap();
    parse(
        &text
            .replace("9' 4\\\"", "9' 6\\\"")
            .replace("9' 4\"", "9' 6\""),
        "longer",
    )
    .unwrap()
}

/// Both faces and the centre of every rib.
fn rib_planes(design: &Design) -> Vec<f64> {
    let half = design.construction.rib / 2.0;
    design
        .construction
        .rib_stations
        .iter()
        .flat_map(|x| [x - half, *x, x + half])
        .collect()
}

fn kernel(c: &mut Criterion) {
    let design = ribbed();
    let family = BoardFamily::new(&design).unwrap();
    let shell = loft(&family, DEFAULT_TOLERANCE).unwrap();
    c.bench_function("loft", |b| {
        b.iter(|| loft(black_box(&family), DEFAULT_TOLERANCE).unwrap())
    });
    c.bench_function("measures", |b| {
        b.iter(|| measures(black_box(&shell)).unwrap())
    });
    c.bench_function("volume and areas", |b| {
        b.iter(|| shell.half_integrals().unwrap())
    });
    let planes = rib_planes(&design);
    c.bench_function("loft, 24 ribs and their rail stacks", |b| {
        b.iter(|| {
            let family = BoardFamily::new(black_box(&design)).unwrap();
            let shell = loft(&family, DEFAULT_TOLERANCE).unwrap();
            let rail = solve(&shell, &design.construction, &planes).unwrap();
            ribs(&design, &rail).unwrap()
        });
    });
    let all = rail_planes(&design, 10.0);
    c.bench_function("rail of the whole board, strips included", |b| {
        b.iter(|| strips(&solve(&shell, &design.construction, black_box(&all)).unwrap()).unwrap());
    });
    let long = longer();
    let of_long = loft(&BoardFamily::new(&long).unwrap(), DEFAULT_TOLERANCE).unwrap();
    let planes = rail_planes(&long, 10.0);
    c.bench_function("rail of a 9'6\" board, strips included", |b| {
        b.iter(|| {
            strips(&solve(&of_long, &long.construction, black_box(&planes)).unwrap()).unwrap()
        });
    });
    c.bench_function("mesh to 0.1 mm", |b| {
        b.iter(|| shell_mesh(black_box(&shell), MESH_TOLERANCE).unwrap());
    });
}

fn whole(c: &mut Criterion) {
    let design = design("noserider-9ft4");
    c.bench_function("board", |b| {
        b.iter(|| Board::new(black_box(design.clone())).unwrap())
    });
    let board = Board::new(design.clone()).unwrap();
    c.bench_function("report, remedies tried", |b| {
        b.iter(|| report(black_box(&board)));
    });
    c.bench_function("board, report and all files", |b| {
        b.iter(|| {
            let board = Board::new(black_box(design.clone())).unwrap();
            files(&board, &report(&board), &OutputOptions::default()).unwrap()
        });
    });
}

criterion_group!(benches, kernel, whole);
criterion_main!(benches);
