//! Rules of the house: imports run downward, and what the README says can be done.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
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

/// The rooms that `text` names after `crate::`, also within braces.
fn named(text: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    let code = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let code: String = code.collect::<Vec<_>>().join("\n");
    let word = |s: &str| -> String {
        s.chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '_')
            .collect()
    };
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        match rest.strip_prefix('{') {
            None => {
                names.insert(word(rest));
            }
            Some(list) => {
                let mut depth = 0;
                let mut first = true;
                for (i, c) in list.char_indices() {
                    match c {
                        '{' => depth += 1,
                        '}' if depth == 0 => break,
                        '}' => depth -= 1,
                        ',' if depth == 0 => first = true,
                        c if first && c.is_ascii_alphabetic() => {
                            names.insert(word(&list[i..]));
                            first = false;
                        }
                        _ => {}
                    }
                }
            }
        }
    }
    names
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
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    let mut used: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for file in files {
        let below = file.strip_prefix(root().join("src")).unwrap();
        let first = below.iter().next().unwrap().to_str().unwrap();
        let room = first.trim_end_matches(".rs");
        if matches!(room, "lib" | "main") {
            continue;
        }
        let Some((_, knows)) = rooms.iter().find(|r| r.0 == room) else {
            panic!("{room} is missing from DEVELOPERS.md's table of rooms");
        };
        for other in named(&fs::read_to_string(&file).unwrap()) {
            if other != room {
                assert!(
                    knows.contains(&other),
                    "{} uses crate::{other}, which DEVELOPERS.md does not let {room} know",
                    below.display()
                );
                used.entry(room.to_owned()).or_default().insert(other);
            }
        }
    }
    for (room, knows) in &rooms {
        let used = used.remove(room).unwrap_or_default();
        assert_eq!(
            &used, knows,
            "what {room} knows, by the code and by the table"
        );
    }
}

#[test]
fn imports_are_found_in_every_writing() {
    let text = "use crate::a::B;\nuse crate::{c::{D, e}, f};\n// crate::no\nlet x = crate::g::h();";
    let expected = ["a", "c", "f", "g"].map(str::to_owned);
    assert_eq!(named(text), BTreeSet::from(expected));
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
