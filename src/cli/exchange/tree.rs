//! Removal of folders, those without leave to write too. Links are never followed.

use std::fs;
use std::path::Path;

/// Removes `folder` and everything in it.
pub(super) fn remove(folder: &Path) {
    if fs::symlink_metadata(folder).is_ok_and(|found| found.is_dir()) {
        unlock_all(folder);
        let _ = fs::remove_dir_all(folder);
    }
}

fn unlock_all(folder: &Path) {
    unlock(folder);
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
            unlock_all(&entry.path());
        }
    }
}

/// Lets the owner remove what is in `folder`.
#[cfg(unix)]
pub(super) fn unlock(folder: &Path) {
    use std::os::unix::fs::PermissionsExt;
    const OWNER_ALL: u32 = 0o700;
    if let Ok(found) = fs::symlink_metadata(folder) {
        let mode = found.permissions().mode();
        if mode & OWNER_ALL != OWNER_ALL {
            let _ = fs::set_permissions(folder, fs::Permissions::from_mode(mode | OWNER_ALL));
        }
    }
}

#[cfg(not(unix))]
pub(super) fn unlock(_: &Path) {}
