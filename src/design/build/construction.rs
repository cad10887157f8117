//! How the board is built.

use super::{frame, points::between, ribs, strip};
use crate::design::{
    Construction, Foil, Nose, Tail, read::File, scalar::plain, source::Report, table::Table,
};

/// The least height of the hollow at the board's centre, mm.
const HOLLOW: f64 = 10.0;

/// The construction of a board of this length, ends and foil.
pub(super) fn construction(
    file: &File,
    length: Option<f64>,
    ends: Option<(Nose, Tail)>,
    foil: Option<&Foil>,
    report: &mut Report<'_>,
) -> Option<Construction> {
    let table = file.one("construction")?;
    let bottom_skin = table.number("bottom_skin");
    let deck_skin = table.number("deck_skin");
    let skins = bottom_skin.zip(deck_skin).map(|(a, b)| a + b);
    hollow(file, length, foil, skins, report);
    let rib = table.number("rib");
    let (nose, tail) = (ends.map(|ends| ends.0), ends.map(|ends| ends.1));
    let tail_block = tail_block(table, tail, report);
    let nose_block = table.number_or("nose_block", nose.map(silent_nose_block));
    let rib_stations = ribs::stations(table, length, tail_block.zip(nose_block), rib, report);
    let strip = strip::strip(file.one("construction.strip")?, report);
    let starter = strip::starter(file.one("construction.starter")?, strip, report);
    Some(Construction {
        bottom_skin: bottom_skin?,
        deck_skin: deck_skin?,
        rib: rib?,
        rib_stations: rib_stations?,
        spine: table.number("spine")?,
        slot_clearance: table.number("slot_clearance")?,
        tail_block: tail_block?,
        nose_block: nose_block?,
        strip: strip?,
        starter: starter?,
        cover: table.number("cover")?,
        proud: table.number("proud")?,
        skin_turn: table.number("skin_turn")?,
        skin_bend_radius: table.number("skin_bend_radius")?,
        frame: frame::frame_cut(file)?,
    })
}

/// Notes a board too thin at its centre to be hollow.
fn hollow(
    file: &File,
    length: Option<f64>,
    foil: Option<&Foil>,
    skins: Option<f64>,
    report: &mut Report<'_>,
) {
    let (Some(length), Some(foil), Some(skins)) = (length, foil, skins) else {
        return;
    };
    let Some(centre) = between(&foil.points, length / 2.0) else {
        return;
    };
    if centre < skins + HOLLOW {
        let Some(table) = file.one("foil") else {
            return;
        };
        let name = if table.given("points") {
            "points"
        } else {
            "centre"
        };
        let (left, centre) = (plain(centre - skins), plain(centre));
        report.add(
            table.span(name),
            format!(
                "the board must leave {HOLLOW} mm between its skins at the centre, but its {centre} mm leave {left} mm"
            ),
            "make the board thicker there, or the skins thinner",
        );
    }
}

/// The tail block, which must hold a swallow tail's cleft.
fn tail_block(table: &Table, tail: Option<Tail>, report: &mut Report<'_>) -> Option<f64> {
    /// Wood left ahead of the cleft, mm.
    const AHEAD: f64 = 10.0;
    let block = table.number_or("tail_block", tail.map(silent_tail_block));
    if let (Some(Tail::Swallow { depth, .. }), Some(block)) = (tail, block)
        && block < depth + AHEAD
    {
        let least = plain(depth + AHEAD);
        let message =
            format!("`tail_block` must reach past the cleft, so it must be at least {least} mm");
        let remedy = format!("give at least {least} mm, or a lesser `tail_cleft`");
        report.add(table.span("tail_block"), message, remedy);
    }
    block
}

/// Length of a tail block not given, mm (common practice, no published source).
const fn silent_tail_block(tail: Tail) -> f64 {
    match tail {
        Tail::Pin { .. } => 120.0,
        Tail::Round => 90.0,
        Tail::Square { .. } | Tail::Squash { .. } => 60.0,
        Tail::Swallow { depth, .. } => depth + 40.0,
    }
}

/// Length of a nose block not given, mm (common practice, no published source).
const fn silent_nose_block(nose: Nose) -> f64 {
    match nose {
        Nose::Pointed { .. } => 120.0,
        Nose::Round => 90.0,
    }
}
