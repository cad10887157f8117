//! The milling sheet and the cutting list as neutral tables.

use super::cells::{count, maybe};
use crate::views::table::{Cell, Column, Table};
use crate::wood::stock::cutting::{CuttingPlan, StripNeed};
use crate::wood::stock::{MillingPlan, Shop, piece_label};

/// The cutting list, plank by plank; planks, resawn boards, rips, strips and pieces count from 1, `from` along the plank's usable length.
pub fn cut_table(plan: &CuttingPlan, needs: &[StripNeed], shop: &Shop) -> Table {
    let mut rows = Vec::new();
    for (p, plank) in plan.planks.iter().enumerate() {
        let size = shop.planks.get(plank.size).map_or("", |s| s.name.as_str());
        for (l, leaf) in plank.leaves.iter().enumerate() {
            for (n, lane) in leaf.lanes.iter().enumerate() {
                rows.extend(lane.pieces.iter().map(|cut| {
                    let need = needs.get(cut.blank.need);
                    vec![
                        count(p + 1),
                        size.into(),
                        count(l + 1),
                        count(n + 1),
                        piece_label(plan, needs, cut).to_string().into(),
                        cut.from.into(),
                        cut.length.into(),
                        need.map_or(Cell::Empty, |n| count(n.strip)),
                        need.map_or(Cell::Empty, |n| count(n.course)),
                        need.map_or(Cell::Empty, |n| n.kind.name().into()),
                        count(cut.piece + 1),
                        if cut.blank.spare { "spare" } else { "" }.into(),
                    ]
                }));
            }
        }
    }
    let columns = ["plank", "size", "resawn board", "rip", "mark"]
        .map(Column::plain)
        .into_iter()
        .chain([
            Column::measured("from", "mm", 0),
            Column::measured("length", "mm", 0),
        ])
        .chain(["strip", "course", "profile", "piece", "spare"].map(Column::plain));
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
            step.machine.name().into(),
            step.task.into(),
            maybe(step.before),
            maybe(step.after.map(|w| w.nominal)),
            maybe(step.after.map(|w| w.least)),
            maybe(step.after.map(|w| w.greatest)),
            maybe(step.router.map(|r| r.radius)),
            maybe(step.router.map(|r| r.height)),
            maybe(step.router.map(|r| r.reach)),
            maybe(step.router.map(|r| r.step)),
            maybe(step.router.map(|r| r.lip)),
            cautions.join(" ").as_str().into(),
        ]
    });
    Table {
        title: format!("Milling: {}", plan.kind.name()),
        columns: vec![
            Column::plain("step"),
            Column::plain("machine"),
            Column::plain("task"),
            Column::measured("before", "mm", 2),
            Column::measured("set", "mm", 2),
            Column::measured("passes from", "mm", 2),
            Column::measured("to", "mm", 2),
            Column::measured("cutter radius", "mm", 2),
            Column::measured("cutter height", "mm", 2),
            Column::measured("reach past the fence", "mm", 2),
            Column::measured("outfeed fence forward", "mm", 2),
            Column::measured("lip that remains", "mm", 2),
            Column::plain("cautions"),
        ],
        rows: rows.collect(),
    }
}
