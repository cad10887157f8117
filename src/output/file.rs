//! A file in memory, and what may be chosen of a board's files.

/// A file to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutFile {
    /// Its path below the board's folder, with `/` between names.
    pub path: String,
    /// What it is, for an index.
    pub what: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// What to write besides the usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OutputOptions {
    /// Whether every drawing is also written as DXF R12, for old controllers.
    pub r12: bool,
}
