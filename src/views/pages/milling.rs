//! The page for the shop: how each profile is milled, with the cautions beside each machine, and what is cut from which plank.

use super::attachments::INDEX;
use super::findings::remark;
use super::text::{capital, fine, section};
use crate::board::Board;
use crate::design::units::{self, Unit};
use crate::views::document::{Block, Document, Image, Picture, Prose, Section, Step, Tone, Width};
use crate::views::report::Report;
use crate::views::sheets::PlankSheet;
use crate::views::table::{Cell, Quantity, Table};
use crate::wood::stock::cutting::ScarfedBlanks;
use crate::wood::stock::{self, Cutter, MillingPlan, RouterSetup};

/// The page of `board`, with the drawings of its planks.
pub fn milling(board: &Board, report: &Report, planks: &[PlankSheet]) -> Document {
    let (rail_wood, unit) = (&board.rail_wood, board.design.report);
    let mut lead = vec![Block::text(
        Prose::from(format!(
            "{} for the strips of both rails. Sizes are in {}; a caliper reading within the limits passes. The machines' manuals, local rules and \
             trained people come before this sheet. ",
            capital(&board.design.timber.rail.name),
            if unit.is_metric() { "millimetres" } else { "inches" }
        ))
        .link("Back to the index", INDEX),
    )];
    if board.design.timber.assumed_planks {
        lead.push(Block::Text(
            Tone::Warning,
            "The planks are assumed: name yours in the design file, in [[shop.plank]].".into(),
        ));
    }
    lead.push(Block::small(
        "A resawn board is one of the thin boards that a plank is sawn into; a rip is one of the narrow lengths that a resawn board is sawn into.",
    ));
    let mut sections: Vec<Section> = rail_wood
        .milling
        .iter()
        .map(|plan| profile(board, plan))
        .collect();
    sections.push(Section::new(
        "Cutting plan",
        match &rail_wood.cutting {
            Ok(_) => vec![Block::Pictures(planks.iter().map(plank).collect())],
            Err(_) => {
                let of_planks = report.findings.iter().filter(|f| f.code.is_of_planks());
                vec![Block::Findings(
                    of_planks.map(|f| remark(&f.text)).collect(),
                )]
            }
        },
    ));
    sections.push(strips(board));
    Document {
        title: format!("{}: milling and cutting", board.design.name),
        unit,
        lead,
        sections,
    }
}

fn plank(sheet: &PlankSheet) -> Picture {
    let name = &sheet.name;
    Picture {
        image: Image::Sheet(sheet.page.clone()),
        width: Width::Full,
        caption: Prose::from(format!("{} ", sheet.what))
            .link("SVG", format!("svg/{name}.svg"))
            .and(" ")
            .link("DXF", format!("dxf/{name}.dxf")),
    }
}

/// One profile's way from plank to strip.
fn profile(board: &Board, plan: &MillingPlan) -> Section {
    let (rail_wood, unit) = (&board.rail_wood, board.design.report);
    let needs = rail_wood.needs.iter().filter(|n| n.kind == plan.kind);
    let wanted: u32 = needs.map(|n| n.count).sum();
    let spare = rail_wood.cutting.as_ref().map_or(0, |cutting| {
        let pieces = cutting.pieces().filter(|(_, p)| {
            let need = rail_wood.needs.get(p.blank.need);
            p.blank.spare && p.piece == 0 && need.is_some_and(|n| n.kind == plan.kind)
        });
        pieces.count()
    });
    let mut blocks = vec![Block::text(format!(
        "{wanted} for both rails and {spare} spare. Resawn board {} thick and rip {} wide as sawn, {} finished; \
         a course of it adds {} of height.{}",
        fine(plan.leaf, unit),
        fine(plan.ripped, unit),
        section(plan.finished, unit),
        Quantity::Fine(plan.pitch).text(unit),
        match rail_wood.profiles.laminations(plan.kind) {
            1 => String::new(),
            n => format!(
                " Each starter is {n} of these, {}, glued face to face.",
                board.design.construction.starter.lamination_plane.words()
            ),
        }
    ))];
    let steps = plan.steps.iter().enumerate();
    blocks.extend(steps.map(|(i, step)| Block::Step(work(i + 1, step, unit))));
    Section::new(&capital(plan.kind.name()), blocks)
}

fn work(number: usize, step: &stock::Step, unit: Unit) -> Step {
    let mut work = vec![Prose::from(step.task)];
    if let Some(after) = step.after {
        let before = step.before;
        let before = before.map_or(String::new(), |b| format!("From {}. ", fine(b, unit)));
        work.push(
            Prose::from(format!("{before}Set "))
                .strong(fine(after.nominal, unit))
                .and(format!(
                    "; calipers from {} to {} pass.",
                    fine(after.least, unit),
                    fine(after.greatest, unit)
                )),
        );
    }
    work.extend(step.router.map(|setup| router(setup, unit)));
    Step {
        heading: format!("{number}. {}", capital(step.machine.name())),
        work,
        cautions: step.cautions.iter().map(|c| c.text().to_owned()).collect(),
    }
}

fn router(setup: RouterSetup, unit: Unit) -> Prose {
    let cutter = match setup.cutter {
        Cutter::Hollow => "hollow",
        Cutter::Round => "round",
    };
    let mut rest = format!(
        " above the table; it reaches {} past the infeed fence",
        fine(setup.reach, unit)
    );
    if setup.step > 0.0 {
        rest.push_str(&format!(
            ", and the outfeed fence stands {} forward of the infeed",
            fine(setup.step, unit)
        ));
    }
    if setup.lip > 0.0 {
        rest.push_str(&format!("; lips of {} remain", fine(setup.lip, unit)));
    }
    rest.push('.');
    Prose::from(format!(
        "Router table, strip on its face, edge to the fence: {cutter} cutter of "
    ))
    .strong(fine(setup.radius, unit))
    .and(" radius, its centre ")
    .strong(fine(setup.height, unit))
    .and(rest)
}

/// The strips' lengths and scarfs, to mark out by.
fn strips(board: &Board) -> Section {
    let unit = board.design.report;
    let mut table = Table::with_columns(&[
        "strip",
        "kind",
        "finished",
        "blank",
        "pieces and scarfs, from the tail end",
        "clamp hardest",
    ]);
    table.rows.extend(board.rail_wood.strips.iter().map(|s| {
        // Laminations alike are listed once.
        let scarfs = board.rail_wood.scarfs_of(s.number);
        let mut ways: Vec<String> = scarfs.iter().map(|s| pieces(s, unit)).collect();
        ways.dedup();
        vec![
            Cell::from(s.number),
            match s.laminations {
                1 => s.kind.name().to_owned(),
                n => format!("{}, {n} laminations", s.kind.name()),
            }
            .into(),
            Quantity::Size(s.finished).into(),
            Quantity::Size(s.blank).into(),
            ways.join("\n").into(),
            s.hardest_clamp().map_or(Cell::Empty, |c| {
                let force = Quantity::Force(c.force).text(unit);
                format!("{force} at rib {}", c.rib).into()
            }),
        ]
    }));
    let words = Prose::from(
        "Two of each, one a rail; a lamination's pieces are marked with its number after a point. The full schedule, with bends and limits: ",
    )
    .link("tables/strip-schedule.csv", "tables/strip-schedule.csv")
    .and(".");
    Section::new("Strips", vec![Block::Table(table), Block::small(words)])
}

/// The pieces of a strip and where they overlap.
fn pieces(scarfed: &ScarfedBlanks, unit: Unit) -> String {
    let place = |mm: f64| units::place(mm, unit);
    if scarfed.joints.is_empty() {
        return "one piece".to_owned();
    }
    let pieces: Vec<String> = scarfed.pieces.iter().map(|&p| place(p)).collect();
    let joints = scarfed.joints.iter();
    let joints: Vec<String> = joints
        .map(|j| format!("{} to {}", place(j.from), place(j.to)))
        .collect();
    format!("{}, scarfs at {}", pieces.join(" + "), joints.join(", "))
}
