//! `boardwright check`.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::program;
use std::io::Write;
use std::process::Stdio;

use program::{assert_code, empty, err, example, names, out, program, run_in};
use serde_json::Value;

const EXAMPLES: [&str; 3] = [
    "round-tail-6ft4.toml",
    "noserider-9ft4.toml",
    "twin-5ft8.toml",
];

/// Columns narrow enough for an everyday terminal.
const WIDEST: usize = 80;

#[test]
fn the_screen_and_the_json_agree() {
    let folder = empty("cli-check");
    for name in EXAMPLES {
        let file = example(name);
        let screen = run_in(&folder, &["check", &file]);
        assert_code(&screen, 0);
        let text = out(&screen);
        assert!(text.lines().all(|l| l.chars().count() <= WIDEST), "{text}");
        assert!(text.lines().all(|l| l == l.trim_end()), "{text}");

        let json = run_in(&folder, &["check", &file, "--json"]);
        assert_code(&json, 0);
        let report: Value = serde_json::from_slice(&json.stdout).unwrap();
        let number = |path: &str| report.pointer(path).unwrap().as_f64().unwrap();
        let line = |start: &str| {
            let found = text.lines().find(|l| l.trim_start().starts_with(start));
            found.unwrap_or_else(|| panic!("no line {start}:\n{text}"))
        };
        let litres = format!("{:.1} L", number("/measures/volume") / 1e6);
        assert!(line("volume").contains(&litres), "{litres}");
        let length = format!("{:.1}", number("/measures/length"));
        assert!(line("length").contains(&length), "{length}");
        // Both are rounded, the screen to hundredths of a millimetre or thousandths of an inch, so a tie may fall either way.
        let inch = if report["report"] == "mm" { 1.0 } else { 25.4 };
        let shows = |start: &str, path: &str| {
            let words: Vec<&str> = line(start).split_whitespace().collect();
            words.windows(2).any(|pair| {
                let (unit, half) = match (pair[0].ends_with('°'), inch > 1.0) {
                    (false, true) => (inch, 0.0005 * inch),
                    _ => (1.0, 0.005),
                };
                let shown = pair[0].trim_end_matches('°').parse::<f64>();
                shown.is_ok_and(|n| (n * unit - number(path)).abs() < 1.1 * half)
            })
        };
        assert!(shows("Rail", "/rail/guide_depth"), "{text}");
        assert!(shows("joint angle", "/rail/at_ribs/roll/value"), "{text}");
        assert!(shows("wood behind", "/rail/at_ribs/cover/value"), "{text}");
        let ribs = report["ribs"].as_array().unwrap();
        assert!(line("Frame").contains(&format!("{} ribs of", ribs.len())));

        // Every remedy once, every place of every warning.
        let findings = report["findings"].as_array().unwrap();
        for group in findings.iter().filter(|f| f["topic"] == "rail") {
            let places = group["places"].as_array().unwrap();
            assert!(!places.is_empty());
            for place in places {
                let words = format!("course {}: ", place["course"]);
                assert!(text.contains(&words), "{words}");
            }
        }
        assert_eq!(text.matches("    → ").count(), findings.len());
        let remedies: usize = findings
            .iter()
            .map(|t| t["remedies"].as_array().unwrap().len())
            .sum();
        assert_eq!(text.matches("      or ").count(), remedies - findings.len());

        // Strips and wood.
        let kinds = report["strips"]["kinds"].as_array().unwrap();
        let a_side: u64 = kinds.iter().map(|k| k["count"].as_u64().unwrap()).sum();
        assert!(line("Strips").contains(&format!("{a_side} a side")));
        for (row, name) in report["strips"]["worst"].as_array().unwrap().iter().zip([
            "bend the easy way",
            "bend the hard way",
            "twist",
        ]) {
            let used = format!("{:.2}", row["ratio"].as_f64().unwrap());
            assert!(line(name).contains(&used), "{used}");
            let over = row["ratio"].as_f64().unwrap() > 1.0;
            let code = match row["strained"].as_str().unwrap() {
                "easy-way" => "bend-easy-way",
                "hard-way" => "bend-hard-way",
                twist => twist,
            };
            let told = findings.iter().any(|f| f["code"] == code);
            assert_eq!(over, told, "{row}");
        }
        let feet = format!("{:.2} board feet", number("/wood/totals/board_feet"));
        assert!(line("to buy").contains(&feet), "{feet}");
        let shares = ["yielded", "spare", "kept", "waste"];
        let shares = shares.map(|s| number(&format!("/wood/totals/{s}")));
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-3);
        assert_eq!(
            report["wood"]["plan"]["proven"].as_bool().unwrap(),
            line("plan ").contains(" possible")
        );
        assert!(!line("Rail wood").contains("assumed"));
    }
    assert!(names(&folder).is_empty());
}

/// The design says what the board must measure.
#[test]
fn the_json_has_the_design_s_own_measures() {
    let folder = empty("cli-check-measures");
    let output = run_in(&folder, &["check", &example(EXAMPLES[0]), "--json"]);
    let report: Value = serde_json::from_slice(&output.stdout).unwrap();
    let measures = &report["measures"];
    let near = |key: &str, expected: f64, tolerance: f64| {
        let found = measures[key].as_f64().unwrap();
        assert!((found - expected).abs() < tolerance, "{key}: {found}");
    };
    near("length", 76.0 * 25.4, 0.01);
    near("width", 20.25 * 25.4, 0.01);
    near("nose_width", 11.75 * 25.4, 0.01);
    near("tail_width", 14.125 * 25.4, 0.01);
    near("centre_thickness", 2.625 * 25.4, 0.1);
    near("nose_rocker", 4.875 * 25.4, 0.1);
}

#[test]
fn strict_turns_warnings_into_4() {
    let folder = empty("cli-strict");
    let mut warned = 0;
    for name in EXAMPLES {
        let file = example(name);
        let json = run_in(&folder, &["check", &file, "--json", "--strict"]);
        let report: Value = serde_json::from_slice(&json.stdout).unwrap();
        let findings = report["findings"].as_array().unwrap();
        let warnings = findings.iter().any(|f| f["severity"] != "note");
        assert_code(&json, if warnings { 4 } else { 0 });
        warned += usize::from(warnings);
    }
    // A strip that cannot go round.
    std::fs::write(folder.join("wide.toml"), wide()).unwrap();
    assert_code(&run_in(&folder, &["check", "wide.toml"]), 0);
    assert_code(&run_in(&folder, &["check", "wide.toml", "--strict"]), 4);
    eprintln!("{warned} of the examples warn");
}

/// The starter with strips far too wide for its rail.
fn wide() -> String {
    let text = boardwright::design::starter();
    let changed = text.replace("\nwidth = 12.7\n", "\nwidth = 24\n");
    assert_ne!(text, changed);
    changed
}

#[test]
fn faults_are_told_with_their_places() {
    let folder = empty("cli-faults");
    let text = "name = \"x\"\n[outline]\nlenght = 1900\nwidth = \"2 parsecs\"\n";
    std::fs::write(folder.join("bad.toml"), text).unwrap();
    let told = run_in(&folder, &["check", "bad.toml"]);
    assert_code(&told, 1);
    assert!(out(&told).is_empty());
    let words = err(&told);
    for part in [
        "bad.toml:3:1: ",
        "did you mean `length`?",
        "bad.toml:4:12: ",
        "width = \"2 parsecs\"",
        "^^^",
    ] {
        assert!(words.contains(part), "{part} in\n{words}");
    }

    let json = run_in(&folder, &["check", "bad.toml", "--json"]);
    assert_code(&json, 1);
    let faults: Value = serde_json::from_slice(&json.stdout).unwrap();
    let faults = faults["faults"].as_array().unwrap();
    assert!(
        faults
            .iter()
            .any(|f| f["line"] == 3 && f["column"] == 1 && f["offending"] == "lenght")
    );
    assert_eq!(words.matches("bad.toml:").count(), faults.len());
}

#[test]
fn bad_toml_is_a_fault_of_the_design() {
    let folder = empty("cli-bad-toml");
    std::fs::write(folder.join("bad.toml"), "name = \"x\n[outline\n").unwrap();
    let told = run_in(&folder, &["check", "bad.toml"]);
    assert_code(&told, 1);
    assert!(err(&told).contains("bad.toml:1:"), "{}", err(&told));
}

#[test]
fn files_that_cannot_be_read_end_with_3() {
    let folder = empty("cli-unreadable");
    std::fs::create_dir(folder.join("folder")).unwrap();
    std::fs::write(folder.join("picture.toml"), [b'n', 0xff, 0xfe]).unwrap();
    for (file, words) in [
        ("nowhere.toml", "boardwright new"),
        ("folder", "is a folder"),
        ("picture.toml", "UTF-8"),
        ("picture.toml/x", "picture.toml/x"),
    ] {
        for command in [&["check", file][..], &["build", file, "-o", "out"]] {
            let told = run_in(&folder, command);
            assert_code(&told, 3);
            assert!(err(&told).contains(words), "{}", err(&told));
        }
    }
    assert_eq!(names(&folder), ["folder", "picture.toml"]);
}

/// A sound file of which no board can be made: a bottom that rises past the apex.
#[test]
fn a_board_that_cannot_be_made_ends_with_1() {
    let folder = empty("cli-cannot");
    let text = "name=\"x\"\n[outline]\nlength=1900\nwidth=520\n[foil]\ncentre=30\n\
                [[section]]\nat=300\ncontour=\"roll\"\ncontour_depth=25\n";
    std::fs::write(folder.join("thin.toml"), text).unwrap();
    for command in [
        &["check", "thin.toml"][..],
        &["build", "thin.toml", "-o", "out"],
    ] {
        let told = run_in(&folder, command);
        assert_code(&told, 1);
        assert!(
            err(&told).contains("no board can be made"),
            "{}",
            err(&told)
        );
    }
    let json = run_in(&folder, &["check", "thin.toml", "--json"]);
    assert_code(&json, 1);
    let value: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert!(value["error"].as_str().unwrap().contains("mm"));
    assert_eq!(names(&folder), ["thin.toml"]);
}

/// Crowns that no deck can have are faults with places, all in one run, though only the drawn foil shows them.
#[test]
fn every_impossible_crown_is_shown_in_its_place() {
    let folder = empty("cli-crowns");
    let text = "name=\"x\"\n[outline]\nlength=1900\nwidth=520\n[foil]\ncentre=66\n\
                [[section]]\nat=1500\ncrown=39\n[[section]]\nat=300\ncrown=38\n";
    std::fs::write(folder.join("dome.toml"), text).unwrap();
    for command in [
        &["check", "dome.toml"][..],
        &["build", "dome.toml", "-o", "out"],
        &["dry-fit", "dome.toml"],
    ] {
        let told = run_in(&folder, command);
        assert_code(&told, 1);
        for words in ["dome.toml:9:7:", "dome.toml:12:7:", "`crown` of at most"] {
            assert!(err(&told).contains(words), "{}", err(&told));
        }
    }
    let json = run_in(&folder, &["check", "dome.toml", "--json"]);
    assert_code(&json, 1);
    let value: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(value["faults"].as_array().unwrap().len(), 2);
    assert_eq!(names(&folder), ["dome.toml"]);
}

#[test]
fn a_design_can_come_through_a_pipe() {
    let mut child = program()
        .args(["check", "-", "--json"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    stdin
        .write_all(boardwright::design::starter().as_bytes())
        .unwrap();
    drop(stdin);
    let output = child.wait_with_output().unwrap();
    assert_code(&output, 0);
    let report: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(report["name"], "first board");
}

/// A file that names no planks is told so, and a twisted strip alone makes `--strict` end with 4.
#[test]
fn planks_that_are_assumed_are_said_to_be() {
    let folder = empty("cli-assumed");
    let text = "name = 'Least'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n";
    std::fs::write(folder.join("least.toml"), text).unwrap();
    let told = run_in(&folder, &["check", "least.toml"]);
    assert_code(&told, 0);
    let heading = out(&told);
    let heading = heading
        .lines()
        .find(|l| l.starts_with("Rail wood"))
        .unwrap();
    assert!(heading.contains("planks assumed"), "{heading}");
}

/// Of a long file a reader sees the first faults and how many more there are; of a long line, the part that matters.
#[test]
fn absurd_files_give_few_lines() {
    let folder = empty("cli-absurd");
    let unknown: String = (0..50_000).map(|i| format!("k{i}=1\n")).collect();
    std::fs::write(folder.join("keys.toml"), unknown).unwrap();
    let refused = run_in(&folder, &["check", "keys.toml"]);
    assert_code(&refused, 1);
    let words = err(&refused);
    let json = run_in(&folder, &["check", "keys.toml", "--json"]);
    let all: Value = serde_json::from_slice(&json.stdout).unwrap();
    let all = all["faults"].as_array().unwrap().len();
    assert!(all >= 50_000, "{all}");
    assert_eq!(words.matches(" | ").count(), 2 * 50, "{words}");
    assert!(words.contains(&format!("and {} more", all - 50)), "{words}");

    let long = format!("name = \"{}\" x\n", "a".repeat(400_000));
    std::fs::write(folder.join("line.toml"), long).unwrap();
    let refused = run_in(&folder, &["check", "line.toml"]);
    assert_code(&refused, 1);
    assert!(err(&refused).len() < 4000, "{}", err(&refused).len());

    std::fs::write(folder.join("large.toml"), vec![b'#'; 1_000_001]).unwrap();
    let refused = run_in(&folder, &["check", "large.toml"]);
    assert_code(&refused, 3);
    assert!(
        err(&refused).contains("larger than 1000 kB"),
        "{}",
        err(&refused)
    );
}

/// An endless file ends, too.
#[cfg(unix)]
#[test]
fn an_endless_file_is_refused() {
    let refused = run_in(&empty("cli-endless"), &["check", "/dev/zero"]);
    assert_code(&refused, 3);
}

/// A reader that goes away early does not turn a faulty design into a sound one.
#[cfg(unix)]
#[test]
fn a_closed_pipe_keeps_the_exit_code() {
    let folder = empty("cli-closed-pipe");
    std::fs::write(folder.join("bad.toml"), "name = 3\n").unwrap();
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let arguments = ["check", "bad.toml", "--json"];
    let mut command = program();
    let status = command
        .current_dir(&folder)
        .args(arguments)
        .stdout(writer)
        .status();
    assert_eq!(status.unwrap().code(), Some(1));
}

/// What weighs nothing has no centre of mass, and no line says otherwise.
#[test]
fn nothing_weighs_nothing_aloud() {
    let folder = empty("cli-weightless");
    let least = "name='x'\n[outline]\nlength=1900\nwidth=520\n[foil]\ncentre=66\n";
    for (i, more) in ["glue = 0", "mass = 0", "kind = 'none'\nglue = 0"]
        .iter()
        .enumerate()
    {
        let file = format!("{i}.toml");
        std::fs::write(folder.join(&file), format!("{least}[finish]\n{more}\n")).unwrap();
        let text = out(&run_in(&folder, &["check", &file]));
        assert!(
            text.contains("Mass") && !text.contains("NaN"),
            "{more}:\n{text}"
        );
        assert_code(&run_in(&folder, &["build", &file, "-o", "out"]), 0);
        for page in ["index.html", "milling.html", "board.json"] {
            let text = std::fs::read_to_string(folder.join("out").join(page)).unwrap();
            assert!(!text.contains("NaN"), "{more}: {page}");
        }
    }
}
