//! What ends the program early, and with which exit code.

/// The design has faults or cannot be made.
pub(super) const DESIGN: u8 = 1;
/// Wrong usage.
pub(super) const USAGE: u8 = 2;
/// A file could not be read or written.
pub(super) const FILES: u8 = 3;
/// Warnings under `--strict`.
pub(super) const WARNED: u8 = 4;
/// Added to the number of a signal that ended the program, as shells do.
pub(super) const SIGNAL: u8 = 128;

/// Why the program ends early.
#[derive(Debug)]
pub struct Failure {
    /// The exit code; see `boardwright --help`.
    pub code: u8,
    /// What is wrong and what to do; empty where it is on the terminal already.
    pub message: String,
}

impl Failure {
    pub(super) fn quiet(code: u8) -> Self {
        Self {
            code,
            message: String::new(),
        }
    }

    pub(super) fn usage(message: impl Into<String>) -> Self {
        Self {
            code: USAGE,
            message: message.into(),
        }
    }

    pub(super) fn design(message: impl Into<String>) -> Self {
        Self {
            code: DESIGN,
            message: message.into(),
        }
    }

    /// A signal asked the program to end.
    pub(super) fn signal(number: u8, message: impl Into<String>) -> Self {
        Self {
            code: SIGNAL + number,
            message: message.into(),
        }
    }

    pub(super) fn files(message: impl Into<String>) -> Self {
        Self {
            code: FILES,
            message: message.into(),
        }
    }
}
