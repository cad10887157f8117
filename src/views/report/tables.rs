//! The report's numbers as tables, in millimetres and degrees.

use super::cells::{count, degrees, maybe, mm, table, words};
use super::schedule::schedule;
use super::{Report, bed, findings, fittings, measure_list};
use super::{cut_table, milling_table};
use crate::board::Board;
use crate::rail::CourseKind;
use crate::views::table::{Cell, Column, Table};

/// A table and the name of the file it goes into, without an ending.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedTable {
    /// File name stem, such as `section-areas`.
    pub name: &'static str,
    /// The table.
    pub table: Table,
}

/// Every table of `board`, whose report is given.
pub fn tables(board: &Board, report: &Report) -> Vec<NamedTable> {
    let named = |name, table| NamedTable { name, table };
    let mut tables = vec![
        named("measures", measures(board)),
        named("rocker", rocker(board)),
        named("section-areas", section_areas(board)),
        named("apex-line", apex_line(board)),
        named("ribs", ribs(board, report)),
        named("rail-courses", courses(board)),
        named("rail-margins", margins(board)),
        named("strip-schedule", schedule(board)),
        named("skin-planks", super::skins::planks(board, &report.skins)),
        named("skin-strains", super::skins::strains(board, &report.skins)),
        named("mass", super::mass::parts(board, &report.mass)),
        named("afloat", super::mass::afloat(board, &report.afloat)),
        named("fittings", fittings::table(board)),
        named("bed", bed::table(board)),
        named("findings", findings::table(&report.name, &report.findings)),
        named(
            "finding-places",
            findings::places(&report.name, &report.findings),
        ),
    ];
    let rail_wood = &board.rail_wood;
    let titled = |mut table: Table| {
        table.title = format!("{}: {}", board.design.name, table.title.to_lowercase());
        table
    };
    if let Ok(plan) = &rail_wood.cutting {
        let table = cut_table(plan, &rail_wood.needs, &board.design.shop);
        tables.push(named("cut-list", titled(table)));
    }
    tables.extend(rail_wood.milling.iter().map(|plan| {
        let name = match plan.kind {
            CourseKind::Starter => "milling-starter",
            CourseKind::BeadOnly => "milling-bead-only",
            CourseKind::BeadAndCove => "milling-bead-and-cove",
        };
        named(name, titled(milling_table(plan)))
    }));
    tables
}

fn area(name: &str) -> Column {
    Column::measured(name, "mm²", 1)
}

fn measures(board: &Board) -> Table {
    let columns = vec![
        Column::plain("measure"),
        Column::measured("value", "", 3),
        Column::plain("unit"),
        mm("from the tail"),
    ];
    let row = |m: super::Measure| {
        let (value, unit) = m.value.plain();
        vec![m.name.into(), value.into(), unit.into(), maybe(m.at)]
    };
    let rows = measure_list(board).into_iter().map(row).collect();
    table(board, "measures", columns, rows)
}

fn rocker(board: &Board) -> Table {
    let rows = board.measures.rocker.iter();
    let rows = rows.map(|p| p.map(Cell::Number).into()).collect();
    table(
        board,
        "height of the bottom on the centreline",
        vec![mm("from the tail"), mm("height")],
        rows,
    )
}

fn section_areas(board: &Board) -> Table {
    let rows = board.measures.section_areas.iter();
    let rows = rows.map(|s| vec![s.x.into(), s.area.into()]).collect();
    table(
        board,
        "section areas",
        vec![mm("from the tail"), area("area")],
        rows,
    )
}

fn apex_line(board: &Board) -> Table {
    let rows = board.measures.apex_line.iter();
    let rows = rows.map(|p| p.map(Cell::Number).into()).collect();
    let columns = vec![mm("from the tail"), mm("to starboard"), mm("height")];
    table(board, "apex line", columns, rows)
}

fn ribs(board: &Board, report: &Report) -> Table {
    let columns = vec![
        Column::plain("rib"),
        mm("from the tail"),
        mm("width"),
        mm("height"),
        mm("thickness"),
        mm("bottom at the centreline"),
        mm("deck at the centreline"),
        mm("slot top"),
        mm("slot width"),
        degrees("bevel bottom centre"),
        degrees("bevel bottom rail"),
        degrees("bevel deck centre"),
        degrees("bevel deck rail"),
        degrees("bevel rail"),
        Column::plain("holes"),
        area("face without holes"),
        area("glued to the bottom"),
        area("glued to the deck"),
        area("glued to the rail"),
        area("glued in the lap"),
    ];
    let row = |(rib, of): (&crate::frame::Rib, &super::RibReport)| {
        let b = of.bevels;
        let mut row = vec![count(rib.number)];
        row.extend(
            [
                rib.x,
                of.width,
                of.height,
                rib.thickness,
                rib.heights[0],
                rib.heights[1],
                rib.slot_top,
                rib.slot_width,
                b.bottom_centre,
                b.bottom_rail,
                b.deck_centre,
                b.deck_rail,
                b.rail,
            ]
            .map(Cell::Number),
        );
        row.push(count(of.holes));
        let l = of.lands;
        row.extend([of.area, l.bottom, l.deck, l.ends, l.laps].map(Cell::Number));
        row
    };
    let rows = board.ribs.iter().zip(&report.ribs).map(row).collect();
    table(board, "ribs", columns, rows)
}

fn courses(board: &Board) -> Table {
    let columns = vec![
        Column::plain("rib"),
        mm("from the tail"),
        Column::plain("course"),
        Column::plain("kind"),
        mm("rise"),
        degrees("base bevel"),
        degrees("joint angle"),
        mm("lip overlap"),
        mm("joint gap"),
        degrees("oblique angle"),
    ];
    let rows = board.ribs.iter().flat_map(|rib| {
        let courses = rib.stack.courses.iter().enumerate();
        courses.map(|(i, c)| {
            vec![
                count(rib.number),
                rib.x.into(),
                count(i + 1),
                words(c.kind()),
                c.body().rise.into(),
                c.bevel().to_degrees().into(),
                maybe(c.joint().map(|j| j.roll.to_degrees())),
                maybe(c.joint().map(|j| j.dig_in)),
                maybe(c.joint().map(|j| j.mouth_gap)),
                c.obliquity().to_degrees().into(),
            ]
        })
    });
    table(board, "rail courses at the ribs", columns, rows.collect())
}

fn margins(board: &Board) -> Table {
    let columns = vec![
        Column::plain("rib"),
        mm("from the tail"),
        Column::plain("courses"),
        mm("wood behind the rail"),
        Column::plain("its course"),
        mm("planing allowance"),
        Column::plain("allowance's course"),
        degrees("top bevel"),
        Column::plain("reaches the deck"),
    ];
    let rows = board.ribs.iter().map(|rib| {
        let margins = board.rail.at(rib.x).and_then(|found| found.1);
        let least = |m: Option<crate::rail::Margin>| {
            [
                maybe(m.map(|m| m.least)),
                m.map_or(Cell::Empty, |m| count(m.course + 1)),
            ]
        };
        let mut row = vec![
            count(rib.number),
            rib.x.into(),
            count(rib.stack.courses.len()),
        ];
        row.extend(least(margins.map(|m| m.cover)));
        row.extend(least(margins.map(|m| m.proud)));
        row.push(maybe(rib.stack.top_bevel.map(f64::to_degrees)));
        row.push(if rib.stack.reaches_deck { "yes" } else { "no" }.into());
        row
    });
    table(
        board,
        "wood behind the finished rail and planing allowance outside it",
        columns,
        rows.collect(),
    )
}
