//! A measured shape that is not the one entered is reported; a plausible board has no such report.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::wishes::{text, wish};
use boardwright::design::finding::{Code, Finding};
use boardwright::design::{Design, KeyPlace, parse, place_breaks};
use boardwright::shape::{DEFAULT_TOLERANCE, key_faults, measures, shape_findings, shell};
use proptest::prelude::*;

fn findings(design: &Design) -> Vec<Finding> {
    let shell = shell(design, DEFAULT_TOLERANCE).unwrap_or_else(|e| panic!("{e}"));
    shape_findings(design, &shell, &measures(&shell).unwrap())
}

fn fish(outline: &str, rocker: &str) -> String {
    format!(
        "name = \"fish\"\nunit = \"in\"\n[outline]\nlength = \"5' 6\\\"\"\nwidth = 21\n{outline}\
         [rocker]\n{rocker}[foil]\ncentre = \"2 3/8\"\n"
    )
}

/// A nose so steep that the bottom's normal runs flatter than the deck falls: calipers still find the deck, at the one height where a search
/// in small steps finds it.
#[test]
fn calipers_find_the_deck_of_a_nose_as_steep_as_a_wall() {
    let design = parse(&fish("", "nose = 17\n"), "f").unwrap();
    let shell = shell(&design, DEFAULT_TOLERANCE).unwrap();
    let (low, high) = shell.x_range();
    let mut steepest: f64 = 0.0;
    for part in 60..100 {
        let x = low + (high - low) * f64::from(part) / 100.0;
        let bottom = |x: f64| shell.centre_heights(x)[0];
        let slope = (bottom(x + 1e-3) - bottom(x - 1e-3)) / 2e-3;
        steepest = steepest.max(slope);
        let short = |h: f64| {
            let deck = shell.centre_heights((x - slope * h).clamp(low, high))[1];
            h - (deck - bottom(x))
        };
        const STEP: f64 = 0.02;
        let met: Vec<f64> = (0..10_000)
            .map(|k| f64::from(k) * STEP)
            .filter(|h| short(*h) < 0.0 && short(h + STEP) >= 0.0)
            .collect();
        assert_eq!(met.len(), 1, "{x}: {met:?}");
        let by = slope.hypot(1.0);
        let miss = shell.square_thickness(x) - met[0] * by;
        assert!((-1e-6..STEP * by + 1e-6).contains(&miss), "{x}: {miss}");
    }
    assert!(steepest > 1.4, "{steepest}");
    let thick = |f: &Finding| f.code == Code::ShapeThickness;
    assert!(!findings(&design).iter().any(thick));
}

/// Points of the foil so near to each other that the fair curve swells far beyond them.
#[test]
fn a_foil_that_swells_beyond_its_points_is_reported() {
    let file = "name = \"swell\"\n[outline]\nlength = 1676\nwidth = 533\n\
                [foil]\npoints = [[0, 15], [600, 58], [660, 64], [1676, 15]]\n";
    let found = findings(&parse(file, "f").unwrap());
    let thick = found.iter().find(|f| f.code == Code::ShapeThickness);
    let thick = thick.unwrap();
    assert_eq!(thick.limit, Some(64.0));
    assert!(
        thick.value.unwrap() > 1.1 * thick.limit.unwrap(),
        "{thick:?}"
    );
}

/// The widest place goes where the nose's width asks for it: entered 35 in, found beyond 49 in.
#[test]
fn a_wide_point_that_moved_is_reported() {
    let found = findings(&parse(&fish("wide_point = 35\nnose_width = 20.9\n", ""), "f").unwrap());
    let moved = found
        .iter()
        .find(|t| t.code == Code::ShapeWidePoint)
        .unwrap();
    assert!((moved.limit.unwrap() - 35.0 * 25.4).abs() < 1e-9);
    assert!(moved.value.unwrap() > 45.0 * 25.4, "{moved:?}");
    assert_eq!(moved.place.unwrap().x, moved.value);
}

/// A tail almost as wide as the board right behind the wide point: the outline is at fault, not the foil.
#[test]
fn a_tail_too_wide_is_the_outline_s_fault() {
    let file = fish("wide_point = 15\ntail_width = 20.9\n", "");
    let design = parse(&file, "f.toml").unwrap();
    let error = shell(&design, DEFAULT_TOLERANCE).unwrap_err().to_string();
    assert!(
        error.contains("outline") && !error.contains("foil"),
        "{error}"
    );
    let faults = key_faults(&design);
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert_eq!(faults[0].places, [KeyPlace::of("outline.tail_width")]);
    let placed = place_breaks(&file, "f.toml", &faults).unwrap();
    let fault = &placed.list()[0];
    assert_eq!((fault.line, fault.offending.as_str()), (7, "20.9"));
    assert!(fault.remedy.contains("tail_width"));
}

/// A tail or nose wider than the board is a fault of that key, with a remedy.
#[test]
fn an_end_wider_than_the_board_is_a_fault_of_its_key() {
    for key in ["nose_width", "tail_width"] {
        let faults = parse(&fish(&format!("{key} = 21.5\n"), ""), "f.toml").unwrap_err();
        let fault = &faults.list()[0];
        assert_eq!((fault.line, fault.offending.as_str()), (6, "21.5"));
        assert!(fault.remedy.contains(key));
    }
}

/// A batten through these heights dips below the base plane between them, and the whole line is lifted for it.
#[test]
fn a_rocker_that_dips_is_reported() {
    let rocker = "points = [[0, 3], [8, 0], [33, 0.5], [60, 0], [66, 6]]\n";
    let found = findings(&parse(&fish("", rocker), "f").unwrap());
    assert!(
        found.iter().any(|t| t.code == Code::ShapeRocker),
        "{found:?}"
    );
}

#[test]
fn the_examples_are_as_entered() {
    for entry in std::fs::read_dir("examples").unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "toml") {
            let design = parse(&std::fs::read_to_string(&path).unwrap(), "x").unwrap();
            assert_eq!(findings(&design), [], "{}", path.display());
        }
    }
    assert_eq!(
        findings(&parse(boardwright::design::starter(), "x").unwrap()),
        []
    );
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 96,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(10),
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_plausible_board_is_as_entered(wish in wish()) {
        let text = text(&wish);
        prop_assert_eq!(findings(&parse(&text, "x").unwrap()), [], "{}", text);
    }
}
