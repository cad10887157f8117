//! What is in a folder that is to be written anew, and what may happen to it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::exchange::Identity;
use crate::output::{MANIFEST, Manifest, OutFile};

/// What a folder holds, sorted by what may happen to it. Paths are below the folder, with `/` between names.
#[derive(Debug, Default)]
pub(super) struct Contents {
    /// Whether boardwright made the folder.
    pub ours: bool,
    /// Files that boardwright wrote and nobody changed.
    pub written: BTreeSet<String>,
    /// Files that boardwright wrote and somebody changed.
    pub changed: BTreeSet<String>,
    /// Anything else: files, links, and whole folders that hold none of boardwright's files.
    pub foreign: BTreeSet<String>,
    /// Those of `foreign` in the way of a new file or folder, and replaceable by it.
    pub replaceable: BTreeSet<String>,
    /// Those of `foreign` in the way of a new file or folder that cannot be replaced by it.
    pub blocking: BTreeSet<String>,
    /// The files that do not stay, as they were when looked at.
    pub replaced: BTreeMap<String, Identity>,
}

impl Contents {
    /// Looks at `folder`, into which `files` are to go.
    pub fn of(folder: &Path, files: &[OutFile]) -> io::Result<Self> {
        let manifest = match fs::read(folder.join(MANIFEST)) {
            Ok(bytes) => Manifest::parse(&bytes),
            Err(_) => None,
        };
        let mut look = Look {
            folder,
            new_files: files.iter().map(|f| f.path.as_str()).collect(),
            manifest: manifest.as_ref(),
            contents: Self {
                ours: manifest.is_some(),
                ..Self::default()
            },
        };
        look.enter("")?;
        Ok(look.contents)
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.written.is_empty() && self.changed.is_empty() && self.foreign.is_empty()
    }

    /// Everything that stays: foreign and not replaced.
    pub fn staying(&self) -> impl Iterator<Item = &String> {
        let stays = |path: &&String| !self.replaceable.contains(*path);
        self.foreign.iter().filter(stays)
    }
}

struct Look<'a> {
    folder: &'a Path,
    new_files: BTreeSet<&'a str>,
    manifest: Option<&'a Manifest>,
    contents: Contents,
}

impl Look<'_> {
    fn enter(&mut self, below: &str) -> io::Result<()> {
        for entry in fs::read_dir(self.folder.join(below))? {
            let entry = entry?;
            let kind = entry.file_type()?;
            let name = entry.file_name();
            // A name that is no text cannot be one of ours; it is carried along under its lossless path only if it can be named.
            let Some(name) = name.to_str() else {
                return Err(io::Error::other(format!(
                    "{} has a name that is not text; move it elsewhere",
                    entry.path().display()
                )));
            };
            let path = match below {
                "" => name.to_owned(),
                _ => format!("{below}/{name}"),
            };
            if kind.is_dir() {
                self.directory(path)?;
            } else {
                self.file(path, &entry.path(), kind.is_file())?;
            }
        }
        Ok(())
    }

    fn directory(&mut self, path: String) -> io::Result<()> {
        let inside = |other: &str| {
            other
                .strip_prefix(&path)
                .is_some_and(|rest| rest.starts_with('/'))
        };
        let listed = self.manifest.map_or(&[][..], |m| &m.files);
        if self.new_files.contains(path.as_str()) {
            self.contents.blocking.insert(path.clone());
            self.contents.foreign.insert(path);
        } else if self.new_files.iter().any(|file| inside(file))
            || listed.iter().any(|entry| inside(&entry.path))
        {
            self.enter(&path)?;
        } else {
            self.contents.foreign.insert(path);
        }
        Ok(())
    }

    fn file(&mut self, path: String, place: &PathBuf, plain: bool) -> io::Result<()> {
        // Before the file is read, so that a later change is seen.
        let identity = Identity::new(&fs::symlink_metadata(place)?);
        if let Some(manifest) = self.manifest.filter(|_| plain) {
            if path == MANIFEST {
                self.contents.replaced.insert(path.clone(), identity);
                self.contents.written.insert(path);
                return Ok(());
            }
            if let Some(entry) = manifest.files.iter().find(|entry| entry.path == path) {
                let same = entry.matches(&fs::read(place)?);
                let set = if same {
                    &mut self.contents.written
                } else {
                    &mut self.contents.changed
                };
                set.insert(path.clone());
                self.contents.replaced.insert(path, identity);
                return Ok(());
            }
        }
        let as_folder = format!("{path}/");
        if self.new_files.contains(path.as_str()) {
            self.contents.replaceable.insert(path.clone());
            self.contents.replaced.insert(path.clone(), identity);
        } else if self
            .new_files
            .iter()
            .any(|file| file.starts_with(&as_folder))
        {
            self.contents.blocking.insert(path.clone());
        }
        self.contents.foreign.insert(path);
        Ok(())
    }
}
