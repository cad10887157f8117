//! Warnings and notes.

use crate::views::document::{Block, Remark, Section, Tone};
use crate::views::report::{Notice, Report};

/// The warnings, or that there are none; then the notes.
pub(super) fn findings(report: &Report) -> Vec<Section> {
    let (warnings, notes): (Vec<&Notice>, Vec<&Notice>) =
        report.warnings.iter().partition(|n| n.is_warning());
    let section = |heading: &str, blocks: Vec<Block>| Section {
        is_verdict: true,
        ..Section::new(heading, blocks)
    };
    let list = |notices: Vec<&Notice>| Block::Findings(notices.into_iter().map(remark).collect());
    let mut sections = vec![if warnings.is_empty() {
        section(
            "Warnings",
            vec![Block::text(
                "None: every course holds, every strip goes round, and every skin takes its shape.",
            )],
        )
    } else {
        section("Warnings", vec![list(warnings)])
    }];
    if !notes.is_empty() {
        sections.push(section("Notes", vec![list(notes)]));
    }
    sections
}

/// A notice as a page shows it.
pub(super) fn remark(notice: &Notice) -> Remark {
    Remark {
        tone: if notice.is_warning() {
            Tone::Warning
        } else {
            Tone::Note
        },
        headline: notice.headline.clone(),
        extent: notice.extent.clone(),
        remedies: notice.remedies.clone(),
        ribs: notice.lines.clone(),
    }
}
