//! Findings in words, in the maker's unit: the one place where what is wrong with a board becomes sentences.
//!
//! [`text`] puts a finding into words for screen, page, tables and JSON; [`explain()`] tells what a code means.

mod change;
mod change_strips;
mod explain;
mod extent;
mod headline;
mod numbers;
mod parts;
#[cfg(test)]
mod tests;

pub use change::remedy;
pub use explain::{Explanation, explain};
pub use numbers::plain;
pub use parts::{between_ribs, part_name, place_name};

use crate::design::finding::{Code, Finding, Severity};
use crate::design::units::Unit;

/// A finding in words, in one unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingText {
    /// What it is.
    pub code: Code,
    /// How much it weighs.
    pub severity: Severity,
    /// What is wrong, with its limit.
    pub headline: String,
    /// Where, and how bad at worst; empty where the headline says it all.
    pub extent: String,
    /// What to change, each enough by itself, the easiest first.
    pub remedies: Vec<String>,
    /// Rib by rib, what the extent sums up: the rib's number and its courses.
    pub lines: Vec<(usize, String)>,
}

/// `finding` in words, lengths and masses in `unit`.
pub fn text(finding: &Finding, unit: Unit) -> FindingText {
    FindingText {
        code: finding.code,
        severity: finding.severity,
        headline: headline::headline(finding, unit),
        extent: extent::extent(finding, unit),
        remedies: finding.remedies.iter().map(|r| remedy(r, unit)).collect(),
        lines: extent::lines(finding, unit),
    }
}

/// What is wrong and where, in one line without its point, with the code in brackets where it has one.
pub fn sentence(headline: &str, extent: &str, code: Option<&str>) -> String {
    let mut sentence = headline.to_owned();
    if !extent.is_empty() {
        sentence.push_str(&format!(": {extent}"));
    }
    if let Some(code) = code {
        sentence.push_str(&format!(" [{code}]"));
    }
    sentence
}

impl FindingText {
    /// What is wrong and where, in one line, with the code in brackets.
    pub fn sentence(&self) -> String {
        sentence(&self.headline, &self.extent, Some(self.code.name()))
    }

    /// Whether it is an error or a warning.
    pub fn counts(&self) -> bool {
        self.severity != Severity::Note
    }
}
