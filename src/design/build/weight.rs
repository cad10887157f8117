//! What a board weighs beside its wood, and who rides it.

use crate::design::{
    Finish, FinishKind, Fitting, Rider, read::File, scalar::plain, source::Report, table::Table,
};

/// Grams as kilograms.
const GRAM: f64 = 1e-3;

/// Finish and glue.
pub(super) fn finish(file: &File) -> Option<Finish> {
    let table = file.one("finish")?;
    let (kind, usual) = match table.word("kind")? {
        "sheath" => (FinishKind::Sheath, 400.0),
        "none" => (FinishKind::None, 0.0),
        _ => (FinishKind::Oil, 60.0),
    };
    Some(Finish {
        kind,
        mass: table.number_or("mass", Some(usual))? * GRAM,
        glue: table.number("glue")? * GRAM,
    })
}

/// The fittings of a board of this length.
pub(super) fn fittings(
    file: &File,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Vec<Fitting>> {
    let all: Vec<Option<Fitting>> = file
        .all("fitting")
        .map(|table| fitting(table, length, report))
        .collect();
    all.into_iter().collect()
}

fn fitting(table: &Table, length: Option<f64>, report: &mut Report<'_>) -> Option<Fitting> {
    table.demand("name", report);
    let mass = table.need("mass", report);
    let at = table.need("at", report);
    let x = on_board(table, at, length, report);
    Some(Fitting {
        name: table.text("name")?.trim().to_owned(),
        mass: mass?,
        x: x?,
        on_deck: table.word("face")? == "deck",
    })
}

/// The rider, if there is one; `None` where its table is faulty.
pub(super) fn rider(
    file: &File,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Option<Rider>> {
    let table = file.one("rider")?;
    // Where a rider would be says nothing without one.
    if !table.given("mass") {
        return Some(None);
    }
    let at = match table.number_if_given("at")? {
        Some(at) => Some(on_board(table, Some(at), length, report)?),
        None => None,
    };
    Some(Some(Rider {
        mass: table.number_or("mass", None)?,
        x: at,
        height: table.number("height")?,
    }))
}

/// A place that must be on the board.
fn on_board(
    table: &Table,
    x: Option<f64>,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<f64> {
    let (x, length) = (x?, length?);
    if x > length {
        let length = plain(length);
        report.add(
            table.span("at"),
            format!("`at` must be on the board, at most {length} mm from the tail"),
            format!("give a place of at most {length} mm, or check `length`"),
        );
        return None;
    }
    Some(x)
}
