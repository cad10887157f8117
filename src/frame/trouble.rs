//! What is wrong with a frame that can be drawn all the same.

use serde::Serialize;

/// A part that was left out or shortened, or air that is shut in, and what to change.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trouble {
    /// What is wrong.
    pub headline: String,
    /// Where.
    pub extent: String,
    /// What to change, each of them enough by itself.
    pub remedy: String,
}
