//! The page for the shop: how each profile is milled, with the cautions beside each machine, and what is cut from which plank.

use std::fmt::Write;

use super::html::{STYLE, escape, put};
use crate::board::Board;
use crate::design::units::{self, hundredths};
use crate::views::sheets::PlankSheet;
use crate::wood::stock::cutting::ScarfedBlanks;
use crate::wood::stock::{Cutter, MillingPlan, RouterSetup, Step};

/// Name of the page.
pub(super) const PAGE: &str = "milling.html";

const MORE: &str = "\
section{break-inside:avoid}.step{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr);gap:0 1.5rem;border-top:1px solid #ccc;\
padding:.5rem 0;break-inside:avoid}.step h3{margin:0;font-size:1rem}.step p{margin:.2rem 0}\
.mind{border-left:4px solid #c77d0a;padding-left:.8rem;font-size:.9rem}.mind p{margin:0 0 .3rem}\
img{max-width:100%;border:1px solid #ddd;margin:.5rem 0}\
@media(max-width:45rem){.step{grid-template-columns:1fr}}";

/// The page.
pub(super) fn page(board: &Board, planks: &[PlankSheet]) -> String {
    let name = escape(&board.design.name);
    let yard = &board.yard;
    let mut html = String::new();
    put(
        &mut html,
        format_args!(
            "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
             <title>{name}: milling and cutting</title>\n<style>{STYLE}{MORE}</style>\n</head>\n<body>\n\
             <h1>{name}: milling and cutting</h1>\n\
             <p>{} for the strips of both rails. Sizes are millimetres; a reading within the window passes. \
             The machines' manuals, local rules and trained people come before this sheet. <a href=\"index.html\">Back to the index</a></p>\n",
            escape(&capital(&board.design.timber.rail.name))
        ),
    );
    if board.design.timber.assumed_planks {
        html.push_str(
            "<p class=\"warning\">The planks are assumed: name yours in the design file, in [[shop.plank]].</p>\n",
        );
    }
    for plan in &yard.milling {
        milling(&mut html, board, plan);
    }
    html.push_str("<h2>Cutting plan</h2>\n");
    match &yard.cutting {
        Ok(_) => {
            for sheet in planks {
                let name = escape(&sheet.name);
                put(
                    &mut html,
                    format_args!(
                        "<section><p><strong>{}</strong> <a href=\"svg/{name}.svg\">SVG</a> <a href=\"dxf/{name}.dxf\">DXF</a></p>\n\
                         <img src=\"svg/{name}.svg\" alt=\"{}\"></section>\n",
                        escape(&sheet.what),
                        escape(&sheet.what)
                    ),
                );
            }
        }
        Err(fault) => put(
            &mut html,
            format_args!(
                "<p class=\"warning\">No plan: {}.</p>\n",
                escape(&fault.to_string())
            ),
        ),
    }
    strips(&mut html, board);
    html.push_str("</body>\n</html>\n");
    html
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

fn milling(html: &mut String, board: &Board, plan: &MillingPlan) {
    let wanted: u32 = board
        .yard
        .needs
        .iter()
        .filter(|n| n.kind == plan.kind)
        .map(|n| n.count)
        .sum();
    let spare = board.yard.cutting.as_ref().map_or(0, |cutting| {
        let pieces = cutting.pieces().filter(|(_, p)| {
            let need = board.yard.needs.get(p.blank.need);
            p.blank.spare && p.piece == 0 && need.is_some_and(|n| n.kind == plan.kind)
        });
        pieces.count()
    });
    put(
        html,
        format_args!(
            "<h2>{}</h2>\n<p>{wanted} for both rails and {spare} spare. Leaf {} thick and strip {} wide as sawn, {} × {} finished; \
             a course of it gains {:.2} mm.{}</p>\n",
            capital(plan.kind.name()),
            hundredths(plan.leaf),
            hundredths(plan.ripped),
            hundredths(plan.finished[0]),
            hundredths(plan.finished[1]),
            plan.pitch,
            match board.yard.profiles.laminations(plan.kind) {
                1 => String::new(),
                n => format!(
                    " Each starter is {n} of these, {}, glued face to face.",
                    board.design.construction.starter.laid.words()
                ),
            }
        ),
    );
    for (i, step) in plan.steps.iter().enumerate() {
        put(
            html,
            format_args!(
                "<div class=\"step\"><div><h3>{}. {}</h3><p>{}</p>{}{}</div><div class=\"mind\">",
                i + 1,
                capital(step.machine.name()),
                escape(step.task),
                sizes(step),
                step.router.map_or(String::new(), router)
            ),
        );
        for caution in &step.cautions {
            put(html, format_args!("<p>{}</p>", escape(caution.text())));
        }
        html.push_str("</div></div>\n");
    }
}

fn sizes(step: &Step) -> String {
    let Some(after) = step.after else {
        return String::new();
    };
    let before = step
        .before
        .map_or(String::new(), |b| format!("From {} mm. ", hundredths(b)));
    format!(
        "<p>{before}Set <strong>{} mm</strong>; calipers from {} to {} mm pass.</p>",
        hundredths(after.nominal),
        hundredths(after.least),
        hundredths(after.greatest)
    )
}

fn router(setup: RouterSetup) -> String {
    let mut text = format!(
        "<p>Router table, strip on its face, edge to the fence: {} cutter of <strong>{} mm</strong> radius, its middle <strong>{} mm</strong> \
         above the table; it reaches {} mm past the infeed fence",
        match setup.cutter {
            Cutter::Hollow => "hollow",
            Cutter::Round => "round",
        },
        hundredths(setup.radius),
        hundredths(setup.height),
        hundredths(setup.reach)
    );
    if setup.step > 0.0 {
        let _ = write!(
            text,
            ", and the outfeed fence stands {} mm forward of the infeed",
            hundredths(setup.step)
        );
    }
    if setup.lip > 0.0 {
        let _ = write!(text, "; lips of {} mm are left", hundredths(setup.lip));
    }
    text.push_str(".</p>");
    text
}

/// The strips' lengths and joints, to mark out by.
fn strips(html: &mut String, board: &Board) {
    let unit = board.design.report;
    html.push_str(
        "<h2>Strips</h2>\n<table>\n<tr><th class=\"n\">strip</th><th>kind</th><th class=\"n\">finished</th><th class=\"n\">blank</th>\
         <th>pieces and scarfs, mm from the tail end</th><th>clamp hardest</th></tr>\n",
    );
    for s in &board.yard.strips {
        let joints = |s: &&ScarfedBlanks| {
            if s.joints.is_empty() {
                return "one piece".to_owned();
            }
            let pieces: Vec<String> = s.pieces.iter().map(|p| format!("{p:.0}")).collect();
            let joints: Vec<String> = s
                .joints
                .iter()
                .map(|j| format!("{:.0} to {:.0}", j.from, j.to))
                .collect();
            format!("{}, scarfs at {}", pieces.join(" + "), joints.join(", "))
        };
        // Laminations alike are told once.
        let mut ways: Vec<String> = board.yard.scarfs_of(s.number).iter().map(joints).collect();
        ways.dedup();
        let joints = ways.join("<br>");
        let clamp = s.hardest_clamp().map_or(String::new(), |c| {
            format!("{} at rib {}", units::force(c.force, unit), c.rib)
        });
        put(
            html,
            format_args!(
                "<tr><td class=\"n\">{}</td><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td>{joints}</td><td>{clamp}</td></tr>\n",
                s.number,
                match s.laminations {
                    1 => s.kind.name().to_owned(),
                    n => format!("{}, {n} laminations", s.kind.name()),
                },
                escape(&units::size(s.finished, unit)),
                escape(&units::size(s.blank, unit))
            ),
        );
    }
    html.push_str(
        "</table>\n<p class=\"small\">Two of each, one a rail; a lamination's pieces are marked with its number after a point. The full schedule, with bends and limits: \
         <a href=\"tables/strip-schedule.csv\">tables/strip-schedule.csv</a>.</p>\n",
    );
}
