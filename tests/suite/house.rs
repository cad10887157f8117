//! Rules of the house: imports run downward, and what the README says can be done.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use crate::common::imports::{Sources, circles, uses};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// DEVELOPERS.md's table of rooms: each room and what it may know, in the table's order.
fn rooms() -> Vec<(String, BTreeSet<String>)> {
    let text = read("DEVELOPERS.md");
    let quoted = |cell: &str| -> Vec<String> {
        let words = cell.split('`').skip(1).step_by(2);
        words.map(|w| w.trim_end_matches('/').to_owned()).collect()
    };
    let rows = text
        .lines()
        .skip_while(|line| !line.starts_with("| room |"))
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    rows.map(|row| {
        let cells: Vec<&str> = row.split('|').collect();
        (
            quoted(cells[1])[0].clone(),
            quoted(cells[3]).into_iter().collect(),
        )
    })
    .collect()
}

/// The room a path from the crate's root lies in: the longest that the table has.
fn room_of<'a>(rooms: &'a [(String, BTreeSet<String>)], path: &[String]) -> Option<&'a str> {
    let names = (1..=path.len()).rev().map(|n| path[..n].join("::"));
    let found = names.filter_map(|name| rooms.iter().find(|r| r.0 == name));
    found.map(|r| r.0.as_str()).next()
}

#[test]
fn imports_run_downward() {
    let rooms = rooms();
    let order: BTreeMap<&str, usize> = rooms
        .iter()
        .enumerate()
        .map(|(i, (room, _))| (room.as_str(), i))
        .collect();
    for (room, knows) in &rooms {
        for other in knows {
            let below = order
                .get(other.as_str())
                .is_some_and(|o| o < &order[room.as_str()]);
            assert!(
                below,
                "the table lets {room} know {other}, which is not below it"
            );
        }
    }
    let sources = Sources::read(&root().join("src"));
    let mut used: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for module in sources.modules() {
        let Some(room) = room_of(&rooms, module) else {
            // A wing's page only declares its rooms.
            assert!(
                sources.named(module).is_empty() && module.len() == 1,
                "{module:?} is missing from DEVELOPERS.md's table of rooms"
            );
            continue;
        };
        for path in sources.named(module) {
            let Some(other) = room_of(&rooms, &path).filter(|other| *other != room) else {
                continue;
            };
            let knows = &rooms[order[room]].1;
            assert!(
                knows.contains(other),
                "{module:?} uses {path:?}, which DEVELOPERS.md does not let {room} know"
            );
            used.entry(room).or_default().insert(other.to_owned());
        }
    }
    for (room, knows) in &rooms {
        let used = used.remove(room.as_str()).unwrap_or_default();
        assert_eq!(
            &used, knows,
            "what {room} knows, by the code and by the table"
        );
    }
    let wings: BTreeSet<&str> = rooms
        .iter()
        .filter_map(|r| r.0.split("::").next())
        .collect();
    assert!(wings.len() <= 10, "{wings:?}");
}

#[test]
fn no_files_use_each_other_in_a_circle() {
    let found = circles(&Sources::read(&root().join("src")));
    let lines = found.iter().map(|circle| {
        let files = circle.iter().map(|module| module.join("/"));
        files.collect::<Vec<_>>().join(", ")
    });
    let lines: Vec<String> = lines.collect();
    assert!(
        lines.is_empty(),
        "files that use each other:\n{}",
        lines.join("\n")
    );
}

#[test]
fn imports_are_found_in_every_writing() {
    let text = "use crate::a::B;\nuse crate::{c::{D, e}, f::self};\npub(super) use g::h as k;\nfn x() { y(); }\nuse super::l;";
    let found = uses(text).into_iter();
    let found: Vec<String> = found.map(|(_, path)| path.join("::")).collect();
    let expected = [
        "crate::a::B",
        "crate::c::D",
        "crate::c::e",
        "crate::f",
        "g::h",
        "super::l",
    ];
    assert_eq!(found, expected);
}

/// The lines of the README's code blocks for a shell.
fn commands() -> Vec<String> {
    let text = read("README.md");
    let mut inside = false;
    let mut found = Vec::new();
    for line in text.lines() {
        if line.starts_with("```") {
            inside = line == "```sh";
        } else if inside {
            found.push(line.to_owned());
        }
    }
    found
}

#[test]
fn the_readme_s_commands_are_real() {
    let commands = commands();
    let [build, test, ..] = commands.as_slice() else {
        panic!("the README has no two commands");
    };
    let arguments = build
        .strip_prefix("cargo run --release -- ")
        .unwrap_or_else(|| panic!("{build}"));
    let words: Vec<&str> = arguments.split(' ').collect();
    assert!(root().join(words[1]).is_file(), "{}", words[1]);
    let out = Path::new(env!("CARGO_TARGET_TMPDIR")).join("readme");
    let _ = fs::remove_dir_all(&out);
    assert_eq!(words[2], "-o");
    let status = std::process::Command::new(env!("CARGO_BIN_EXE_boardwright"))
        .current_dir(root())
        .args([words[0], words[1], words[2]])
        .arg(&out)
        .output()
        .unwrap()
        .status;
    assert!(status.success());
    assert!(out.join("index.html").is_file());

    // The script for a fresh machine ends with exactly the README's test command.
    let script = read(".ci/run");
    assert_eq!(script.lines().last(), Some(test.as_str()));
}

#[test]
fn the_readme_s_pictures_and_links_are_there() {
    for page in ["README.md", "DEVELOPERS.md"] {
        for link in read(page).split("](").skip(1) {
            let target = link.split(')').next().unwrap();
            if !target.contains("://") && !target.starts_with('#') {
                assert!(root().join(target).exists(), "{page}: {target}");
            }
        }
    }
}

/// Source files that DEVELOPERS.md names are there, by their path below the project's folder or below `src`.
#[test]
fn the_files_named_for_developers_are_there() {
    let text = read("DEVELOPERS.md");
    let named = text.split('`').skip(1).step_by(2);
    let files =
        named.filter(|name| name.contains('/') && name.ends_with(".rs") && !name.contains('*'));
    for file in files {
        let there = [file.to_owned(), format!("src/{file}")];
        assert!(there.iter().any(|f| root().join(f).is_file()), "{file}");
    }
}

/// The compiler's version that the package asks for is no older than any of its dependencies asks for.
#[test]
fn the_stated_rust_version_is_enough_for_the_dependencies() {
    // Packages for other systems need not be on this machine.
    let rustc = std::process::Command::new("rustc")
        .arg("-vV")
        .output()
        .unwrap();
    let rustc = String::from_utf8(rustc.stdout).unwrap();
    let host = rustc
        .lines()
        .find_map(|line| line.strip_prefix("host: "))
        .unwrap();
    let listed = std::process::Command::new(env!("CARGO"))
        .current_dir(root())
        .args([
            "metadata",
            "--format-version",
            "1",
            "--offline",
            "--locked",
            "--filter-platform",
            host,
        ])
        .output()
        .unwrap();
    assert!(
        listed.status.success(),
        "{}",
        String::from_utf8_lossy(&listed.stderr)
    );
    let listed: serde_json::Value = serde_json::from_slice(&listed.stdout).unwrap();
    let version = |package: &serde_json::Value| -> Vec<u32> {
        let text = package["rust_version"].as_str().unwrap_or_default();
        text.split('.')
            .filter_map(|n| n.parse().ok())
            .take(2)
            .collect()
    };
    let packages = listed["packages"].as_array().unwrap();
    let ours = packages
        .iter()
        .find(|p| p["name"] == "boardwright")
        .unwrap();
    for package in packages {
        assert!(
            version(package) <= version(ours),
            "{} asks for more",
            package["name"]
        );
    }
}

/// The committed pictures are what the program draws today.
#[test]
fn the_pictures_are_fresh() {
    use boardwright::{board::Board, design, output::export::svg, views::sheets};
    let text = read("examples/round-tail-6ft4.toml");
    let board = Board::new(design::parse(&text, "x").unwrap()).unwrap();
    let sheets = sheets::sheets(&board).unwrap();
    for name in ["rib-04", "outline", "spine"] {
        let sheet = sheets.iter().find(|s| s.name == name).unwrap();
        let drawn = svg::write(&sheet.drawing, &svg::SvgOptions::default()).unwrap();
        assert!(
            drawn == read(&format!("examples/pictures/{name}.svg")),
            "{name} is stale: run `cargo run --release --example pictures`"
        );
    }
}
