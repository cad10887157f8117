//! Writing beside the place wanted, then renaming, so that nothing half-written is ever left or seen.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use crate::output::OutFile;

/// A folder being filled next to where it will stand; it goes away unless it is put there.
#[derive(Debug)]
pub(super) struct Aside {
    path: PathBuf,
    /// Folders above, made for it, from the lowest up.
    parents: Vec<PathBuf>,
    /// What was written into it, so that nothing else is ever removed.
    written: Vec<PathBuf>,
    kept: bool,
}

impl Aside {
    /// A new folder next to `goal`, with the folders above it.
    pub fn new(goal: &Path) -> io::Result<Self> {
        let parent = folder_of(goal);
        let missing = |path: &&Path| !path.as_os_str().is_empty() && !path.exists();
        let parents: Vec<PathBuf> = parent
            .ancestors()
            .take_while(missing)
            .map(Path::to_owned)
            .collect();
        let mut aside = Self {
            path: PathBuf::new(),
            parents,
            written: Vec::new(),
            kept: false,
        };
        fs::create_dir_all(parent)?;
        aside.path = spare(goal, "unfinished", |path| fs::create_dir(path))?;
        Ok(aside)
    }

    /// Where it is for now.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Writes `files` into it and onto the disk.
    pub fn fill(&mut self, files: &[OutFile]) -> io::Result<()> {
        for file in files {
            let path = self.path.join(&file.path);
            fs::create_dir_all(folder_of(&path))?;
            self.written.push(path.clone());
            write_whole(&path, &file.bytes)?;
        }
        Ok(())
    }

    /// Puts it where it is wanted; nothing may be there. Where that fails `undo` is called while it still exists.
    pub fn put(mut self, goal: &Path, undo: impl FnOnce()) -> io::Result<()> {
        fs::rename(&self.path, goal).inspect_err(|_| undo())?;
        self.kept = true;
        Ok(())
    }
}

impl Drop for Aside {
    fn drop(&mut self) {
        if self.kept {
            return;
        }
        if !self.path.as_os_str().is_empty() {
            for path in &self.written {
                let _ = fs::remove_file(path);
            }
            remove_empty(&self.path);
        }
        for parent in &self.parents {
            let _ = fs::remove_dir(parent);
        }
    }
}

/// Writes a file beside `goal`, then renames it over `goal`.
pub(super) fn replace_file(goal: &Path, bytes: &[u8]) -> io::Result<()> {
    // Through a link, so that the link stays.
    let goal = fs::canonicalize(goal).unwrap_or_else(|_| goal.to_owned());
    let aside = spare(&goal, "unfinished", |path| File::create_new(path).map(drop))?;
    let done = write_whole(&aside, bytes).and_then(|()| fs::rename(&aside, &goal));
    if done.is_err() {
        let _ = fs::remove_file(&aside);
    }
    done
}

/// Makes something new next to `goal` with a name like it.
pub(super) fn spare(
    goal: &Path,
    why: &str,
    make: impl Fn(&Path) -> io::Result<()>,
) -> io::Result<PathBuf> {
    let name = goal.file_name().unwrap_or_default().to_string_lossy();
    let mut number = 1;
    loop {
        let path = folder_of(goal).join(format!(".{name}.{why}-{number}"));
        match make(&path) {
            Ok(()) => return Ok(path),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < 1000 => {
                number += 1;
            }
            Err(error) => return Err(error),
        }
    }
}

/// Removes `folder` and the folders in it as far as they are empty.
pub(super) fn remove_empty(folder: &Path) {
    if let Ok(entries) = fs::read_dir(folder) {
        for entry in entries.flatten() {
            if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
                remove_empty(&entry.path());
            }
        }
    }
    let _ = fs::remove_dir(folder);
}

/// The folder a path is in; `.` for a bare name.
fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}

fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    // A full disk is told of here at the latest.
    file.sync_data()
}
