//! Holders of killed runs.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::carry::Records;
use super::holder::{BOARD, OLD, PART, close, prefix};
use super::mark::{self, Taken};
use super::settle::settle;
use super::tree;
use crate::cli::write_aside::folder_of;

/// Finishes what killed runs left next to `goal`, and gives notes on what could not be finished.
pub(in crate::cli) fn recover(goal: &Path) -> Vec<String> {
    let mut notes = Vec::new();
    let mut unmarked = Vec::new();
    for holder in holders(goal) {
        match mark::take(&holder) {
            // The mark's lock is held to the end of the arm.
            Ok(Taken::Ours(_mark)) => notes.extend(finish(&holder, goal)),
            Ok(Taken::InUse) => {}
            // Killed before it had a mark, a holder is empty.
            Ok(Taken::Unmarked) if fs::remove_dir(&holder).is_ok() => {}
            Ok(Taken::Unmarked) | Err(_) => unmarked.push(holder),
        }
    }
    if let Some(first) = unmarked.first() {
        let more = match unmarked.len() - 1 {
            0 => String::new(),
            more => format!(" and {more} more like it"),
        };
        notes.push(format!(
            "{}{more} may be from a build that was stopped, but has no mark of boardwright: look whether files of \
             yours are in it, then delete it",
            first.display()
        ));
    }
    notes
}

/// The folders next to `goal` that are named as holders, and as those of older versions, in the order of their names.
fn holders(goal: &Path) -> Vec<PathBuf> {
    let prefixes = [
        prefix(goal),
        prefix(goal).replace(".unfinished-", ".replaced-"),
    ];
    let Ok(entries) = fs::read_dir(folder_of(goal)) else {
        return Vec::new();
    };
    let is_holder = |entry: &fs::DirEntry| {
        let name = entry.file_name();
        let number = name
            .to_str()
            .and_then(|name| prefixes.iter().find_map(|p| name.strip_prefix(p.as_str())));
        let numbered =
            number.is_some_and(|n| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()));
        numbered && entry.file_type().is_ok_and(|kind| kind.is_dir())
    };
    let entries = entries.flatten().filter(is_holder);
    let mut found: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
    found.sort();
    found
}

/// Finishes one holder.
fn finish(holder: &Path, goal: &Path) -> Vec<String> {
    let mut notes = Vec::new();
    let old = holder.join(OLD);
    let is_missing = |path: &Path| {
        fs::symlink_metadata(path).is_err_and(|error| error.kind() == io::ErrorKind::NotFound)
    };
    if is_missing(goal) && !is_missing(&old) && fs::rename(&old, goal).is_ok() {
        notes.push(format!(
            "a build was stopped while it replaced {}: the folder is back, with all that was in it",
            goal.display()
        ));
    }
    tree::remove(&holder.join(PART));
    for name in [OLD, BOARD] {
        let folder = holder.join(name);
        if !is_missing(&folder) {
            notes.extend(note_kept(
                &folder,
                &settle(&folder, goal, &Records::default()),
            ));
        }
    }
    close(holder);
    notes
}

/// The note on files that stay in `folder`.
pub(super) fn note_kept(folder: &Path, kept: &[PathBuf]) -> Option<String> {
    const SHOWN: usize = 8;
    if kept.is_empty() {
        return None;
    }
    let shown = kept
        .iter()
        .take(SHOWN)
        .map(|path| path.display().to_string());
    let mut text = shown.collect::<Vec<_>>().join(", ");
    if kept.len() > SHOWN {
        text.push_str(&format!(" and {} more", kept.len() - SHOWN));
    }
    Some(format!(
        "kept in {}, since they changed while a build ran or could not be removed: {text}; move out what you want, \
         then delete that folder",
        folder.display()
    ))
}
