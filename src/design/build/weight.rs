//! What a board weighs beside its wood, and who rides it.

use crate::design::{Finish, FinishKind, Fitting, Rider, read::File, table::Table};

/// Grams as kilograms.
const GRAM: f64 = 1e-3;

/// Finish and glue.
pub(super) fn finish(table: &Table) -> Finish {
    let (kind, usual) = match table.word("kind") {
        "sheath" => (FinishKind::Sheath, 400.0),
        "none" => (FinishKind::None, 0.0),
        _ => (FinishKind::Oil, 60.0),
    };
    Finish {
        kind,
        mass: table.number_or("mass", usual) * GRAM,
        glue: table.number("glue") * GRAM,
    }
}

/// The fittings, in the order of the file.
pub(super) fn fittings(file: &File) -> Vec<Fitting> {
    let fitting = |table: &Table| Fitting {
        name: table.text("name").unwrap_or("").trim().to_owned(),
        mass: table.number("mass"),
        x: table.number("at"),
        on_deck: table.word("face") == "deck",
    };
    file.all("fitting").map(fitting).collect()
}

/// The rider, if there is one: where a rider would be says nothing without a mass.
pub(super) fn rider(table: &Table) -> Option<Rider> {
    Some(Rider {
        mass: table.optional("mass")?,
        x: table.optional("at"),
        height: table.number("height"),
    })
}
