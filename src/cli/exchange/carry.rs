//! Second names for the maker's files in the new folder, while the first ones stay.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::identity::Identity;
use crate::cli::signals::Signals;

/// The files of the old folder that may go: each with its identity then, and that of its second name.
#[derive(Debug, Default)]
pub(super) struct Records(BTreeMap<PathBuf, (Identity, Option<Identity>)>);

impl Records {
    /// Adds files that were looked at and are replaced.
    pub fn add_replaced(&mut self, files: &BTreeMap<String, Identity>) {
        let files = files
            .iter()
            .map(|(path, file)| (PathBuf::from(path), (file.clone(), None)));
        self.0.extend(files);
    }

    /// Whether the old folder's file at `path` is the one that was looked at, or one with its second name.
    pub fn accounts_for(&self, path: &Path, old: &Identity) -> bool {
        self.0.get(path).is_some_and(|(first, second)| {
            first == old || second.as_ref().is_some_and(|s| s.is_same_file(old))
        })
    }

    /// Whether the goal's file at `path` is the second name that was put there.
    pub fn placed(&self, path: &Path, new: &Identity) -> bool {
        let second = self.0.get(path).and_then(|(_, second)| second.as_ref());
        second.is_some_and(|second| second == new || second.is_same_file(new))
    }
}

/// Gives each of `paths` below `old` a second name below `new`.
pub(super) fn carry<'a>(
    old: &Path,
    new: &Path,
    paths: impl Iterator<Item = &'a String>,
    signals: &Signals,
) -> io::Result<Records> {
    let mut work = Carry {
        old,
        new,
        disk: Identity::new(&fs::metadata(old)?).disk(),
        signals,
        records: Records::default(),
    };
    for path in paths {
        if let Some(parent) = new.join(path).parent() {
            fs::create_dir_all(parent)?;
        }
        work.entry(Path::new(path))?;
    }
    Ok(work.records)
}

struct Carry<'a> {
    old: &'a Path,
    new: &'a Path,
    disk: u64,
    signals: &'a Signals,
    records: Records,
}

impl Carry<'_> {
    fn entry(&mut self, path: &Path) -> io::Result<()> {
        self.signals.check()?;
        let (old, new) = (self.old.join(path), self.new.join(path));
        let found = fs::symlink_metadata(&old)?;
        let identity = Identity::new(&found);
        if !found.is_dir() {
            let linked = fs::hard_link(&old, &new);
            linked.or_else(|error| copy(&old, &new, &found, error))?;
            let second = Identity::new(&fs::symlink_metadata(&new)?);
            self.records
                .0
                .insert(path.to_owned(), (identity, Some(second)));
            return Ok(());
        }
        if identity.disk() != self.disk {
            return Err(io::Error::other(format!(
                "another disk is mounted at {}; unmount it, or name another folder with -o",
                old.display()
            )));
        }
        fs::create_dir(&new)?;
        for entry in fs::read_dir(&old)? {
            self.entry(&path.join(entry?.file_name()))?;
        }
        // Times first: a folder without leave to write does not take them. They are worth no failure.
        if let (Ok(folder), Ok(modified)) = (fs::File::open(&new), found.modified()) {
            let _ = folder.set_modified(modified);
        }
        fs::set_permissions(&new, found.permissions())
    }
}

/// A copy of a file or link that can have no second name, which failed with `error`.
fn copy(old: &Path, new: &Path, found: &fs::Metadata, error: io::Error) -> io::Result<()> {
    if found.is_symlink() {
        return copy_link(&fs::read_link(old)?, new, error);
    }
    if !found.is_file() {
        return Err(error);
    }
    fs::copy(old, new)?;
    let file = fs::File::open(new)?;
    if let Ok(modified) = found.modified() {
        let _ = file.set_modified(modified);
    }
    file.sync_all()
}

#[cfg(unix)]
fn copy_link(target: &Path, new: &Path, _: io::Error) -> io::Result<()> {
    std::os::unix::fs::symlink(target, new)
}

#[cfg(not(unix))]
fn copy_link(_: &Path, _: &Path, error: io::Error) -> io::Result<()> {
    Err(error)
}
