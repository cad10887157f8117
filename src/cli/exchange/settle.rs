//! The end of a folder that came out of the exchange.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::carry::Records;
use super::identity::Identity;
use super::tree;
use crate::output::{MANIFEST, Manifest};

/// Removes `old`, all of whose content is in `goal` or was replaced there; moves what is new in it to `goal`. Gives the
/// files that could not be placed and stay, by their path in `old`.
///
/// The list of files goes last, so that a later run can finish the work.
pub(super) fn settle(old: &Path, goal: &Path, records: &Records) -> Vec<PathBuf> {
    let mut work = Settle {
        old,
        goal,
        records,
        manifest: None,
        kept: Vec::new(),
    };
    work.folder(Path::new(""));
    if work.kept.is_empty() {
        let _ = fs::remove_file(old.join(MANIFEST));
        let _ = fs::remove_dir(old);
    }
    work.kept
}

struct Settle<'a> {
    old: &'a Path,
    goal: &'a Path,
    records: &'a Records,
    /// The old folder's list of files, read when first needed.
    manifest: Option<Option<Manifest>>,
    kept: Vec<PathBuf>,
}

impl Settle<'_> {
    fn folder(&mut self, path: &Path) {
        let place = self.old.join(path);
        tree::unlock(&place);
        let Ok(entries) = fs::read_dir(&place) else {
            self.kept.push(path.to_owned());
            return;
        };
        for entry in entries.flatten() {
            let below = path.join(entry.file_name());
            if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
                self.folder(&below);
                let _ = fs::remove_dir(entry.path());
            } else if below != Path::new(MANIFEST) || !self.lists_files() {
                self.file(&below);
            }
        }
    }

    fn file(&mut self, path: &Path) {
        let (old, new) = (self.old.join(path), self.goal.join(path));
        if !self.place(path, &old, &new).unwrap_or(false) {
            self.kept.push(path.to_owned());
        }
    }

    /// Removes or moves one file; false where it must stay.
    fn place(&mut self, path: &Path, old: &Path, new: &Path) -> io::Result<bool> {
        let found = fs::symlink_metadata(old)?;
        let identity = Identity::new(&found);
        if self.records.accounts_for(path, &identity) || self.is_listed(path, &found)? {
            fs::remove_file(old)?;
            return Ok(true);
        }
        match fs::symlink_metadata(new) {
            Err(error) if error.kind() == io::ErrorKind::NotFound && self.goal.is_dir() => {
                if let Some(parent) = new.parent() {
                    fs::create_dir_all(parent)?;
                }
                fs::rename(old, new)?;
            }
            Err(error) => return Err(error),
            Ok(there) if self.records.placed(path, &Identity::new(&there)) => {
                fs::rename(old, new)?;
            }
            Ok(there) if is_same(old, &found, new, &there)? => fs::remove_file(old)?,
            Ok(_) => return Ok(false),
        }
        Ok(true)
    }

    fn lists_files(&mut self) -> bool {
        self.manifest().is_some()
    }

    /// Whether boardwright wrote the file, and nobody changed it.
    fn is_listed(&mut self, path: &Path, found: &fs::Metadata) -> io::Result<bool> {
        let Some(manifest) = self.manifest().filter(|_| found.is_file()) else {
            return Ok(false);
        };
        let entry = manifest.files.iter().find(|f| Path::new(&f.path) == path);
        let Some(entry) = entry.cloned() else {
            return Ok(false);
        };
        Ok(entry.matches(&fs::read(self.old.join(path))?))
    }

    fn manifest(&mut self) -> Option<&Manifest> {
        let place = self.old.join(MANIFEST);
        let read = || Manifest::parse(&fs::read(place).ok()?);
        self.manifest.get_or_insert_with(read).as_ref()
    }
}

/// Whether two files have one content, or two links one target.
fn is_same(
    one: &Path,
    first: &fs::Metadata,
    other: &Path,
    second: &fs::Metadata,
) -> io::Result<bool> {
    if Identity::new(first).is_same_file(&Identity::new(second)) {
        return Ok(true);
    }
    if first.is_symlink() && second.is_symlink() {
        return Ok(fs::read_link(one)? == fs::read_link(other)?);
    }
    let alike = first.is_file() && second.is_file() && first.len() == second.len();
    Ok(alike && fs::read(one)? == fs::read(other)?)
}
