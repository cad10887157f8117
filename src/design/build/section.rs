//! The sections' character.

use crate::design::{
    Contour, Section, keys::tables, read::File, scalar::plain, source::Report, table::Table,
};

/// The least distance of two sections, mm.
const APART: f64 = 1.0;
/// The largest edge radius that may be called hard, mm (common practice, no published source).
const HARD_MOST: f64 = 10.0;
/// The smallest edge radius that may be called soft, mm (common practice, no published source).
const SOFT_LEAST: f64 = 5.0;

/// The sections in rising order; one of defaults at the centre if the file has none.
pub(super) fn sections(
    file: &File,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Vec<Section>> {
    let given: Vec<&Table> = file.all("section").collect();
    if given.is_empty() {
        let keys = tables().iter().find(|keys| keys.path == "section")?;
        let silent = section(&Table::silent(keys), length.map(|l| l / 2.0), report);
        return Some(vec![silent?]);
    }
    let mut placed: Vec<f64> = Vec::new();
    let mut read: Vec<Option<Section>> = Vec::new();
    for table in given {
        let x = table.need("at", report);
        inside(table, x, length, report);
        let section = section(table, x, report);
        if let Some(section) = &section {
            let x = section.x;
            if placed.iter().any(|other| (other - x).abs() < APART) {
                let message = format!("another section is at {} mm already", plain(x));
                report.add(
                    table.span("at"),
                    message,
                    "keep one of them, or put one elsewhere",
                );
            }
            placed.push(x);
        }
        read.push(section);
    }
    let mut sections: Vec<Section> = read.into_iter().collect::<Option<_>>()?;
    sections.sort_by(|a, b| a.x.total_cmp(&b.x));
    Some(sections)
}

/// Notes a section beyond the nose.
fn inside(table: &Table, x: Option<f64>, length: Option<f64>, report: &mut Report<'_>) {
    if let (Some(x), Some(length)) = (x, length)
        && x > length
    {
        let length = plain(length);
        let message = format!("`at` must not lie beyond the board's length, {length} mm");
        let remedy = format!("give a place of at most {length} mm, or check `length`");
        report.add(table.span("at"), message, remedy);
    }
}

/// The section at `x`, with defaults for what its table is silent about.
fn section(table: &Table, x: Option<f64>, report: &mut Report<'_>) -> Option<Section> {
    let hard = table.word("edge").map(|edge| edge == "hard");
    let radius = table.number_or("edge_radius", hard.map(|h| if h { 2.0 } else { 30.0 }));
    if let (Some(hard), Some(radius)) = (hard, radius) {
        edge_agrees(table, hard, radius, report);
    }
    let contour = match table.word("contour")? {
        "roll" => Contour::Roll,
        "concave" => Contour::Concave,
        "double-concave" => Contour::DoubleConcave,
        "vee" => Contour::Vee,
        _ => Contour::Flat,
    };
    Some(Section {
        x: x?,
        contour,
        contour_depth: match contour {
            Contour::Flat => 0.0,
            _ => table.number("contour_depth")?,
        },
        edge_radius: radius?,
        tuck: table.number_or("tuck", hard.map(|h| if h { 8.0 } else { 16.0 }))?,
        tuck_angle: table.number("tuck_angle")?,
        apex: table.number("apex")?,
        fullness: table.number("fullness")?,
        crown: table.number_if_given("crown")?,
    })
}

/// Notes an edge whose radius is not what its word says; a radius alone says it all.
fn edge_agrees(table: &Table, hard: bool, radius: f64, report: &mut Report<'_>) {
    if !table.given("edge") {
        return;
    }
    let (word, bound, wrong) = if hard {
        ("hard", format!("at most {HARD_MOST}"), radius > HARD_MOST)
    } else {
        (
            "soft",
            format!("at least {SOFT_LEAST}"),
            radius < SOFT_LEAST,
        )
    };
    if wrong {
        report.add(
            table.span("edge_radius"),
            format!("the radius of a {word} edge must be {bound} mm"),
            "change `edge`, or leave it out".to_owned(),
        );
    }
}
