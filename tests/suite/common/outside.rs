//! Checks by other people's programs: what they need, and a loud line for each that is left out.
//!
//! `BOARDWRIGHT_OUTSIDE=all` turns a missing program into a failure, `none` leaves all such checks out; otherwise those
//! run whose programs are there. `tests/run` installs them.

use std::io::Write;
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};

static LEFT_OUT: AtomicUsize = AtomicUsize::new(0);

/// What the environment says of missing programs.
fn wish() -> String {
    std::env::var("BOARDWRIGHT_OUTSIDE").unwrap_or_default()
}

/// What `found` gives; `None`, after a line on the terminal, where its program is missing.
pub fn use_program<T>(found: impl FnOnce() -> Result<T, String>) -> Option<T> {
    let wish = wish();
    let found = match wish.as_str() {
        "none" => Err("BOARDWRIGHT_OUTSIDE is none".to_owned()),
        _ => found(),
    };
    match found {
        Ok(found) => Some(found),
        Err(reason) if wish == "all" => panic!("BOARDWRIGHT_OUTSIDE is all, and {reason}"),
        Err(reason) => {
            leave_out(&reason);
            None
        }
    }
}

/// Says that the calling test leaves out its outside check. Written past the test runner, which keeps printed lines of
/// passing tests to itself.
pub fn leave_out(reason: &str) {
    let number = LEFT_OUT.fetch_add(1, Ordering::SeqCst) + 1;
    let thread = std::thread::current();
    let test = thread.name().unwrap_or("a test").to_owned();
    let reason = reason.trim().replace('\n', " ");
    let line = format!(
        "OUTSIDE CHECK LEFT OUT in {test}: {reason}; tests/run installs what it needs ({number} left out so far)\n"
    );
    let _ = std::io::stderr().write_all(line.as_bytes());
}

/// The first of `names` on the PATH.
pub fn on_path(names: &[&str]) -> Result<PathBuf, String> {
    let folders = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&folders)
        .flat_map(|folder| names.iter().map(move |name| folder.join(name)))
        .find(|path| path.is_file())
        .ok_or_else(|| format!("none of {names:?} is on the PATH"))
}
