//! What is wrong with a frame that can be drawn all the same.

use serde::Serialize;

/// A part that was left out or shortened, or air that is shut in, and what to change.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trouble {
    /// The part it is about: `rib 3`, `spine`, `slots`, `bays`.
    pub part: String,
    /// Where, mm from the tail, if it is one place.
    pub x: Option<f64>,
    /// What was found, mm, if it is a length.
    pub value: Option<f64>,
    /// Its limit, mm.
    pub limit: Option<f64>,
    /// What is wrong.
    pub headline: String,
    /// Where.
    pub extent: String,
    /// What to change, each of them enough by itself.
    pub remedy: String,
}
