//! Findings of a board, picked out.

use boardwright::board::Board;
use boardwright::design::finding::{Code, Fact, Finding, Part, Place, Topic};
use boardwright::design::units::Unit;
use boardwright::views::findings::text;

/// Those about one part of the work that need no trial.
pub fn about(board: &Board, topic: Topic) -> Vec<Finding> {
    let found = board.quick_findings.iter();
    found.filter(|f| f.code.topic() == topic).cloned().collect()
}

/// Every place of a rail's findings of this code, with its value.
pub fn rail_places(findings: &[Finding], code: Code) -> Vec<(Place, f64)> {
    let of = findings.iter().filter(|f| f.code == code);
    of.flat_map(|f| &f.places)
        .filter_map(|spot| Some((spot.place, spot.value?)))
        .collect()
}

/// All that is said of a finding.
pub fn said(finding: &Finding, unit: Unit) -> String {
    let text = text(finding, unit);
    format!("{}; {}", text.sentence(), text.remedies.join("; or "))
}

/// The share of the limit that is used, where the finding tells one.
pub fn used(finding: &Finding) -> Option<f64> {
    finding.facts.iter().find_map(|fact| match fact {
        Fact::Used(ratio) => Some(*ratio),
        _ => None,
    })
}

/// The strips a finding is about, and whether they are starters.
pub fn strips(finding: &Finding) -> (&[usize], bool) {
    match &finding.part {
        Part::Starters(numbers) => (numbers, true),
        Part::Strips(numbers) => (numbers, false),
        _ => (&[], false),
    }
}
