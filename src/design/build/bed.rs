//! The building bed.

use super::stations::{self, Standing};
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
            "give a lower beam, or a greater `base_height`",
        );
        return None;
    }
    Some(Bed {
        stations: stations?,
        thickness: thickness?,
        base_height: base_height?,
        width: table.number_if_given("width")?,
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
    let what = Standing {
        names: ["cradle", "cradles"],
        place: "under the board",
        between: [0.0, length],
        thickness,
    };
    stations::stations(table.places("stations")?, &what, report).map(Some)
}
