//! Cutting stock: published instances, and a rail's whole plan.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::{Arrangement, LaminationPlane, Starter, Strip};
use boardwright::wood::stock::cutting::{StripNeed, cutting_plan};
use boardwright::wood::stock::lengths::{PieceLength, Problem, Stock};
use boardwright::wood::stock::{CourseKind, Plank, Profiles, Shop};
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;

fn instance(text: &str) -> Problem {
    let numbers: Vec<u32> = text
        .lines()
        .filter(|line| !line.starts_with('#'))
        .flat_map(str::split_whitespace)
        .filter_map(|word| word.parse().ok())
        .collect();
    Problem {
        stock: vec![Stock {
            length: numbers[0],
            cost: 1,
            count: None,
        }],
        pieces: numbers[3..]
            .iter()
            .map(|&length| PieceLength { length, count: 1 })
            .collect(),
    }
}

fn rail(courses: usize) -> Vec<StripNeed> {
    let mut needs = vec![
        StripNeed::new(1, CourseKind::Starter, 2900.0, 2, 0),
        StripNeed::new(2, CourseKind::Starter, 2888.0, 2, 0),
        StripNeed::new(3, CourseKind::BeadOnly, 2905.0, 2, 1),
    ];
    needs.extend((0..courses).map(|k| {
        let shorter = 37.0 * k as f64 + 1.5 * (k * k) as f64;
        let mut need = StripNeed::new(k + 4, CourseKind::BeadAndCove, 2900.0 - shorter, 2, k + 2);
        need.start = shorter / 2.0;
        need.no_scarf_zones = vec![(0.0, 350.0), (need.length - 600.0, need.length)];
        need
    }));
    needs
}

fn plank(length: f64, width: f64, thickness: f64, count: Option<u32>, price: f64) -> Plank {
    Plank {
        name: format!("{thickness} × {width}"),
        length,
        width,
        thickness,
        count,
        price,
        nominal: None,
    }
}

fn stock(c: &mut Criterion) {
    for (name, text) in [
        (
            "u120_00",
            include_str!("../tests/fixtures/binpack_u120_00.txt"),
        ),
        (
            "t60_00",
            include_str!("../tests/fixtures/binpack_t60_00.txt"),
        ),
    ] {
        let problem = instance(text);
        c.bench_function(name, |b| {
            b.iter(|| black_box(&problem).solve(Problem::EFFORT))
        });
    }
    let profiles = Profiles {
        strip: Strip {
            thickness: 6.0,
            width: 12.7,
            bead_radius: 3.0,
            cove_radius: 3.0,
            cove_depth: 2.5,
        },
        starter: Starter {
            size: 8.0,
            count: 2,
            laminations: 1,
            lamination_plane: LaminationPlane::Vertical,
            arrangement: Arrangement::SideBySide,
        },
    };
    let scarfed = Shop {
        planks: vec![
            plank(2400.0, 150.0, 50.0, None, 38.0),
            plank(1800.0, 200.0, 38.0, Some(2), 25.0),
        ],
        ..Shop::default()
    };
    let whole = Shop {
        planks: vec![plank(4200.0, 150.0, 50.0, None, 70.0)],
        ..Shop::default()
    };
    let needs = rail(27);
    let strips: u32 = needs.iter().map(|n| n.count).sum();
    for (name, shop) in [("scarfed", &scarfed), ("long planks", &whole)] {
        let plan = cutting_plan(&needs, &profiles, shop).unwrap();
        println!(
            "{strips} strips and spares, {name}: {} planks, gap {:.4}, with any scarf {:.4}, lanes {:.4}",
            plan.expense.planks,
            plan.gap(),
            plan.gap_any_scarf(),
            plan.gap_lanes()
        );
        c.bench_function(
            &format!("rail of {strips} strips and spares, {name}"),
            |b| {
                b.iter(|| cutting_plan(black_box(&needs), &profiles, shop));
            },
        );
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = stock
}
criterion_main!(benches);
