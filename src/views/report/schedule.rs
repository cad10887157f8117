//! The strip schedule: everything about every strip, one a row.

use crate::board::Board;
use crate::rail::{Landing, StrainKind};
use crate::views::findings::between_ribs;
use crate::views::table::{Cell, Column, Table};
use crate::wood::stock::cutting::{ScarfJoint, ScarfedBlanks};

use super::cells::{count, maybe, mm, table, words};

/// The schedule, in the order of the strips' numbers.
pub(super) fn schedule(board: &Board) -> Table {
    let mut columns = vec![
        Column::plain("strip"),
        Column::plain("course"),
        Column::plain("kind"),
        Column::plain("laminations"),
        Column::plain("pieces, both rails"),
        mm("from"),
        Column::plain("tail end lies on"),
        mm("to"),
        Column::plain("nose end lies on"),
        mm("finished length"),
        mm("blank"),
        Column::plain("cut as, from the tail (mm)"),
        Column::plain("centres of scarfs, from the tail (mm)"),
    ];
    for strained in StrainKind::ALL {
        let name = strained.name();
        columns.push(Column::measured(name, "%", 3));
        columns.push(Column::measured(
            &format!("{name}: used of the limit"),
            "",
            3,
        ));
        columns.push(mm(&format!("{name}: from the tail")));
        columns.push(Column::plain(&format!("{name}: place")));
    }
    columns.push(Column::measured("radius over thickness", "", 1));
    columns.push(Column::measured("hardest spring-back", "N", 1));
    columns.push(Column::plain("at rib"));
    let lies_on = |landing| match landing {
        Landing::Block => "block",
        Landing::RunOut => "course below, run out",
    };
    // Lamination by lamination where there are several.
    let joined = |scarfs: &[&ScarfedBlanks],
                  values: fn(&ScarfedBlanks) -> Vec<f64>,
                  between: &str|
     -> Cell {
        let words = |s: &&ScarfedBlanks| {
            let all: Vec<String> = values(s).iter().map(|v| format!("{v:.0}")).collect();
            all.join(between)
        };
        match scarfs.iter().map(words).collect::<Vec<_>>() {
            none if none.is_empty() => Cell::Empty,
            all => Cell::Text(all.join("; ")),
        }
    };
    let rows = board.rail_wood.strips.iter().map(|s| {
        let scarfs = board.rail_wood.scarfs_of(s.number);
        let mut row = vec![
            count(s.number),
            count(s.course),
            words(s.kind),
            count(s.laminations),
            count(2 * s.laminations),
            s.ends[0].into(),
            lies_on(s.landings[0]).into(),
            s.ends[1].into(),
            lies_on(s.landings[1]).into(),
            s.finished.into(),
            s.blank.into(),
            joined(&scarfs, |s| s.pieces.clone(), " + "),
            joined(
                &scarfs,
                |s| s.joints.iter().map(ScarfJoint::middle).collect(),
                " ",
            ),
        ];
        for strained in StrainKind::ALL {
            match s.demand_of(strained) {
                Some(d) => row.extend([
                    Cell::Number(100.0 * d.utilisation.value),
                    Cell::Number(d.utilisation.ratio),
                    Cell::Number(d.x),
                    Cell::Text(between_ribs(d.between_ribs(board.ribs.len()))),
                ]),
                None => row.extend([const { Cell::Empty }; 4]),
            }
        }
        let glulam = s.demand.as_ref().map(|d| d.glulam.value);
        row.push(maybe(glulam.filter(|v| *v > 0.0).map(|v| 1.0 / v)));
        let clamp = s.hardest_clamp();
        row.push(maybe(clamp.map(|c| c.force)));
        row.push(clamp.map_or(Cell::Empty, |c| count(c.rib)));
        row
    });
    let rows = rows.collect();
    table(board, "strip schedule", columns, rows)
}
