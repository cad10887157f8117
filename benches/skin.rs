//! Speed of skins and hydrostatics. Our aims, on one core: both skins of a board in under 120 ms, its waterline in under 200 ms.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::board::afloat::{Load, Water, afloat};
use boardwright::shape::{DEFAULT_TOLERANCE, shell};
use boardwright::wood::skin::{SkinOptions, flatten, skins};
use criterion::{Criterion, criterion_group, criterion_main};

fn developed(c: &mut Criterion) {
    for name in ["round-tail-6ft4", "twin-5ft8", "noserider-9ft4"] {
        let path = format!("{}/examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("example");
        let design = boardwright::design::parse(&text, name).expect("a sound design");
        let shell = shell(&design, DEFAULT_TOLERANCE).expect("lofts");
        let options = SkinOptions::default();
        c.bench_function(&format!("both skins of {name}, surface and all"), |b| {
            b.iter(|| skins(&shell, &design.construction, &options));
        });
        let [bottom, _] = skins(&shell, &design.construction, &options).expect("develops");
        let flat = flatten(&bottom.points, &bottom.triangles).expect("lies flat");
        println!("{} vertices, {} rounds", flat.flat.len(), flat.rounds);
        c.bench_function(&format!("bottom of {name} laid flat"), |b| {
            b.iter(|| flatten(&bottom.points, &bottom.triangles));
        });
        let load = Load {
            mass: 6.0,
            centre: [design.length * 0.49, 40.0],
        };
        c.bench_function(&format!("{name} afloat"), |b| {
            b.iter(|| afloat(&shell, load, Water::Sea));
        });
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = developed
}
criterion_main!(benches);
