//! The building bed.

use crate::design::{Bed, read::File, scalar::plain, source::Report, table::Table};

/// Least wood between a beam's notch and a cradle's upper edge, mm (common practice, no published source).
const OVER_BEAM: f64 = 15.0;

/// The bed of a board of this length.
pub(super) fn bed(file: &File, length: Option<f64>, report: &mut Report<'_>) -> Option<Bed> {
    let table = file.one("bed")?;
    let (thickness, base_height) = (table.number("thickness"), table.number("base_height"));
    let stations = stations(table, length, thickness, report);
    let beam = if table.word("stands_on")? == "beam" {
        Some([table.number("beam_width")?, table.number("beam_height")?])
    } else {
        None
    };
    if let (Some([_, height]), Some(base)) = (beam, base_height)
        && height > base - OVER_BEAM
    {
        let most = plain(base - OVER_BEAM);
        let name = if table.given("beam_height") {
            "beam_height"
        } else {
            "base_height"
        };
        report.add(
            table.span(name),
            format!("`beam_height` must leave {OVER_BEAM} mm under the board, so it must be at most {most} mm"),
        );
        return None;
    }
    let width = if table.given("width") {
        Some(table.number_or("width", None)?)
    } else {
        None
    };
    Some(Bed {
        stations: stations?,
        thickness: thickness?,
        base_height: base_height?,
        width,
        beam,
        sight_hole: table.number("sight_hole")?,
    })
}

/// Stations of the maker's own, which must lie under the board and apart.
fn stations(
    table: &Table,
    length: Option<f64>,
    thickness: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Option<Vec<f64>>> {
    if !table.given("stations") {
        return Some(None);
    }
    let (length, thickness) = (length?, thickness?);
    let places = table.places("stations")?;
    let (from, to) = (thickness / 2.0, length - thickness / 2.0);
    let (mut sound, mut last) = (true, f64::NEG_INFINITY);
    for place in places {
        let x = place.value;
        if x < from || x > to {
            let (from, to) = (plain(from), plain(to));
            report.add(
                place.span.clone(),
                format!("a cradle must stand under the board, from {from} mm to {to} mm"),
            );
            sound = false;
        } else if x < last + thickness {
            let message = format!("cradles of {} mm overlap here", plain(thickness));
            report.add(place.span.clone(), message);
            sound = false;
        }
        last = x;
    }
    sound.then(|| Some(places.iter().map(|p| p.value).collect()))
}
