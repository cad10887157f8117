//! Parts of a board with 30 ribs: `cargo bench --bench parts`. Bound: frame, bed and skins in under 300 ms on one core.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use boardwright::board::afloat::{Load, float_states};
use boardwright::board::mass::{BoardParts, Mass};
use boardwright::board::{Board, rail_planes};
use boardwright::design::{Design, parse};
use boardwright::frame::bed::bed;
use boardwright::frame::{lighten, ribs, spine};
use boardwright::rail::solve;
use boardwright::shape::{BoardFamily, DEFAULT_TOLERANCE, loft};
use boardwright::wood::skin::Panels;
use criterion::{Criterion, criterion_group, criterion_main};

/// The noserider with 30 ribs.
fn ribbed() -> Design {
    let text = std::fs::read_to_string("examples/noserider-9ft4.toml").unwrap();
    let design = parse(&text, "noserider").unwrap();
    let (from, to) = (250.0, design.length - 330.0);
    let stations = (0..30)
        .map(|i| from + (to - from) * f64::from(i) / 29.0)
        .collect();
    design
        .with(|draft| draft.construction.rib_stations = stations)
        .unwrap()
}

fn parts(c: &mut Criterion) {
    let design = ribbed();
    let construction = &design.construction;
    let family = BoardFamily::new(&design).unwrap();
    let shell = loft(&family, DEFAULT_TOLERANCE).unwrap();
    // Both faces and the centre of every rib.
    let half = construction.rib / 2.0;
    let at = |x: &f64| [x - half, *x, x + half];
    let planes: Vec<f64> = construction.rib_stations.iter().flat_map(at).collect();
    let frame = || {
        let rail = solve(&shell, construction, black_box(&planes)).unwrap();
        let (ribs, _) = ribs(&design, &rail).unwrap();
        let (spine, _) = spine(&shell, &design, &ribs).unwrap();
        (rail, lighten(construction, ribs, spine, &[], None).unwrap())
    };
    c.bench_function("frame of 30 ribs, rail stacks included", |b| b.iter(frame));
    c.bench_function("both skins: flat, judged, planked", |b| {
        b.iter(|| Panels::new(black_box(&design), &shell));
    });
    c.bench_function("building bed", |b| {
        b.iter(|| bed(&shell, black_box(&design)))
    });
    c.bench_function("frame of 30 ribs, bed and skins", |b| {
        b.iter(|| {
            let bed = bed(&shell, black_box(&design));
            (frame(), bed, Panels::new(&design, &shell))
        });
    });
    let board = Board::new(design.clone()).unwrap();
    let made = BoardParts {
        design: &board.design,
        shell: &board.shell,
        rail: &board.rail,
        strips: &board.strips,
        ribs: &board.ribs,
        spine: &board.spine,
        panels: &board.panels,
        blocks: &board.blocks,
        pads: &board.pads,
    };
    c.bench_function("mass", |b| b.iter(|| Mass::new(black_box(&made)).unwrap()));
    let load = Load {
        mass: board.mass.total,
        centre: board.mass.centre,
    };
    let rider = Load {
        mass: 40.0,
        centre: [1400.0, 200.0],
    };
    c.bench_function("afloat in two waters, alone and ridden", |b| {
        b.iter(|| float_states(black_box(&board.shell), load, Some(rider)).unwrap());
    });
    let all = rail_planes(&design, 10.0);
    c.bench_function("rail of the whole board", |b| {
        b.iter(|| solve(&shell, construction, black_box(&all)).unwrap());
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = parts
}
criterion_main!(benches);
