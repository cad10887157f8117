//! From the tables read to a draft: what the file writes, and defaults for what it leaves out.
//!
//! Where a value is faulty a plausible one holds its place, so that the rest can be checked: breaks of rules that depend on it are
//! dropped again ([`parse`](super::parse)).

mod construction;
mod fittings;
mod frame;
mod outline;
mod section;
mod skins;
mod weight;
mod wood;

use super::model::{Draft, Foil, Rocker};
use super::{Bed, read::File, source::Report, table::Table};
use crate::design::units::Unit;

/// The draft of a file; notes the species that are not known.
pub(super) fn draft(file: &File, report: &mut Report<'_>) -> Draft {
    let top = file.one("");
    let length = file.one("outline").number("length");
    let outline = outline::outline(file.one("outline"), length);
    let construction = construction::construction(file, length, (outline.nose, outline.tail));
    let timber = wood::timber(file, report);
    Draft {
        name: top.text("name").unwrap_or("draft").trim().to_owned(),
        notes: top.text("notes").unwrap_or("").to_owned(),
        report: match top.word("report") {
            "mm" => Unit::Mm,
            "in" => Unit::In,
            _ if file.unit.is_metric() => Unit::Mm,
            _ => Unit::In,
        },
        length,
        outline,
        rocker: rocker(file.one("rocker"), length),
        foil: foil(file.one("foil")),
        sections: section::sections(file, length),
        construction,
        skins: skins::skins(file.one("skins")),
        shop: wood::shop(file, &timber.rail.name),
        timber,
        blocks: fittings::blocks(file.one("blocks")),
        fins: fittings::fins(file),
        plug: fittings::hole(file.one("plug")),
        vent: fittings::hole(file.one("vent")),
        bed: bed(file.one("bed")),
        finish: weight::finish(file.one("finish")),
        fittings: weight::fittings(file),
        rider: weight::rider(file.one("rider")),
    }
}

/// The side view of the bottom.
fn rocker(table: &Table, length: f64) -> Rocker {
    if let Some(points) = table.pairs("points") {
        return Rocker::Points(points);
    }
    let flat = match table.places("flat").as_deref() {
        Some(&[from, to]) => [from, to],
        _ => [0.36 * length, 0.56 * length],
    };
    Rocker::Measures {
        nose: table.number("nose"),
        tail: table.number("tail"),
        flat,
    }
}

/// The thickness along the board.
fn foil(table: &Table) -> Foil {
    if let Some(points) = table.pairs("points") {
        return Foil::Points(points);
    }
    let centre = table.number("centre");
    let nose = table.number_or("nose", 0.57 * centre);
    let tail = table.number_or("tail", 0.62 * centre);
    Foil::Measures {
        centre,
        nose,
        tail,
        nose_tip: table.number_or("nose_tip", 0.5 * nose),
        tail_tip: table.number_or("tail_tip", 0.5 * tail),
    }
}

/// The building bed.
fn bed(table: &Table) -> Bed {
    let beam = table.word("stands_on") == "beam";
    Bed {
        stations: table.places("stations"),
        thickness: table.number("thickness"),
        base_height: table.number("base_height"),
        width: table.optional("width"),
        beam: beam.then(|| [table.number("beam_width"), table.number("beam_height")]),
        sight_hole: table.number("sight_hole"),
    }
}
