//! Changes with what they leave of a limit.

use serde::Serialize;

use super::Change;

/// A change that serves by itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Remedy {
    /// What is changed.
    pub change: Change,
    /// Share of the limit used at worst after the change, where it was tried: where a section changes, with the rail solved again, else with
    /// the strips' bends, which stay as they are.
    pub ratio: Option<f64>,
    /// How much it takes of the maker, to put the easiest first; 0 for changes whose order is fixed. Our judgement: for a section the share it
    /// loses; steam 0.1; a further lamination 0.15; another wood 0.25; another shape of board 1.
    pub effort: f64,
}

impl Remedy {
    /// A change that was not tried.
    pub fn untried(change: Change) -> Self {
        Self {
            change,
            ratio: None,
            effort: 0.0,
        }
    }
}
