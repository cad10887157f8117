//! Puts a new folder in the place of an old one.
//!
//! # Guarantee
//!
//! At every instant the folder is the old one or the new one, whole, and the maker's own files are in it. Killing the
//! program, a full disk or a failed step does not change this:
//!
//! 1. A hidden folder next to the goal, the holder (`holder.rs`), gets a mark that this process keeps locked.
//! 2. The new files are written to `part` in it; the maker's files get second names there (`carry.rs`): hard links, or
//!    copies where the disk has none.
//! 3. `part` becomes `board`, and `board` and the goal are exchanged in one step (`swap.rs`).
//! 4. What came out is removed file by file (`settle.rs`). A maker's file that is new or was replaced since step 2 is
//!    moved into the goal. What cannot be placed stays in the holder, and a note names it.
//!
//! The next run finds the holder of a killed one by its mark, whose lock is free then, and finishes step 4 or throws
//! `part` away (`leftover.rs`). A hidden folder without the mark is named, not touched.
//!
//! # Limits
//!
//! - Where the system or the disk has no exchange (not Linux or macOS; some network disks) step 3 is two renames.
//!   Killed between them the goal is missing, whole in the holder; the next build to the same goal puts it back first.
//! - The maker's folders are made again with their permissions and times, but without owner, access lists or other
//!   attributes; so are copies. A program that keeps a folder open keeps the old one.
//! - A copy does not see a change made while the build runs; such a file is moved over in step 4.
//! - A power cut: the content of new files is on the disk before step 3, but the order in which a disk keeps the names
//!   is its own.

mod carry;
mod holder;
mod identity;
mod leftover;
mod mark;
mod settle;
mod swap;
mod tree;

use std::fs;
use std::io;
use std::path::Path;

use super::folder::Contents;
use super::signals::Signals;
use crate::output::OutFile;
use holder::Holder;
pub(super) use identity::Identity;
pub(super) use leftover::recover;

/// Makes the folder `goal`, which is missing, with the folders above it.
pub(super) fn create(goal: &Path, files: &[OutFile], signals: &Signals) -> io::Result<()> {
    let mut holder = Holder::new(goal)?;
    holder.fill(files, signals)?;
    let board = holder.finish()?;
    signals.check()?;
    fs::rename(board, goal)?;
    holder.keep_parents();
    Ok(())
}

/// Replaces the folder `goal`, in which `contents` were found. Gives a note on what could not be placed.
pub(super) fn replace(
    goal: &Path,
    files: &[OutFile],
    contents: &Contents,
    signals: &Signals,
) -> io::Result<Option<String>> {
    let mut holder = Holder::new(goal)?;
    holder.fill(files, signals)?;
    let mut records = carry::carry(goal, holder.part(), contents.staying(), signals)?;
    records.add_replaced(&contents.replaced);
    fs::set_permissions(holder.part(), fs::metadata(goal)?.permissions())?;
    let board = holder.finish()?;
    signals.check()?;
    let old = swap::swap(goal, &board, &holder.retired())?;
    holder.exchanged();
    let kept = settle::settle(&old, goal, &records);
    Ok(leftover::note_kept(&old, &kept))
}
