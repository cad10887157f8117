//! The mark in a holder: who finds it knows that boardwright made the folder, and whether the process still lives.

use std::fs::{self, File, TryLockError};
use std::io::{self, Read, Write};
use std::path::Path;

/// The mark's name in the holder.
pub(super) const NAME: &str = "boardwright.txt";

const TEXT: &str =
    "Made by boardwright while it writes a folder next to this one. A later build removes it.\n";

/// What an attempt to take a holder found.
#[derive(Debug)]
pub(super) enum Taken {
    /// The mark, locked until the file is closed.
    Ours(File),
    /// Another process has it, or whether one does cannot be seen on this disk.
    InUse,
    /// No mark.
    Unmarked,
}

/// Puts the mark into the new folder `holder`.
pub(super) fn take_new(holder: &Path) -> io::Result<Taken> {
    let path = holder.join(NAME);
    let mut mark = match File::options()
        .read(true)
        .write(true)
        .create_new(true)
        .open(&path)
    {
        Ok(mark) => mark,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Taken::Unmarked),
        Err(error) => return Err(error),
    };
    if let Err(TryLockError::WouldBlock) = mark.try_lock() {
        return Ok(Taken::InUse);
    }
    if let Err(error) = mark.write_all(TEXT.as_bytes()) {
        let _ = fs::remove_file(&path);
        return Err(error);
    }
    Ok(if path.exists() {
        Taken::Ours(mark)
    } else {
        Taken::Unmarked
    })
}

/// Takes the holder of a process that may have ended.
pub(super) fn take(holder: &Path) -> io::Result<Taken> {
    let path = holder.join(NAME);
    if !fs::symlink_metadata(&path).is_ok_and(|found| found.is_file()) {
        return Ok(Taken::Unmarked);
    }
    let mark = File::options().read(true).write(true).open(&path)?;
    if mark.try_lock().is_err() {
        return Ok(Taken::InUse);
    }
    let mut text = Vec::new();
    (&mark).take(TEXT.len() as u64 + 1).read_to_end(&mut text)?;
    // A process killed while it wrote the mark had made nothing else.
    let cut_short = TEXT.as_bytes().starts_with(&text) && fs::read_dir(holder)?.count() == 1;
    Ok(if text == TEXT.as_bytes() || cut_short {
        Taken::Ours(mark)
    } else {
        Taken::Unmarked
    })
}
