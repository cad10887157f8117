//! Skins, mass and waterline on the screen, in the JSON and in the folder.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::program;
use program::{assert_code, empty, example, out, run_in};
use serde_json::Value;

const EXAMPLES: [&str; 3] = [
    "round-tail-6ft4.toml",
    "noserider-9ft4.toml",
    "twin-5ft8.toml",
];

fn number(report: &Value, path: &str) -> f64 {
    let found = report.pointer(path).and_then(Value::as_f64);
    found.unwrap_or_else(|| panic!("no number at {path}"))
}

#[test]
fn the_screen_tells_what_the_json_says() {
    let folder = empty("cli-whole");
    for name in EXAMPLES {
        let file = example(name);
        let screen = run_in(&folder, &["check", &file]);
        assert_code(&screen, 0);
        let text = out(&screen);
        let json = run_in(&folder, &["check", &file, "--json"]);
        let report: Value = serde_json::from_slice(&json.stdout).unwrap();
        let line = |start: &str| {
            let found = text.lines().find(|l| l.trim_start().starts_with(start));
            found.unwrap_or_else(|| panic!("no line {start}:\n{text}"))
        };
        for heading in ["Skins", "Mass", "Afloat"] {
            assert!(text.lines().any(|l| l.starts_with(heading)), "{heading}");
        }

        let skins = report["skins"]["skins"].as_array().unwrap();
        assert_eq!(skins.len(), 2);
        for skin in skins {
            let face = skin["face"].as_str().unwrap();
            let planks = skin["planks"].as_array().unwrap();
            let capital = format!("{}{}: ", face[..1].to_uppercase(), &face[1..]);
            assert!(line(&capital).contains(&format!("{} planks", planks.len())));
            let strain = &skin["strains"][0];
            assert_eq!(strain["cause"], "strain-along");
            let value = format!("{:+.3} %", strain["value"].as_f64().unwrap());
            let below = text
                .lines()
                .skip_while(|l| !l.trim_start().starts_with(&capital));
            let row = below
                .skip(1)
                .find(|l| l.trim_start().starts_with("strain along"));
            assert!(row.unwrap().contains(&value), "{value}");
            // Planks lie edge to edge over the panel's width.
            let wide: f64 = planks.iter().map(|p| p["width"].as_f64().unwrap()).sum();
            assert!((wide - skin["width"].as_f64().unwrap()).abs() < 0.01);
            let output = report["findings"].as_array().unwrap();
            let severe = ["relieve", "split"].contains(&skin["treatment"].as_str().unwrap());
            assert_eq!(
                severe,
                output.iter().any(|f| f["part"]["skin"] == face),
                "{face}"
            );
        }

        let parts = report["mass"]["parts"].as_array().unwrap();
        let sum: f64 = parts.iter().map(|p| p["mass"].as_f64().unwrap()).sum();
        assert!((sum - number(&report, "/mass/total")).abs() < 1e-3 * parts.len() as f64);
        let by_material: f64 = ["wood", "glue", "finish", "fittings"]
            .iter()
            .map(|m| number(&report, &format!("/mass/{m}")))
            .sum();
        assert!((by_material - sum).abs() < 5e-3);
        assert_eq!(number(&report, "/mass/centre/1"), 0.0);
        assert_eq!(report["units"]["mass"], "kg");

        let waters = report["afloat"].as_array().unwrap();
        assert_eq!(waters.len(), 2);
        for (water, density) in waters.iter().zip([1025.976, 999.1026]) {
            assert_eq!(water["density"].as_f64().unwrap(), density);
            assert_eq!(water["ridden"], false);
            let displaced = water["afloat"]["displaced"].as_f64().unwrap() * 1e-9 * density;
            assert!((displaced - water["mass"].as_f64().unwrap()).abs() < 1e-3);
            let trim = water["afloat"]["trim"].as_f64().unwrap();
            let way = if trim > 0.0 { "nose down" } else { "tail down" };
            let output = line(if density > 1000.0 {
                "sea, by itself"
            } else {
                "fresh water, by itself"
            });
            assert!(output.contains(way) || output.contains("level"), "{output}");
        }
    }
}

/// A rider whom the board cannot carry is told by how much, and the board is still made.
#[test]
fn a_rider_too_heavy_is_told_by_how_much() {
    let folder = empty("cli-rider");
    let text = std::fs::read_to_string(example("twin-5ft8.toml")).unwrap();
    std::fs::write(
        folder.join("rider.toml"),
        format!("{text}\n[rider]\nmass = 75\n"),
    )
    .unwrap();
    let screen = run_in(&folder, &["check", "rider.toml"]);
    assert_code(&screen, 0);
    let json = run_in(&folder, &["check", "rider.toml", "--json"]);
    let report: Value = serde_json::from_slice(&json.stdout).unwrap();
    let ridden = &report["afloat"][2];
    assert_eq!(ridden["ridden"], true);
    assert!(ridden["afloat"].is_null());
    let over = -ridden["spare"].as_f64().unwrap();
    let carries = number(&report, "/measures/volume") * 1e-9 * 1025.976;
    let wanted = 75.0 + number(&report, "/mass/total") - carries;
    assert!((over - wanted).abs() < 0.05, "{over} {wanted}");
    let output = out(&screen);
    let line = output
        .lines()
        .find(|l| l.contains("sea, with its rider"))
        .unwrap();
    assert!(line.contains(&format!("{over:.2} kg too heavy")), "{line}");
    assert!(line.contains("sinks"), "{line}");
}

/// What goes into the folder: templates, maps, tables, the page.
#[test]
fn the_folder_holds_skins_and_mass() {
    let folder = empty("cli-whole-folder");
    let built = run_in(&folder, &["build", &example("twin-5ft8.toml"), "-o", "out"]);
    assert_code(&built, 0);
    let read = |path: &str| std::fs::read_to_string(folder.join("out").join(path)).unwrap();
    for face in ["bottom", "deck"] {
        assert!(read(&format!("svg/{face}-skin.svg")).contains("NOSE"));
        assert!(read(&format!("dxf/{face}-skin.dxf")).contains("LWPOLYLINE"));
        for way in ["along", "across"] {
            let map = read(&format!("maps/{face}-strain-{way}.svg"));
            assert!(map.starts_with("<svg") && map.contains("from the tail"));
            assert!(read("index.html").contains(&format!("maps/{face}-strain-{way}.svg")));
        }
    }
    let csv = read("tables/mass.csv");
    assert!(csv.starts_with("part,material,of,pieces,volume (cm³),area (m²),mass (kg)"));
    assert!(csv.lines().last().unwrap().starts_with("whole,"));
    assert!(read("tables/skin-planks.csv").lines().count() > 8);
    assert_eq!(read("tables/skin-strains.csv").lines().count(), 9);
    assert_eq!(read("tables/afloat.csv").lines().count(), 3);
}
