//! The main job on the three examples, read back by foreign programs.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::program;
use crate::common::python;
use std::path::{Path, PathBuf};

use program::{assert_code, empty, example, run_in};
use serde_json::Value;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

/// Each example's folder and its report.
fn build_all(name: &str) -> Vec<(PathBuf, Value)> {
    let folder = empty(name);
    let build = |name: &&str| {
        let file = example(&format!("{name}.toml"));
        let arguments = ["build", &file, "-o", name, "--r12"];
        assert_code(&run_in(&folder, &arguments), 0);
        let out = folder.join(name);
        let report = std::fs::read(out.join("board.json")).unwrap();
        (out, serde_json::from_slice(&report).unwrap())
    };
    EXAMPLES.iter().map(build).collect()
}

/// Paths below `folder` that end so.
fn found(folder: &Path, below: &str, ending: &str) -> Vec<String> {
    let all = program::files(&folder.join(below));
    let paths = all.into_iter().filter(|f| f.0.ends_with(ending));
    paths
        .map(|f| folder.join(below).join(f.0).display().to_string())
        .collect()
}

fn close(a: f64, b: f64, tolerance: f64) -> bool {
    (a - b).abs() <= tolerance
}

#[test]
fn every_drawing_passes_the_auditor_in_closed_millimetres() {
    for (folder, report) in build_all("end-dxf") {
        let ribs = report["ribs"].as_array().unwrap();
        let mut files = found(&folder, "dxf", ".dxf");
        // Planks with their cuts are for the saw, and come in one version.
        let is_plank = |file: &String| file.contains("/plank-");
        let usual = files.iter().filter(|f| !is_plank(f)).count();
        let planks = files.len() - usual;
        let named = |name: &str| files.iter().any(|f| f.ends_with(&format!("/{name}.dxf")));
        for rib in ribs {
            assert!(named(&format!(
                "rib-{:02}",
                rib["number"].as_u64().unwrap()
            )));
        }
        for name in [
            "spine",
            "outline",
            "rocker",
            "bottom-skin",
            "deck-skin",
            "tail-block",
            "nose-block",
            "bed",
            "all-templates",
        ] {
            assert!(named(name), "{name}");
        }
        files.extend(found(&folder, "dxf-r12", ".dxf"));
        assert_eq!(files.len(), 2 * (usual + planks));
        let arguments: Vec<&str> = files.iter().map(String::as_str).collect();
        let Some(seen) = python::run("check_dxf.py", &arguments) else {
            return;
        };
        let (mut in_new, mut in_old, mut all) = (0, 0, Vec::new());
        for (file, seen) in files.iter().zip(seen.as_array().unwrap()) {
            assert_eq!(seen["errors"], Value::Array(vec![]), "{file}");
            assert_eq!(seen["fixes"], Value::Array(vec![]), "{file}");
            let entities = seen["entities"].as_array().unwrap();
            assert_eq!(seen["recovered"].as_u64(), Some(entities.len() as u64));
            if !file.contains("r12") {
                assert_eq!(seen["insunits"], 4, "{file}");
                assert_eq!(seen["measurement"], 1, "{file}");
            }
            if is_plank(file) {
                continue;
            }
            let cuts: Vec<&Value> = entities
                .iter()
                .filter(|e| {
                    let layer = e["layer"].as_str().unwrap();
                    layer.eq_ignore_ascii_case("outside-cut")
                        || layer.eq_ignore_ascii_case("outside_cut")
                })
                .collect();
            let stem = file.rsplit('/').next().unwrap().trim_end_matches(".dxf");
            let kind = if file.contains("r12") {
                &mut in_old
            } else {
                &mut in_new
            };
            if stem == "all-templates" {
                all.push((file.contains("r12"), cuts.len()));
            } else {
                *kind += cuts.len();
            }
            let one = ["rib-", "cradle-"]
                .iter()
                .any(|lead| stem.starts_with(lead));
            if one || ["outline", "rocker", "bottom-skin", "deck-skin"].contains(&stem) {
                assert_eq!(cuts.len(), 1, "{file}: one contour a part");
            }
            if ["tail-block", "nose-block", "pads"].contains(&stem) {
                assert!(!cuts.is_empty(), "{file}");
            }
            // What is longer than the sheet is not to be cut, and no stretch of a rule stands where a tool goes.
            let board: Value =
                serde_json::from_slice(&std::fs::read(folder.join("board.json")).unwrap()).unwrap();
            if board["spine"]["pieces"].as_u64().unwrap() > 1 {
                let worked = |e: &&Value| {
                    let layer = e["layer"].as_str().unwrap().to_lowercase();
                    !["scale", "reference", "text"].contains(&layer.as_str())
                };
                if stem == "spine" {
                    assert_eq!(entities.iter().filter(worked).count(), 0, "{file}");
                }
                let ends = &board["spine"]["ends"];
                let whole = ends[1].as_f64().unwrap() - ends[0].as_f64().unwrap();
                for cut in &cuts {
                    let side = |k: usize| cut["box"][k].as_f64().unwrap();
                    let skin_or_outline = side(3) - side(1) > 150.0 || stem == "rocker";
                    let length = side(2) - side(0);
                    assert!(
                        stem == "all-templates" && skin_or_outline || (length - whole).abs() > 1.0,
                        "{file}: a spine {length} long"
                    );
                }
            }
            // No step too small for a tool, no arc that a straight line would do for.
            if ["rib-", "spine"].iter().any(|lead| stem.starts_with(lead)) {
                for cut in &cuts {
                    let of = |key: &str| cut[key].as_f64().unwrap();
                    assert!(of("shortest") > 0.05, "{file}: {}", of("shortest"));
                    // Half a micrometre, less what rounding to 0.1 µm takes.
                    assert!(of("least_rise") > 4.5e-4, "{file}: {}", of("least_rise"));
                }
            }
            // The rule and the square, 23 lines a sheet, are on a layer of their own and nowhere else.
            let on = |layer: &str| {
                let is = |e: &&Value| e["layer"].as_str().unwrap().eq_ignore_ascii_case(layer);
                entities
                    .iter()
                    .filter(is)
                    .filter(|e| e["kind"] != "TEXT")
                    .count()
            };
            assert!(
                on("scale") > 0 && on("scale") % 23 == 0,
                "{file}: {}",
                on("scale")
            );
            for cut in cuts {
                assert_eq!(cut["closed"], true, "{file}");
                let area = cut["area"].as_f64().unwrap();
                assert!(area > 0.0, "{file}: counter-clockwise, {area} mm²");
            }
            for entity in entities {
                let none = entity.get("zero_length").is_none_or(|n| *n == 0);
                assert!(none, "{file}: {entity}");
            }
        }
        // The combined sheet has every part once.
        for (old, cuts) in all {
            assert_eq!(cuts, if old { in_old } else { in_new });
        }
    }
}

/// What a foreign reader measures on the drawings is what the report says.
#[test]
fn the_drawings_measure_what_the_report_says() {
    for (folder, report) in build_all("end-measure") {
        let mut files: Vec<String> = Vec::new();
        let ribs = report["ribs"].as_array().unwrap();
        for rib in ribs {
            files.push(format!("rib-{:02}", rib["number"].as_u64().unwrap()));
        }
        files.extend(["outline".to_owned(), "spine".to_owned()]);
        let files: Vec<String> = files
            .iter()
            .map(|f| folder.join(format!("dxf/{f}.dxf")).display().to_string())
            .collect();
        let arguments: Vec<&str> = files.iter().map(String::as_str).collect();
        let Some(seen) = python::run("check_dxf.py", &arguments) else {
            return;
        };
        let size = |seen: &Value| {
            let entities = seen["entities"].as_array().unwrap();
            let side = |e: &Value, i: usize| e["box"][i].as_f64().unwrap();
            // A spine that is cut in pieces is whole for reference only.
            let drawn = |layer: &str| {
                let of = entities
                    .iter()
                    .filter(|e| e["layer"] == layer && e["closed"] == true);
                let wide = |e: &Value| side(e, 2) - side(e, 0);
                of.max_by(|a, b| wide(a).total_cmp(&wide(b)))
            };
            let cut = drawn("outside-cut").or_else(|| drawn("reference")).unwrap();
            let corner = |i: usize| side(cut, i);
            [corner(2) - corner(0), corner(3) - corner(1)]
        };
        let seen = seen.as_array().unwrap();
        for (rib, seen) in ribs.iter().zip(seen) {
            let [width, height] = size(seen);
            assert!(close(width, rib["width"].as_f64().unwrap(), 1e-3));
            assert!(close(height, rib["height"].as_f64().unwrap(), 1e-3));
        }
        let [length, half] = size(&seen[ribs.len()]);
        let measure = |key: &str| report["measures"][key].as_f64().unwrap();
        assert!(close(length, measure("length"), 0.05), "{length}");
        assert!(close(2.0 * half, measure("width"), 0.05), "{half}");
        let [spine, _] = size(&seen[ribs.len() + 1]);
        let ends = &report["spine"]["ends"];
        let between = ends[1].as_f64().unwrap() - ends[0].as_f64().unwrap();
        assert!(close(spine, between, 1e-3), "{spine}");
    }
}

#[test]
fn the_meshes_are_solids_of_the_board_s_volume() {
    for (folder, report) in build_all("end-stl") {
        let files = found(&folder, "stl", ".stl");
        let arguments: Vec<&str> = files.iter().map(String::as_str).collect();
        let Some(seen) = python::run("check_stl.py", &arguments) else {
            return;
        };
        for (file, seen) in files.iter().zip(seen.as_array().unwrap()) {
            let volume = seen["volume"].as_f64().unwrap();
            assert!(volume > 0.0, "{file}");
            assert_eq!(seen["winding"], true, "{file}");
            if file.ends_with("shell.stl") {
                assert_eq!(seen["watertight"], true, "{file}");
                let measures = &report["measures"];
                let exact = measures["volume"].as_f64().unwrap();
                // A mesh within 0.1 mm of the surface, nearly always inside it.
                let room = 0.1 * measures["surface_area"].as_f64().unwrap();
                assert!(close(volume, exact, room), "{file}: {volume} for {exact}");
                let length = seen["high"][0].as_f64().unwrap() - seen["low"][0].as_f64().unwrap();
                assert!(close(length, measures["length"].as_f64().unwrap(), 0.1));
            }
        }
    }
}
