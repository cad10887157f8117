//! Whether a file is still the one that was looked at.

use std::fs::Metadata;
use std::time::SystemTime;

/// What tells a file from another one, or from itself after a change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::cli) struct Identity {
    /// Disk and number on it; the same for all files where the system has no such numbers.
    number: (u64, u64),
    size: u64,
    modified: Option<SystemTime>,
}

impl Identity {
    pub fn new(file: &Metadata) -> Self {
        Self {
            number: number(file),
            size: file.len(),
            modified: file.modified().ok(),
        }
    }

    /// Whether both are names of one file; never where the system has no numbers.
    pub fn is_same_file(&self, other: &Self) -> bool {
        cfg!(unix) && self.number == other.number
    }

    /// The disk it is on.
    pub fn disk(&self) -> u64 {
        self.number.0
    }
}

#[cfg(unix)]
fn number(file: &Metadata) -> (u64, u64) {
    use std::os::unix::fs::MetadataExt;
    (file.dev(), file.ino())
}

#[cfg(not(unix))]
fn number(_: &Metadata) -> (u64, u64) {
    (0, 0)
}
