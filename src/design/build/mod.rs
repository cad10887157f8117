//! From the tables read to a checked design: defaults, and the checks of values against each other.
//!
//! Each builder takes what is sound, notes what contradicts, and gives nothing where a value it needs is faulty, so that
//! one slip is not reported twice.

mod bed;
mod construction;
mod fittings;
mod foil;
mod frame;
mod outline;
mod points;
mod ribs;
mod rocker;
mod section;
mod skins;
mod stations;
mod strip;
mod tail;
mod weight;
mod yard;

use super::{Design, read::File, source::Report};
use crate::design::units::Unit;

/// Distance from either end at which the trade quotes widths and thicknesses: 12 in.
pub(super) const FOOT: f64 = 304.8;

/// The design, if all of it is sound.
pub(super) fn design(file: &File, report: &mut Report<'_>) -> Option<Design> {
    for table in file.every() {
        table.contradictions(report);
    }
    let top = file.one("")?;
    let [outline, rocker, foil] = ["outline", "rocker", "foil"].map(|path| file.one(path));
    top.demand("name", report);
    if top.text("name").is_some_and(|name| name.trim().is_empty()) {
        report.add(
            top.span("name"),
            "`name` must not be empty".to_owned(),
            "write the board's name between the quotes",
        );
    }
    let length = outline?.need("length", report);
    let outline = outline::outline(outline?, length, report);
    let rocker = rocker::rocker(rocker?, length, report);
    let foil = foil::foil(foil?, length, report);
    let sections = section::sections(file, length, report);
    let ends = outline.as_ref().map(|o| (o.nose, o.tail));
    let construction = construction::construction(file, length, ends, foil.as_ref(), report);
    let skins = skins::skins(file, report);
    let timber = yard::timber(file, report);
    let shop = yard::shop(file, timber.as_ref().map(|t| t.rail.name.as_str()), report);
    let blocks = fittings::blocks(file);
    let fins = fittings::fins(file, report);
    let plug = fittings::hole(file, "plug", length, report);
    let vent = fittings::hole(file, "vent", length, report);
    let bed = bed::bed(file, length, report);
    let finish = weight::finish(file);
    let fittings = weight::fittings(file, length, report);
    let rider = weight::rider(file, length, report);
    let report_unit = match top.word("report") {
        Some("mm") => Unit::Mm,
        Some("in") => Unit::In,
        _ if file.unit.is_metric() => Unit::Mm,
        _ => Unit::In,
    };
    Some(Design {
        name: top.text("name")?.trim().to_owned(),
        notes: top.text("notes").unwrap_or("").to_owned(),
        report: report_unit,
        length: length?,
        outline: outline?,
        rocker: rocker?,
        foil: foil?,
        sections: sections?,
        construction: construction?,
        skins: skins?,
        timber: timber?,
        shop: shop?,
        blocks: blocks?,
        fins: fins?,
        plug: plug?,
        vent: vent?,
        bed: bed?,
        finish: finish?,
        fittings: fittings?,
        rider: rider?,
    })
}
