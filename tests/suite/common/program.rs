//! Runs the program as a maker would.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The program, without colours asked for by the surroundings.
pub fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_boardwright"));
    command.env_remove("NO_COLOR");
    command
}

/// Runs it with `arguments` in `folder`.
pub fn run_in(folder: &Path, arguments: &[&str]) -> Output {
    program()
        .current_dir(folder)
        .args(arguments)
        .output()
        .unwrap()
}

pub fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

pub fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

#[track_caller]
pub fn assert_code(output: &Output, code: i32) {
    assert_eq!(
        output.status.code(),
        Some(code),
        "out:\n{}\nerr:\n{}",
        out(output),
        err(output)
    );
}

/// An empty folder below the test run's own.
pub fn empty(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

pub fn example(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    path.join(name).display().to_string()
}

/// Every file below `folder` with its content, by path.
pub fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    fn enter(root: &Path, folder: &Path, found: &mut Vec<(String, Vec<u8>)>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                enter(root, &path, found);
            } else {
                let name = path.strip_prefix(root).unwrap().display().to_string();
                found.push((name, std::fs::read(&path).unwrap()));
            }
        }
    }
    let mut found = Vec::new();
    enter(folder, folder, &mut found);
    found.sort();
    found
}

/// Names in `folder`, hidden ones too.
pub fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}
