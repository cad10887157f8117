//! Plain rows for the strip schedule, the milling sheet and the cutting list.

use super::cutting::{CuttingPlan, StripNeed};
use super::{MillingPlan, Shop};
use serde::Serialize;

/// One course of the strip schedule.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripRow {
    /// Course, from the bottom skin up.
    pub course: usize,
    /// Profile's name.
    pub profile: &'static str,
    /// Strips wanted, both rails.
    pub count: u32,
    /// Blank length, mm.
    pub blank: f64,
    /// Finished length, mm.
    pub finished: f64,
    /// Lengths of the pieces from the tail, mm, `+` between; one number for an unjointed strip.
    pub pieces: String,
    /// Middles of the scarfs, mm from the blank's tail end, spaces between.
    pub scarfs: String,
}

/// The strip schedule, in the order of the needs.
pub fn strip_rows(plan: &CuttingPlan, needs: &[StripNeed]) -> Vec<StripRow> {
    needs
        .iter()
        .zip(&plan.scarfs)
        .map(|(need, scarfed)| StripRow {
            course: need.course,
            profile: need.profile.name(),
            count: need.count,
            blank: need.length,
            finished: need.finished,
            pieces: join(scarfed.pieces.iter().copied(), " + "),
            scarfs: join(scarfed.joints.iter().map(|j| j.middle()), " "),
        })
        .collect()
}

/// One piece of the cutting list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CutRow {
    /// Plank, from 1.
    pub plank: usize,
    /// The plank's name in the shop.
    pub size: String,
    /// Leaf in the plank, from 1.
    pub leaf: usize,
    /// Lane in the leaf, from 1.
    pub lane: usize,
    /// Where the piece begins, mm from the lane's end.
    pub from: f64,
    /// Its length, mm.
    pub length: f64,
    /// Course it is for.
    pub course: usize,
    /// Which strip of the course, from 1.
    pub strip: u32,
    /// Which piece of the strip from the tail, from 1.
    pub piece: usize,
    /// Whether it is a spare.
    pub spare: bool,
}

/// The cutting list, plank by plank.
pub fn cut_rows(plan: &CuttingPlan, needs: &[StripNeed], shop: &Shop) -> Vec<CutRow> {
    let mut rows = Vec::new();
    for (p, plank) in plan.planks.iter().enumerate() {
        for (l, leaf) in plank.leaves.iter().enumerate() {
            for (n, lane) in leaf.lanes.iter().enumerate() {
                rows.extend(lane.pieces.iter().map(|cut| {
                    CutRow {
                        plank: p + 1,
                        size: shop
                            .planks
                            .get(plank.size)
                            .map(|s| s.name.clone())
                            .unwrap_or_default(),
                        leaf: l + 1,
                        lane: n + 1,
                        from: cut.from,
                        length: cut.length,
                        course: needs.get(cut.blank.need).map_or(0, |n| n.course),
                        strip: cut.blank.copy + 1,
                        piece: cut.piece + 1,
                        spare: cut.blank.spare,
                    }
                }));
            }
        }
    }
    rows
}

/// One step of the milling sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MillingRow {
    /// Profile's name.
    pub profile: &'static str,
    /// Step, from 1.
    pub step: usize,
    /// What to do.
    pub task: &'static str,
    /// Size to set, mm.
    pub set: Option<f64>,
    /// Least caliper reading that passes, mm.
    pub least: Option<f64>,
    /// Greatest caliper reading that passes, mm.
    pub greatest: Option<f64>,
    /// Cutter radius, mm.
    pub cutter_radius: Option<f64>,
    /// Height of the cutter arc's middle above the table, mm.
    pub cutter_height: Option<f64>,
    /// How far the cutter reaches past the infeed fence, mm.
    pub cutter_reach: Option<f64>,
    /// Cautions, one after another.
    pub cautions: String,
}

/// The milling sheet of one profile.
pub fn milling_rows(plan: &MillingPlan) -> Vec<MillingRow> {
    plan.steps
        .iter()
        .enumerate()
        .map(|(i, step)| MillingRow {
            profile: plan.profile.name(),
            step: i + 1,
            task: step.task,
            set: step.after.map(|w| w.nominal),
            least: step.after.map(|w| w.least),
            greatest: step.after.map(|w| w.greatest),
            cutter_radius: step.router.map(|r| r.radius),
            cutter_height: step.router.map(|r| r.height),
            cutter_reach: step.router.map(|r| r.reach),
            cautions: step
                .cautions
                .iter()
                .map(|c| c.text())
                .collect::<Vec<_>>()
                .join(" "),
        })
        .collect()
}

fn join(values: impl Iterator<Item = f64>, between: &str) -> String {
    values
        .map(|v| format!("{v:.0}"))
        .collect::<Vec<_>>()
        .join(between)
}
