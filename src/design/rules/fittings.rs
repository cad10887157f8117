//! Rules of fins, leash plug, vent, fittings and rider.

use super::{Breaks, Rule, key};
use crate::design::Hole;
use crate::design::model::Draft;
use crate::design::place::KeyPlace;
use crate::design::scalar::plain;

/// Least wood between two tabs' holes, mm (common practice, no published source).
const BETWEEN_TABS: f64 = 5.0;

pub(super) const RULES: &[Rule] = &[
    Rule {
        code: "fin-set",
        keys: &["fins.set"],
        rests_on: &[],
        says: "a set of fins must have all its fins",
        breaks: |draft, breaks| {
            let (count, least) = (draft.fins.fins.len(), draft.fins.set.count());
            if count < least {
                breaks.add(
                    &[key("fins.set")],
                    [count as f64, least as f64],
                    format!("this set has {least} fins or pairs of fins, but there are {count}"),
                    "choose another set, or give its fins",
                );
            }
        },
    },
    Rule {
        code: "fin-tabs",
        keys: &["fins.tab_spacing", "fins.cut_length"],
        rests_on: &["fins.base"],
        says: "`tab_spacing` must leave 5 mm between two tabs' holes",
        breaks: tabs,
    },
    Rule {
        code: "plug-inside",
        keys: &["plug.from_tail", "outline.length"],
        rests_on: &[],
        says: "`from_tail` must not lie beyond the board's length",
        breaks: |draft, breaks| hole(draft, breaks, key("plug.from_tail"), draft.plug.as_ref()),
    },
    Rule {
        code: "vent-inside",
        keys: &["vent.from_tail", "outline.length"],
        rests_on: &[],
        says: "`from_tail` must not lie beyond the board's length",
        breaks: |draft, breaks| hole(draft, breaks, key("vent.from_tail"), draft.vent.as_ref()),
    },
    Rule {
        code: "fitting-inside",
        keys: &["fitting.at", "outline.length"],
        rests_on: &[],
        says: "`at` must be on the board",
        breaks: |draft, breaks| {
            for (row, fitting) in draft.fittings.iter().enumerate() {
                let place = KeyPlace::in_row("fitting.at", row);
                on_board(draft, breaks, place, fitting.x);
            }
        },
    },
    Rule {
        code: "rider-inside",
        keys: &["rider.at", "outline.length"],
        rests_on: &[],
        says: "`at` must be on the board",
        breaks: |draft, breaks| {
            if let Some(x) = draft.rider.and_then(|rider| rider.x) {
                on_board(draft, breaks, key("rider.at"), x);
            }
        },
    },
];

fn tabs(draft: &Draft, breaks: &mut Breaks) {
    for fin in draft.fins.fins.iter().filter(|fin| fin.cut.count > 1) {
        let least = fin.cut.length + BETWEEN_TABS;
        if fin.cut.spacing < least {
            let (room, length) = (plain(least), plain(fin.cut.length));
            let message = format!(
                "`tab_spacing` must leave {BETWEEN_TABS} mm between holes of {length} mm, so it must be at least {room} mm"
            );
            // Fins of a set have one cut-out.
            if breaks.found.iter().any(|broken| broken.message == message) {
                continue;
            }
            breaks.add(
                &[key("fins.tab_spacing"), key("fins.cut_length")],
                [fin.cut.spacing, least],
                message,
                format!("give a `tab_spacing` of at least {room} mm, or a lesser `cut_length`"),
            );
        }
    }
}

fn hole(draft: &Draft, breaks: &mut Breaks, place: KeyPlace, hole: Option<&Hole>) {
    if let Some(x) = hole.and_then(|hole| hole.from_tail)
        && x > draft.length
    {
        let limit = plain(draft.length);
        breaks.add(
            &[place],
            [x, draft.length],
            format!("`from_tail` must not lie beyond the board's length, {limit} mm"),
            format!("give a place of at most {limit} mm, or check `length`"),
        );
    }
}

fn on_board(draft: &Draft, breaks: &mut Breaks, place: KeyPlace, x: f64) {
    if x > draft.length {
        let limit = plain(draft.length);
        breaks.add(
            &[place],
            [x, draft.length],
            format!("`at` must be on the board, at most {limit} mm from the tail"),
            format!("give a place of at most {limit} mm, or check `length`"),
        );
    }
}
