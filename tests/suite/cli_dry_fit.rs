//! `boardwright dry-fit` as a user meets it.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::process::{Command, Output};

use serde_json::Value;

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_boardwright"))
        .arg("dry-fit")
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap()
}

#[test]
fn a_board_that_goes_together_says_so() {
    let told = run(&["examples/twin-5ft8.toml", "--strict"]);
    let text = String::from_utf8(told.stdout).unwrap();
    assert_eq!(told.status.code(), Some(0), "{text}");
    for words in [
        "Dry fit",
        "rib on bottom skin",
        "cove on bead",
        "strip to block",
        "Everything goes together.",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
}

#[test]
fn every_pair_is_in_the_json() {
    let told = run(&["examples/round-tail-6ft4.toml", "--json"]);
    assert_eq!(told.status.code(), Some(0));
    let value: Value = serde_json::from_slice(&told.stdout).unwrap();
    let pairs = value["contacts"].as_array().unwrap();
    assert_eq!(value["past_limits"], 0);
    let ribs = pairs.iter().filter(|p| p["kind"] == "rib-on-bottom");
    assert_eq!(ribs.count(), 7);
    for pair in pairs {
        for side in pair["parts"].as_array().unwrap() {
            assert!(value["parts"].as_array().unwrap().contains(side), "{pair}");
        }
        let overlap = &pair["overlap"];
        assert!(overlap.is_null() || overlap["value"].as_f64().unwrap() > 0.0);
    }
}

#[test]
fn a_file_that_is_not_there_ends_with_3() {
    let told = run(&["nowhere.toml"]);
    assert_eq!(told.status.code(), Some(3));
    assert!(
        String::from_utf8(told.stderr)
            .unwrap()
            .contains("nowhere.toml")
    );
}
