//! How the board is built.

use super::frame;
use crate::design::model::sagitta;
use crate::design::{
    Arrangement, Construction, LaminationPlane, Nose, Starter, Strip, Tail, read::File,
    table::Table,
};

/// The construction of a board of this length and ends.
pub(super) fn construction(file: &File, length: f64, (nose, tail): (Nose, Tail)) -> Construction {
    let table = file.one("construction");
    let tail_block = table.number_or("tail_block", usual_tail_block(tail));
    let nose_block = table.number_or("nose_block", usual_nose_block(nose));
    let rib_stations = table
        .places("rib_stations")
        .unwrap_or_else(|| evenly(tail_block, length - nose_block, table.number("rib_spacing")));
    Construction {
        bottom_skin: table.number("bottom_skin"),
        deck_skin: table.number("deck_skin"),
        rib: table.number("rib"),
        rib_stations,
        spine: table.number("spine"),
        slot_clearance: table.number("slot_clearance"),
        tail_block,
        nose_block,
        strip: strip(file.one("construction.strip")),
        starter: starter(file.one("construction.starter")),
        cover: table.number("cover"),
        proud: table.number("proud"),
        skin_turn: table.number("skin_turn"),
        skin_bend_radius: table.number("skin_bend_radius"),
        frame: frame::frame_cut(file),
    }
}

/// Default length of a tail block, mm (common practice, no published source).
const fn usual_tail_block(tail: Tail) -> f64 {
    match tail {
        Tail::Pin { .. } => 120.0,
        Tail::Round => 90.0,
        Tail::Square { .. } | Tail::Squash { .. } => 60.0,
        Tail::Swallow { depth, .. } => depth + 40.0,
    }
}

/// Default length of a nose block, mm (common practice, no published source).
const fn usual_nose_block(nose: Nose) -> f64 {
    match nose {
        Nose::Pointed { .. } => 120.0,
        Nose::Round => 90.0,
    }
}

/// Stations `spacing` apart, with the same remainder of half a spacing to a whole one before the first and behind the last;
/// one in the middle where the hollow is shorter than the spacing.
fn evenly(from: f64, to: f64, spacing: f64) -> Vec<f64> {
    let hollow = to - from;
    // Bounded by the ranges of length and spacing; at least one where a draft has no numbers there.
    let count = ((hollow / spacing).floor().min(60.0) as u32).max(1);
    let first = from + (hollow - f64::from(count - 1) * spacing) / 2.0;
    let station = |i| spacing.mul_add(f64::from(i), first);
    (0..count).map(station).collect()
}

/// The bead-and-cove strip.
fn strip(table: &Table) -> Strip {
    let thickness = table.number("thickness");
    let half = thickness / 2.0;
    let bead_radius = table.number_or("bead_radius", half);
    // Rounded figures of a half-round are a half-round.
    let bead = bead_radius.max(half);
    let cove_radius = table.number_or("cove_radius", bead);
    let deepest = sagitta(cove_radius.max(bead), thickness);
    Strip {
        thickness,
        width: table.number("width"),
        bead_radius,
        cove_radius,
        cove_depth: table.number_or("cove_depth", (deepest - 0.5).max(deepest / 2.0)),
    }
}

/// The starters.
fn starter(table: &Table) -> Starter {
    Starter {
        size: table.number("size"),
        count: table.count("count"),
        laminations: table.count("laminations"),
        lamination_plane: match table.word("lamination_plane") {
            "horizontal" => LaminationPlane::Horizontal,
            _ => LaminationPlane::Vertical,
        },
        arrangement: match table.word("arrangement") {
            "stacked" => Arrangement::Stacked,
            _ => Arrangement::SideBySide,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stations_are_even_and_leave_equal_ends() {
        assert_eq!(evenly(100.0, 1100.0, 300.0), [300.0, 600.0, 900.0]);
        assert_eq!(evenly(0.0, 1000.0, 500.0), [250.0, 750.0]);
        assert_eq!(evenly(0.0, 300.0, 500.0), [150.0]);
    }

    #[test]
    fn sagitta_of_known_arcs() {
        assert_eq!(sagitta(3.0, 6.0), 3.0);
        assert!((sagitta(5.0, 6.0) - 1.0).abs() < 1e-12);
        assert!(
            (sagitta(1.0, 6.0) - 1.0).abs() < 1e-12,
            "too small an arc: its own radius"
        );
    }
}
