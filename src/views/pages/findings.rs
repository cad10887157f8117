//! Errors, warnings and notes.

use crate::design::finding::Severity;
use crate::views::document::{Block, Remark, Section, Tone};
use crate::views::findings::FindingText;
use crate::views::report::Report;

/// The findings by severity, or that there is nothing to mend.
pub(super) fn findings(report: &Report) -> Vec<Section> {
    let section = |heading: &str, block: Block| Section {
        is_verdict: true,
        ..Section::new(heading, vec![block])
    };
    let mut sections = Vec::new();
    if report.warned() == 0 {
        sections.push(section(
            "Warnings",
            Block::text(
                "None: every course holds, every strip goes round, and every skin takes its shape.",
            ),
        ));
    }
    for (severity, heading) in [
        (Severity::Error, "Errors"),
        (Severity::Warning, "Warnings"),
        (Severity::Note, "Notes"),
    ] {
        let of_it = report.findings.iter().filter(|f| f.severity == severity);
        let remarks: Vec<Remark> = of_it.map(|f| remark(&f.text)).collect();
        if !remarks.is_empty() {
            sections.push(section(heading, Block::Findings(remarks)));
        }
    }
    sections
}

/// A finding as a page shows it.
pub(super) fn remark(text: &FindingText) -> Remark {
    Remark {
        tone: match text.severity {
            Severity::Error => Tone::Error,
            Severity::Warning => Tone::Warning,
            Severity::Note => Tone::Note,
        },
        code: Some(text.code.name()),
        headline: text.headline.clone(),
        extent: text.extent.clone(),
        remedies: text.remedies.clone(),
        ribs: text.lines.clone(),
    }
}
