//! The rail: the worst of everything it is judged by.

use super::text::size;
use crate::views::document::{Block, Definition, Section, unbroken};
use crate::views::report::{Report, Worst, Worsts};
use crate::views::table::{Cell, Quantity, Table};

/// What a rail is judged by: its name, what it means, and how it is read.
struct Judged {
    name: &'static str,
    meaning: &'static str,
    /// What it must be at least, if that was entered.
    least: Option<f64>,
    of: fn(&Worsts) -> Option<Worst>,
    /// Degrees, or else millimetres.
    is_angle: bool,
}

fn judged(report: &Report) -> [Judged; 6] {
    let plain = |name, meaning, is_angle, of| Judged {
        name,
        meaning,
        least: None,
        of,
        is_angle,
    };
    let r = &report.rail;
    [
        plain(
            "joint angle",
            "how far a strip turns on the bead below",
            true,
            |w| w.roll,
        ),
        plain(
            "lip overlap",
            "how deep a turned lip presses into the strip below",
            false,
            |w| w.dig_in,
        ),
        plain(
            "joint gap",
            "how wide a turned joint opens at the strips' faces, before planing",
            false,
            |w| w.mouth_gap,
        ),
        plain(
            "base bevel",
            "slope planed on a flat base to lie on what is below",
            true,
            |w| w.bevel,
        ),
        Judged {
            least: Some(r.cover_asked),
            ..plain(
                "wood behind the rail",
                "between the finished surface and the hollow",
                false,
                |w| w.cover,
            )
        },
        Judged {
            least: Some(r.proud_asked),
            ..plain(
                "planing allowance",
                "wood outside the finished surface, to be planed off",
                false,
                |w| w.proud,
            )
        },
    ]
}

/// The section.
pub(super) fn rail(report: &Report) -> Section {
    let (r, unit) = (&report.rail, report.report);
    let fine = |mm: f64| Quantity::Fine(mm).text(unit);
    let aside = format!(
        "guide {} inside the finished rail; each nested strip adds {}",
        fine(r.guide_depth),
        fine(r.pitch)
    );
    let mut table = Table::with_columns(&["worst", "at a rib", "where", "anywhere", "where"]);
    let all = judged(report);
    for j in &all {
        let value = |w: Option<Worst>| -> Cell {
            match w {
                None => "none".into(),
                Some(w) if j.is_angle => Quantity::Angle(w.value, 2).into(),
                Some(w) if w.value < 0.0 && j.least.is_some() => {
                    format!("{} short", fine(-w.value)).into()
                }
                Some(w) => Quantity::Fine(w.value).into(),
            }
        };
        let (at_rib, anywhere) = ((j.of)(&r.at_ribs), (j.of)(&r.anywhere));
        table.rows.push(vec![
            match j.least {
                // The limit stays on one line.
                Some(least) => {
                    let limit = unbroken(&format!("(at least {})", fine(least)));
                    format!("{} {limit}", j.name).into()
                }
                None => j.name.into(),
            },
            value(at_rib),
            at_rib.map_or(Cell::Empty, |w| {
                format!("rib {}, course {}", w.rib.unwrap_or(0), w.course).into()
            }),
            value(anywhere),
            anywhere.map_or(Cell::Empty, |w| {
                format!("{}, course {}", size(w.x, unit), w.course).into()
            }),
        ]);
    }
    let guide = Definition::new("guide", "the surface that the strips are laid along");
    let meanings = all.iter().map(|j| Definition::new(j.name, j.meaning));
    let words = std::iter::once(guide).chain(meanings).collect();
    Section::new("Rail", vec![Block::Table(table), Block::Definitions(words)]).with_aside(aside)
}
