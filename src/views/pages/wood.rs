//! The rail's wood: what to buy and what becomes of it.

use super::attachments::Attachments;
use crate::design::timber::Air;
use crate::design::units::Unit;
use crate::views::document::{Block, Definition, Prose, Section};
use crate::views::report::{BEACH_AIR, MovementReport, PlanReport, Report, SHOP_AIR, WoodReport};
use crate::views::table::Quantity;
use crate::wood::stock::Aim;

/// The section; with attachments it leads to the planks' drawings.
pub(super) fn wood(report: &Report, attached: Option<&Attachments<'_>>) -> Section {
    let w = &report.wood;
    let mut blocks = vec![Block::Definitions(rows(w, report.report))];
    for sheet in attached.iter().flat_map(|a| a.planks) {
        let name = &sheet.name;
        blocks.push(Block::text(
            Prose::from(format!("{} ", sheet.what))
                .link("SVG", format!("svg/{name}.svg"))
                .and(" ")
                .link("DXF", format!("dxf/{name}.dxf")),
        ));
    }
    let aside = if w.assumed_planks {
        "planks assumed: name yours in [[shop.plank]]"
    } else {
        ""
    };
    Section::new("Rail wood", blocks).with_aside(aside)
}

fn rows(w: &WoodReport, unit: Unit) -> Vec<Definition> {
    let mut rows = Vec::new();
    let mut row = |name, words: String| rows.push(Definition::new(name, words));
    if let Some(t) = &w.totals {
        let planks = w
            .planks
            .iter()
            .map(|p| format!("{} of {}", p.count, p.name));
        row("planks", planks.collect::<Vec<_>>().join(", "));
        row(
            "to buy",
            if unit.is_metric() {
                format!(
                    "{:.2} board feet, {:.4} m³, price {:.2}",
                    t.board_feet, t.volume, t.price
                )
            } else {
                format!("{:.2} board feet, price {:.2}", t.board_feet, t.price)
            },
        );
        row(
            "yield",
            format!(
                "{:.1} % strips, {:.1} % spare, {:.1} % offcuts kept, {:.1} % waste",
                100.0 * t.yielded,
                100.0 * t.spare,
                100.0 * t.kept,
                100.0 * t.waste
            ),
        );
        row(
            "strips' mass",
            format!(
                "{} at {:.0} % moisture, both rails, without glue",
                Quantity::Mass(t.strip_mass).text(unit),
                w.moisture
            ),
        );
    } else {
        row("planks", "no cutting plan: see the warnings".to_owned());
    }
    if let Some(p) = w.plan {
        row(
            "scarfs",
            match p.scarfs {
                0 => "none".to_owned(),
                n => format!("{n} in both rails"),
            },
        );
        row("plan", plan(p));
    }
    if let Some(m) = w.movement {
        row("damp air", movement(m, unit));
    }
    rows
}

/// How good the cutting plan is.
fn plan(p: PlanReport) -> String {
    let (best, spent) = match p.aim {
        Aim::Planks => ("fewest planks possible", "planks"),
        Aim::Price => ("lowest price possible", "price"),
    };
    let [here, any] = [p.gap, p.gap_any_scarf].map(|gap| format!("{:.1} %", 100.0 * gap));
    if p.proven && p.gap_any_scarf < 5e-4 {
        best.to_owned()
    } else if p.proven && p.scarfs == 0 {
        format!("{best} without scarfs; scarfs might save at most {any}")
    } else if p.proven {
        format!("{best} with the scarfs where they are; other scarfs might save at most {any}")
    } else {
        format!(
            "a better plan might save at most {here} of the {spent} with these scarfs, {any} with any"
        )
    }
}

/// How far the wood moves, and from what air to what air.
fn movement(m: MovementReport, unit: Unit) -> String {
    let air = |air: Air| {
        let temperature = if unit.is_metric() {
            format!("{:.0} °C", air.temperature)
        } else {
            format!("{:.0} °F", 1.8 * air.temperature + 32.0)
        };
        format!("{temperature} and {:.0} %", 100.0 * air.humidity)
    };
    let fine = |mm: f64| Quantity::Fine(mm).text(unit);
    let (across, gain) = if unit.is_metric() {
        ("100 mm", m.skin)
    } else {
        ("4 in", m.skin * 4.0 * Unit::In.in_mm() / 100.0)
    };
    format!(
        "a strip gains {} in width, a skin of this wood {} over {across}, from {} ({:.1} % moisture) to {} ({:.1} %){}",
        fine(m.strip),
        fine(gain),
        air(SHOP_AIR),
        m.from,
        air(BEACH_AIR),
        m.to,
        if m.in_range { "" } else { ", roughly" }
    )
}
