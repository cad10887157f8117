//! The sections' character.

use crate::design::{Contour, Section, keys::tables, read::File, table::Table};

/// The sections in the order of the file; one of defaults at the centre if the file has none.
pub(super) fn sections(file: &File, length: f64) -> Vec<Section> {
    let sections = file.all("section");
    let mut read: Vec<Section> = sections
        .map(|table| section(table, table.number("at")))
        .collect();
    if read.is_empty()
        && let Some(keys) = tables().iter().find(|keys| keys.path == "section")
    {
        read.push(section(&Table::absent(keys), length / 2.0));
    }
    read
}

/// The section at `x`, with defaults for what its table leaves out.
fn section(table: &Table, x: f64) -> Section {
    let hard = table.word("edge") == "hard";
    let contour = match table.word("contour") {
        "roll" => Contour::Roll,
        "concave" => Contour::Concave,
        "double-concave" => Contour::DoubleConcave,
        "vee" => Contour::Vee,
        _ => Contour::Flat,
    };
    Section {
        x,
        contour,
        contour_depth: match contour {
            Contour::Flat => 0.0,
            _ => table.number("contour_depth"),
        },
        edge_radius: table.number_or("edge_radius", if hard { 2.0 } else { 30.0 }),
        tuck: table.number_or("tuck", if hard { 8.0 } else { 16.0 }),
        tuck_angle: table.number("tuck_angle"),
        apex: table.number("apex"),
        fullness: table.number("fullness"),
        crown: table.optional("crown"),
    }
}
