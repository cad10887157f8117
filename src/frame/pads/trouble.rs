//! A fitting that clashes with something.

use serde::Serialize;

/// Something that cannot be built as it stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trouble {
    /// The fitting's name.
    pub part: String,
    /// What it clashes with: `rib 3`, `spine`, `rail`, `deck`, another fitting's name and so on.
    pub with: String,
    /// What is wrong.
    pub headline: String,
    /// By how much, mm.
    pub value: f64,
    /// What to change, each enough by itself.
    pub remedy: String,
}
