//! Bends and twist of strips on the example boards: against SciPy, and against themselves with planes twice as dense.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::board::{Board, rail_planes};
use boardwright::design::parse;
use boardwright::rail::{Darboux, Strip, solve, strips};
use serde_json::Value;

fn example(file: &str) -> Board {
    let text = std::fs::read_to_string(file).unwrap();
    Board::new(parse(&text, file).unwrap()).unwrap()
}

/// `fixtures/strip_path.json`, made by the script beside it: another kind of spline, another formula.
#[test]
fn one_strip_as_scipy_has_it() {
    let text = std::fs::read_to_string("tests/fixtures/strip_path.json").unwrap();
    let fixture: Value = serde_json::from_str(&text).unwrap();
    let board = example(fixture["design"].as_str().unwrap());
    let number = fixture["strip"].as_u64().unwrap() as usize;
    let strip = &board.strips[number - 1];
    let f = |v: &Value| v.as_f64().unwrap();
    // The points SciPy had must still be the strip's.
    for p in fixture["points"].as_array().unwrap() {
        let [x, y, z] = [&p[0], &p[1], &p[2]].map(f);
        let here = strip.path.point(x);
        let off = (here.y - y).hypot(here.z - z);
        assert!(
            off < 0.02,
            "the rail has changed by {off} mm at x = {x}: run strip_path.py again"
        );
    }
    let length = f(&fixture["length"]);
    assert!(
        (strip.length - length).abs() < 0.1,
        "{} against SciPy's {length}",
        strip.length
    );
    let mut worst = [0.0_f64; 3];
    for place in fixture["places"].as_array().unwrap() {
        let bend = strip.bend(f(&place["x"]));
        for (i, (ours, name)) in [
            (bend.easy, "easy"),
            (bend.hard, "hard"),
            (bend.twist, "twist"),
        ]
        .into_iter()
        .enumerate()
        {
            worst[i] = worst[i].max((ours - f(&place[name])).abs());
        }
    }
    println!("worst differences, 1/m: {:?}", worst.map(|w| 1e3 * w));
    // 1/m; the strip's own greatest are some 0.6, 0.5 and 1.
    assert!(worst.iter().all(|w| *w < 0.05e-3), "{worst:?}");
}

/// The greatest of each kind of bend hardly changes with planes twice as dense.
#[test]
fn bends_converge() {
    for name in ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"] {
        let board = example(&format!("examples/{name}.toml"));
        let planes = rail_planes(&board.design, 5.0);
        let fine = strips(&solve(&board.shell, &board.design.construction, &planes).unwrap());
        for (coarse, fine) in board.strips.iter().zip(&fine.unwrap()) {
            // What the ribs are cut to and the path that is drawn and measured are one.
            assert!(coarse.deviation < 0.02, "{name}: {}", coarse.deviation);
            for (what, kind) in [
                ("easy", (|b: &Darboux| b.easy) as fn(&Darboux) -> f64),
                ("hard", |b| b.hard),
                ("twist", |b| b.twist),
            ] {
                let greatest = |s: &Strip| {
                    s.worst(|p| kind(&p.bend).abs())
                        .map_or(0.0, |(value, _)| value)
                };
                let (a, b) = (greatest(coarse), greatest(fine));
                // Half of one in ten of what limits a strip of this trade: some 1.5 per metre.
                assert!(
                    (a - b).abs() < 0.03 * b + 0.03e-3,
                    "{name}, course {}, {what}: {a} and {b}",
                    coarse.course
                );
            }
        }
    }
}
