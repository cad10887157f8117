//! What is wrong with a draft: the rule that does not hold, the keys, value and limit, and what to do.

use std::fmt;

use serde::Serialize;

use super::place::KeyPlace;

/// A rule that a design's values break.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct RuleBreak {
    /// The rule's stable code: one of [`rules`](super::rules), or `range`, `finite`, `text`, `list` of a key's own table entry.
    pub code: &'static str,
    /// The keys that may be at fault, the likeliest first; at least one.
    pub places: Vec<KeyPlace>,
    /// The value, in millimetres, degrees, or the unit of the first key.
    pub value: Option<f64>,
    /// The limit it passes, in the same unit.
    pub limit: Option<f64>,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// What to do about it.
    pub remedy: String,
}

impl RuleBreak {
    pub(crate) fn new(
        code: &'static str,
        places: Vec<KeyPlace>,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            code,
            places,
            value: None,
            limit: None,
            message: message.into(),
            remedy: remedy.into(),
        }
    }

    /// The same with the value and the limit it passes.
    pub(crate) fn figures(self, value: f64, limit: f64) -> Self {
        Self {
            value: Some(value),
            limit: Some(limit),
            ..self
        }
    }
}

impl RuleBreak {
    /// Whether the key at this place, or an element of its list, may be at fault.
    pub(super) fn concerns(&self, place: KeyPlace) -> bool {
        let key = |p: &KeyPlace| (p.table, p.row, p.key);
        self.places.iter().any(|own| key(own) == key(&place))
    }
}

impl fmt::Display for RuleBreak {
    /// `construction.strip.width: message: remedy`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(place) = self.places.first() {
            write!(f, "{place}: ")?;
        }
        write!(f, "{}: {}", self.message, self.remedy)
    }
}

/// Every rule that a draft breaks: at least one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(transparent)]
pub struct BrokenRules(Vec<RuleBreak>);

impl BrokenRules {
    /// The rules broken, or nothing if there are none.
    pub(super) fn new(breaks: Vec<RuleBreak>) -> Option<Self> {
        (!breaks.is_empty()).then_some(Self(breaks))
    }

    /// The rules broken.
    pub fn list(&self) -> &[RuleBreak] {
        &self.0
    }
}

impl fmt::Display for BrokenRules {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, broken) in self.0.iter().enumerate() {
            if i > 0 {
                f.write_str("\n")?;
            }
            broken.fmt(f)?;
        }
        Ok(())
    }
}

impl std::error::Error for BrokenRules {}
