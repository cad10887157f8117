//! What the codes of findings mean.

use crate::design::finding::{Code, Severity};
use crate::design::units::Unit;
use crate::views::document::{Block, Document, Section};
use crate::views::findings;
use crate::views::table::Table;

/// Every code with a line, by topic.
pub fn codes() -> Document {
    let groups = Code::ALL.chunk_by(|a, b| a.topic() == b.topic());
    let section = |group: &[Code]| {
        let mut table = Table::with_columns(&["", "", ""]);
        table.rows = group
            .iter()
            .map(|c| {
                vec![
                    c.name().into(),
                    c.severity().name().into(),
                    c.title().into(),
                ]
            })
            .collect();
        let topic = group.first().map_or("", |code| code.topic().name());
        Section::new(topic, vec![Block::Table(table)])
    };
    Document {
        title: "Findings by code".to_owned(),
        unit: Unit::Mm,
        lead: vec![Block::text(
            "`boardwright explain CODE` tells what one means, where it is measured, and what to change.",
        )],
        sections: groups.map(section).collect(),
    }
}

/// One code on a page.
pub fn explain(code: Code) -> Document {
    let e = findings::explain(code);
    let mut severity = code.severity().name().to_owned();
    if let Some(when) = code.error_if() {
        severity.push_str(&format!("; an error where {when}"));
    }
    if code.severity() != Severity::Note {
        severity.push_str(". Counted, and heeded by --strict.");
    }
    let numbered = |(i, remedy): (usize, &&str)| Block::text(format!("{}. {remedy}", i + 1));
    Document {
        title: format!("{}: {}", code.name(), code.title()),
        unit: Unit::Mm,
        lead: vec![Block::text(e.meaning), Block::Sketch(e.sketch.to_owned())],
        sections: vec![
            Section::new("Severity", vec![Block::text(severity)]),
            Section::new("Cause", vec![Block::text(e.cause)]),
            Section::new(
                "Fixes, easiest first",
                e.remedies.iter().enumerate().map(numbered).collect(),
            ),
            Section::new("Limit and its source", vec![Block::text(e.limit)]),
        ],
    }
}
