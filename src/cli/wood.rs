//! The screen's part about strips and wood.

use super::columns::{Side, wrapped};
use super::layout::{WIDTH, block, headed, heading};
use super::paint::Paint;
use crate::design::units;
use crate::views::report::Report;

use Side::{Left, Right};

/// The strips: how many, how long, how hard bent.
pub(super) fn strips(text: &mut String, report: &Report, paint: Paint) {
    let (s, unit) = (&report.strips, report.report);
    let aside = format!(
        "{} a side; {} at {:.0} % of what breaks it",
        s.count(),
        report.wood.species,
        100.0 * report.wood.working
    );
    heading(text, paint, "Strips", &aside);
    let names = ["a side", "", "section", "longest", "all, both rails"];
    let mut rows = vec![names.map(String::from).to_vec()];
    rows.extend(s.kinds.iter().map(|k| {
        vec![
            k.count.to_string(),
            k.kind.name().to_owned(),
            k.words(),
            units::size(k.longest, unit),
            units::length(k.both_rails, unit),
        ]
    }));
    headed(text, paint, &[Right, Left, Right, Right, Right], &rows);
    let names = ["worst", "strain", "limit", "used", "strip", "from the tail"];
    let mut rows = vec![names.map(String::from).to_vec()];
    rows.extend(s.worst.iter().map(|w| {
        vec![
            w.strained.name().to_owned(),
            format!("{:.2} %", w.value),
            format!("{:.2} %", w.limit),
            format!("{:.2}", w.ratio),
            w.strip.to_string(),
            units::size(w.x, unit),
            w.place.clone(),
        ]
    }));
    let sides = [Left, Right, Right, Right, Right, Right, Left];
    headed(text, paint, &sides, &rows);
    if let Some(g) = s.glulam {
        text.push_str(&format!(
            "  tightest radius {:.0} thicknesses, strip {}; glued beams are held to {:.0}, thin strips go past it\n",
            g.value, g.strip, g.limit
        ));
    }
    if let Some(c) = s.spring {
        text.push_str(&format!(
            "  strip {} springs back hardest: {} at rib {}, {} from the tail\n",
            c.strip,
            units::force(c.force, unit),
            c.rib,
            units::size(c.x, unit)
        ));
    }
}

/// The wood: what to buy and what becomes of it.
pub(super) fn wood(text: &mut String, report: &Report, paint: Paint) {
    let (w, unit) = (&report.wood, report.report);
    let aside = if w.assumed_planks {
        "planks assumed: name yours in [[shop.plank]]"
    } else {
        ""
    };
    heading(text, paint, "Wood", aside);
    let rows = w.rows(unit);
    let name = rows.iter().map(|r| r.0.chars().count()).max().unwrap_or(0);
    let rows: Vec<Vec<String>> = rows
        .into_iter()
        .flat_map(|(first, words)| {
            let lines = wrapped(&words, WIDTH.saturating_sub(name + 4), "");
            let lines: Vec<String> = lines.lines().map(String::from).collect();
            let names = std::iter::once(first.to_owned()).chain(std::iter::repeat(String::new()));
            names
                .zip(lines)
                .map(|(n, l)| vec![n, l])
                .collect::<Vec<_>>()
        })
        .collect();
    block(text, &[Left, Left], &rows);
}
