//! Runs the checkers in `tests/python` in an environment of their own, made once from pinned versions.

use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::Command;

use super::outside;

const REQUIREMENTS: &str = include_str!("../../python/requirements.txt");

/// Runs `script` of `tests/python` and returns what it printed as JSON; panics when it finds faults. `None` where the
/// environment cannot be had.
pub fn run(script: &str, arguments: &[&str]) -> Option<serde_json::Value> {
    let interpreter = outside::use_program(interpreter)?;
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/python")
        .join(script);
    let mut command = Command::new(interpreter);
    let output = command.arg(&path).args(arguments).output().unwrap();
    let (out, err) = (
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr),
    );
    assert!(
        output.status.success(),
        "{script} found faults:\n{out}\n{err}"
    );
    Some(serde_json::from_str(&out).unwrap())
}

/// A new folder below the test run's own.
pub fn scratch(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// The environment's interpreter. The first caller of all test processes makes the environment while the others wait
/// at a lock file; `tests/run` makes it beforehand, while the tests are compiled.
fn interpreter() -> Result<PathBuf, String> {
    let root = Path::new(env!("CARGO_TARGET_TMPDIR")).join("python");
    fs::create_dir_all(&root).unwrap();
    let lock = File::create(root.join("lock")).unwrap();
    lock.lock().unwrap();
    let environment = root.join("env");
    let folder = if cfg!(windows) { "Scripts" } else { "bin" };
    let python = environment.join(folder).join("python");
    let ready = root.join("ready");
    if fs::read_to_string(&ready).is_ok_and(|text| text == REQUIREMENTS) {
        return Ok(python);
    }
    let _ = fs::remove_dir_all(&environment);
    let system = match std::env::var_os("PYTHON") {
        Some(python) => PathBuf::from(python),
        None => outside::on_path(&["python3", "python.exe"])?,
    };
    let list = root.join("requirements.txt");
    fs::write(&list, REQUIREMENTS).unwrap();
    step(Command::new(system).args(["-m", "venv"]).arg(&environment))?;
    let install = "-m pip install --quiet --disable-pip-version-check -r";
    let mut pip = Command::new(&python);
    step(pip.args(install.split(' ')).arg(&list))?;
    fs::write(ready, REQUIREMENTS).unwrap();
    Ok(python)
}

fn step(command: &mut Command) -> Result<(), String> {
    const NEEDS: &str = "Python 3.11 or later with venv and a package index are needed";
    let output = command
        .output()
        .map_err(|error| format!("{command:?} did not start ({error}): {NEEDS}"))?;
    if output.status.success() {
        return Ok(());
    }
    let errors = String::from_utf8_lossy(&output.stderr).into_owned();
    Err(format!("{command:?} failed: {NEEDS}: {errors}"))
}
