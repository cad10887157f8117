//! The strips: how many, how long, how hard bent.

use super::attachments::{Attachments, MILLING};
use super::text::{section, size};
use crate::board::Board;
use crate::views::document::{Block, Prose, Section, unbroken};
use crate::views::report::{KindReport, Report};
use crate::views::table::{Cell, Column, Quantity, Table};

/// The section; with attachments it leads to schedule, cutting list and charts.
pub(super) fn strips(
    board: &Board,
    report: &Report,
    attached: Option<&Attachments<'_>>,
) -> Section {
    let (s, unit) = (&report.strips, report.report);
    let mut blocks = Vec::new();
    if attached.is_some() {
        blocks.push(Block::text(links(board)));
    }
    let mut table =
        Table::with_columns(&["count", "kind", "section", "longest", "all, both rails"]);
    table.rows.extend(s.kinds.iter().map(|k| {
        vec![
            Cell::from(k.count),
            k.kind.name().into(),
            section_words(k, report).into(),
            Quantity::Size(k.longest).into(),
            Quantity::Length(k.both_rails).into(),
        ]
    }));
    blocks.push(Block::Table(table));
    let mut table = Table::with_columns(&[
        "worst",
        "strain",
        "limit",
        "used",
        "strip",
        "from the tail",
        "where",
    ]);
    table.columns[3] = Column::measured("used", "", 2);
    table.rows.extend(s.worst.iter().map(|w| {
        vec![
            unbroken(w.strained.name()).into(),
            Quantity::Percent(w.value, 2).into(),
            Quantity::Percent(w.limit, 2).into(),
            w.ratio.into(),
            w.strip.into(),
            Quantity::Size(w.x).into(),
            w.place.as_str().into(),
        ]
    }));
    if !table.rows.is_empty() {
        blocks.push(Block::Table(table));
    }
    if let Some(g) = s.glulam {
        blocks.push(Block::text(format!(
            "Tightest radius: {:.0} times the thickness, on strip {}. Rule of thumb for laminated beams: {:.0}; thin strips can go tighter.",
            g.value, g.strip, g.limit
        )));
    }
    if let Some(c) = s.spring {
        blocks.push(Block::text(format!(
            "Strip {} springs back hardest: {} at rib {}, {} from the tail. Clamp it well there.",
            c.strip,
            Quantity::Force(c.force).text(unit),
            c.rib,
            size(c.x, unit)
        )));
    }
    if let Some(attached) = attached.filter(|a| !a.charts.is_empty()) {
        let mut words = Prose::from("Bend and twist along each strip:");
        for chart in attached.charts {
            let number = chart
                .name
                .trim_start_matches("strip-")
                .trim_start_matches('0');
            words = words
                .and(" ")
                .link(number, format!("charts/{}.svg", chart.name));
        }
        blocks.push(Block::text(words));
    }
    Section::new("Strips", blocks).with_aside(format!(
        "{} a side of {}; limits are {:.0} % of what breaks it",
        s.count(),
        report.wood.species,
        100.0 * report.wood.working
    ))
}

/// What is bent, with its section: `12.7 × 6 mm`, `3 × 2.67 × 8 mm, softened`.
fn section_words(k: &KindReport, report: &Report) -> String {
    format!(
        "{}{}{}",
        match k.laminations {
            1 => String::new(),
            n => format!("{n} × "),
        },
        section(k.section, report.report),
        if k.softened { ", softened" } else { "" }
    )
}

fn links(board: &Board) -> Prose {
    let words = Prose::from("For the shop: ")
        .link("milling sheets and cutting plan", MILLING)
        .and(", ")
        .link("strip schedule", "tables/strip-schedule.csv");
    if board.rail_wood.cutting.is_ok() {
        words
            .and(", ")
            .link("cutting list", "tables/cut-list.csv")
            .and(".")
    } else {
        words.and(".")
    }
}
