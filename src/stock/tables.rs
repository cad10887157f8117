//! The strip schedule, the milling sheet and the cutting list as neutral tables.

use super::cutting::{CuttingPlan, StripNeed};
use super::{MillingPlan, Shop};
use crate::table::{Cell, Column, Table};

fn count(n: impl TryInto<i64>) -> Cell {
    n.try_into().map_or(Cell::Empty, Cell::Count)
}

fn number(value: Option<f64>) -> Cell {
    value.map_or(Cell::Empty, Cell::Number)
}

/// The strip schedule, in the order of the needs: course, profile, number, lengths, pieces from the tail, middles of the scarfs.
pub fn strip_table(plan: &CuttingPlan, needs: &[StripNeed]) -> Table {
    let rows = needs.iter().zip(&plan.scarfs).map(|(need, scarfed)| {
        vec![
            count(need.course),
            need.kind.name().into(),
            count(need.count),
            need.length.into(),
            need.finished.into(),
            join(scarfed.pieces.iter().copied(), " + ").as_str().into(),
            join(scarfed.joints.iter().map(|j| j.middle()), " ")
                .as_str()
                .into(),
        ]
    });
    Table {
        title: "Strips".to_owned(),
        columns: vec![
            Column::plain("course"),
            Column::plain("profile"),
            Column::plain("number"),
            Column::measured("blank", "mm", 0),
            Column::measured("finished", "mm", 0),
            Column::measured("pieces from the tail", "mm", 0),
            Column::measured("scarfs from the tail", "mm", 0),
        ],
        rows: rows.collect(),
    }
}

/// The cutting list, plank by plank; planks, leaves, lanes, strips and pieces count from 1.
pub fn cut_table(plan: &CuttingPlan, needs: &[StripNeed], shop: &Shop) -> Table {
    let mut rows = Vec::new();
    for (p, plank) in plan.planks.iter().enumerate() {
        let size = shop.planks.get(plank.size).map_or("", |s| s.name.as_str());
        for (l, leaf) in plank.leaves.iter().enumerate() {
            for (n, lane) in leaf.lanes.iter().enumerate() {
                rows.extend(lane.pieces.iter().map(|cut| {
                    vec![
                        count(p + 1),
                        size.into(),
                        count(l + 1),
                        count(n + 1),
                        cut.from.into(),
                        cut.length.into(),
                        needs
                            .get(cut.blank.need)
                            .map_or(Cell::Empty, |n| count(n.course)),
                        count(cut.blank.copy + 1),
                        count(cut.piece + 1),
                        if cut.blank.spare { "spare" } else { "" }.into(),
                    ]
                }));
            }
        }
    }
    let columns = ["plank", "size", "leaf", "lane"]
        .map(Column::plain)
        .into_iter()
        .chain([
            Column::measured("from", "mm", 0),
            Column::measured("length", "mm", 0),
        ])
        .chain(["course", "strip", "piece", "spare"].map(Column::plain));
    Table {
        title: "Cutting list".to_owned(),
        columns: columns.collect(),
        rows,
    }
}

/// The milling sheet of one profile, cautions in the last column.
pub fn milling_table(plan: &MillingPlan) -> Table {
    let rows = plan.steps.iter().enumerate().map(|(i, step)| {
        let cautions: Vec<&str> = step.cautions.iter().map(|c| c.text()).collect();
        vec![
            count(i + 1),
            step.task.into(),
            number(step.after.map(|w| w.nominal)),
            number(step.after.map(|w| w.least)),
            number(step.after.map(|w| w.greatest)),
            number(step.router.map(|r| r.radius)),
            number(step.router.map(|r| r.height)),
            number(step.router.map(|r| r.reach)),
            cautions.join(" ").as_str().into(),
        ]
    });
    Table {
        title: format!("Milling: {}", plan.kind.name()),
        columns: vec![
            Column::plain("step"),
            Column::plain("task"),
            Column::measured("set", "mm", 2),
            Column::measured("passes from", "mm", 2),
            Column::measured("to", "mm", 2),
            Column::measured("cutter radius", "mm", 2),
            Column::measured("cutter height", "mm", 2),
            Column::measured("reach past the fence", "mm", 2),
            Column::plain("cautions"),
        ],
        rows: rows.collect(),
    }
}

fn join(values: impl Iterator<Item = f64>, between: &str) -> String {
    values
        .map(|v| format!("{v:.0}"))
        .collect::<Vec<_>>()
        .join(between)
}
