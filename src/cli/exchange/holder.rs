//! The hidden folder next to the goal, in which a new folder is filled and an old one ends.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::process;

use super::mark::{self, Taken};
use super::tree;
use crate::cli::signals::Signals;
use crate::cli::write_aside::{folder_of, write_whole};
use crate::output::OutFile;

/// Being filled; thrown away when the program was killed.
pub(super) const PART: &str = "part";
/// Whole: the new folder before the exchange, the old one after it.
pub(super) const BOARD: &str = "board";
/// The old folder, where there is no exchange.
pub(super) const OLD: &str = "old";

/// The hidden folder of this process. It goes away when dropped, with all that is in it, unless it holds an old folder.
#[derive(Debug)]
pub(super) struct Holder {
    path: PathBuf,
    part: PathBuf,
    board: PathBuf,
    /// Kept open, since its lock shows that the process lives.
    _mark: File,
    /// Folders above the goal that were made for it, the lowest first.
    parents: Parents,
    /// Whether all in it is the new folder's.
    before_exchange: bool,
}

impl Holder {
    /// A new one next to `goal`, with the folders above it.
    pub fn new(goal: &Path) -> io::Result<Self> {
        let parents = Parents::new(folder_of(goal))?;
        let mut number = process::id();
        let (path, mark) = loop {
            let path = path_of(goal, number);
            match create_private(&path).map(|()| mark::take_new(&path)) {
                Ok(Ok(Taken::Ours(mark))) => break (path, mark),
                // Another run took it for a leftover before it was locked.
                Ok(Ok(_)) => {}
                Ok(Err(error)) => {
                    let _ = fs::remove_dir(&path);
                    return Err(error);
                }
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error),
            }
            number = number.wrapping_add(1);
        };
        let holder = Self {
            part: path.join(PART),
            board: path.join(BOARD),
            path,
            _mark: mark,
            parents,
            before_exchange: true,
        };
        fs::create_dir(&holder.part)?;
        Ok(holder)
    }

    /// The new folder while it is filled.
    pub fn part(&self) -> &Path {
        &self.part
    }

    /// Where the old folder goes if there is no exchange.
    pub fn retired(&self) -> PathBuf {
        self.path.join(OLD)
    }

    /// Writes `files` into the new folder and onto the disk.
    pub fn fill(&self, files: &[OutFile], signals: &Signals) -> io::Result<()> {
        for file in files {
            signals.check()?;
            let path = self.part.join(&file.path);
            fs::create_dir_all(folder_of(&path))?;
            write_whole(&path, &file.bytes)?;
        }
        Ok(())
    }

    /// Gives the new folder the name of a whole one.
    pub fn finish(&self) -> io::Result<PathBuf> {
        fs::rename(&self.part, &self.board)?;
        Ok(self.board.clone())
    }

    /// Keeps the folders made above the goal.
    pub fn keep_parents(&mut self) {
        self.parents.0.clear();
    }

    /// Says that the holder has the old folder, and no longer the new one.
    pub fn exchanged(&mut self) {
        self.before_exchange = false;
        self.keep_parents();
    }
}

impl Drop for Holder {
    fn drop(&mut self) {
        if self.before_exchange
            && fs::rename(&self.board, &self.part).is_err()
            && self.board.exists()
        {
            return;
        }
        tree::remove(&self.part);
        close(&self.path);
    }
}

/// Removes a holder that is empty but for its mark.
pub(super) fn close(path: &Path) {
    if [PART, BOARD, OLD]
        .iter()
        .all(|name| !path.join(name).exists())
    {
        let _ = fs::remove_file(path.join(mark::NAME));
        let _ = fs::remove_dir(path);
    }
}

/// How the names of all holders of `goal` begin.
pub(super) fn prefix(goal: &Path) -> String {
    let name = goal.file_name().unwrap_or_default().to_string_lossy();
    format!(".{name}.unfinished-")
}

fn path_of(goal: &Path, number: u32) -> PathBuf {
    folder_of(goal).join(format!("{}{number}", prefix(goal)))
}

/// A folder for the owner's eyes: what replaces a private folder is private from the start.
fn create_private(path: &Path) -> io::Result<()> {
    #[cfg_attr(not(unix), expect(unused_mut))]
    let mut builder = fs::DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(path)
}

/// Folders made for a goal, the lowest first; they go away when dropped.
#[derive(Debug)]
struct Parents(Vec<PathBuf>);

impl Parents {
    fn new(parent: &Path) -> io::Result<Self> {
        let missing = |path: &&Path| !path.as_os_str().is_empty() && !path.exists();
        let parents = parent.ancestors().take_while(missing).map(Path::to_owned);
        let parents = Self(parents.collect());
        fs::create_dir_all(parent)?;
        Ok(parents)
    }
}

impl Drop for Parents {
    fn drop(&mut self) {
        for parent in &self.0 {
            let _ = fs::remove_dir(parent);
        }
    }
}
