//! The exchange of two folders.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Puts `board` in the place of `goal`, and gives where the old folder is: in the place of `board`, or at `retired`
/// where the system or the disk has no exchange.
pub(super) fn swap(goal: &Path, board: &Path, retired: &Path) -> io::Result<PathBuf> {
    if exchange(goal, board)? {
        return Ok(board.to_owned());
    }
    fs::rename(goal, retired)?;
    if let Err(error) = fs::rename(board, goal) {
        return Err(match fs::rename(retired, goal) {
            Ok(()) => error,
            Err(_) => io::Error::other(format!(
                "{error}; the folder is at {} now: build again, and it is put back",
                retired.display()
            )),
        });
    }
    Ok(retired.to_owned())
}

/// Each takes the other's place at one instant; false where that cannot be had.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
fn exchange(one: &Path, other: &Path) -> io::Result<bool> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    match renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE) {
        Ok(()) => Ok(true),
        // What disks and systems without it answer.
        Err(Errno::INVAL | Errno::NOSYS | Errno::NOTSUP | Errno::PERM) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

#[cfg(not(any(target_os = "linux", target_vendor = "apple")))]
#[expect(clippy::unnecessary_wraps)]
fn exchange(_: &Path, _: &Path) -> io::Result<bool> {
    Ok(false)
}
