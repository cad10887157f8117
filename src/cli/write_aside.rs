//! Writing a file beside its place, then renaming it, so that it is never seen half-written.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Writes a file beside `goal`, then renames it over `goal`.
pub(super) fn replace_file(goal: &Path, bytes: &[u8]) -> io::Result<()> {
    // Through a link, so that the link stays.
    let goal = fs::canonicalize(goal).unwrap_or_else(|_| goal.to_owned());
    let aside = create_beside(&goal)?;
    let done = write_whole(&aside, bytes).and_then(|()| fs::rename(&aside, &goal));
    if done.is_err() {
        let _ = fs::remove_file(&aside);
    }
    done
}

/// A new empty file next to `goal` with a name like it.
fn create_beside(goal: &Path) -> io::Result<PathBuf> {
    let name = goal.file_name().unwrap_or_default().to_string_lossy();
    let mut number: u64 = 1;
    loop {
        let path = folder_of(goal).join(format!(".{name}.unfinished-{number}"));
        match File::create_new(&path) {
            Ok(_) => return Ok(path),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => number += 1,
            Err(error) => return Err(error),
        }
    }
}

/// The folder a path is in; `.` for a bare name.
pub(super) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}

/// Writes a file and its content onto the disk.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    // A full disk is reported here at the latest.
    file.sync_data()
}
