//! Rules of rocker, foil and sections along the board.

use super::{Breaks, END, Rule, key};
use crate::design::model::{Draft, Foil, Rocker};
use crate::design::place::KeyPlace;
use crate::design::ranges::APART;
use crate::design::scalar::plain;

/// How near the base plane the lowest point of the rocker must be, mm.
const BASE: f64 = 0.05;

pub(super) const RULES: &[Rule] = &[
    Rule {
        code: "rocker-spans",
        keys: &["rocker.points", "outline.length"],
        rests_on: &[],
        says: "`points` must reach from tail to nose",
        breaks: |draft, breaks| {
            if let Rocker::Points(points) = &draft.rocker {
                spans(draft, breaks, key("rocker.points"), points);
            }
        },
    },
    Rule {
        code: "rocker-lowest",
        keys: &["rocker.points"],
        rests_on: &[],
        says: "the lowest of the rocker's `points` must be at height 0",
        breaks: lowest,
    },
    Rule {
        code: "rocker-flat-inside",
        keys: &["rocker.flat", "outline.length"],
        rests_on: &[],
        says: "`flat` must lie between the ends",
        breaks: flat,
    },
    Rule {
        code: "foil-spans",
        keys: &["foil.points", "outline.length"],
        rests_on: &[],
        says: "`points` must reach from tail to nose",
        breaks: |draft, breaks| {
            if let Foil::Points(points) = &draft.foil {
                spans(draft, breaks, key("foil.points"), points);
            }
        },
    },
    Rule {
        code: "foil-nose",
        keys: &["foil.nose", "foil.centre"],
        rests_on: &[],
        says: "`nose` must not be thicker than `centre`",
        breaks: |draft, breaks| thins(draft, breaks, "foil.nose", "foil.centre"),
    },
    Rule {
        code: "foil-tail",
        keys: &["foil.tail", "foil.centre"],
        rests_on: &[],
        says: "`tail` must not be thicker than `centre`",
        breaks: |draft, breaks| thins(draft, breaks, "foil.tail", "foil.centre"),
    },
    Rule {
        code: "foil-nose-tip",
        keys: &["foil.nose_tip", "foil.nose"],
        rests_on: &["foil.centre"],
        says: "`nose_tip` must not be thicker than `nose`",
        breaks: |draft, breaks| thins(draft, breaks, "foil.nose_tip", "foil.nose"),
    },
    Rule {
        code: "foil-tail-tip",
        keys: &["foil.tail_tip", "foil.tail"],
        rests_on: &["foil.centre"],
        says: "`tail_tip` must not be thicker than `tail`",
        breaks: |draft, breaks| thins(draft, breaks, "foil.tail_tip", "foil.tail"),
    },
    Rule {
        code: "section-missing",
        keys: &["section.at"],
        rests_on: &[],
        says: "there must be at least one section",
        breaks: |draft, breaks| {
            if draft.sections.is_empty() {
                breaks.add_plain(
                    &[key("section.at")],
                    "a design must have at least one section",
                    "add a section",
                );
            }
        },
    },
    Rule {
        code: "section-inside",
        keys: &["section.at", "outline.length"],
        rests_on: &[],
        says: "`at` must not lie beyond the board's length",
        breaks: sections_inside,
    },
    Rule {
        code: "section-apart",
        keys: &["section.at"],
        rests_on: &[],
        says: "sections must be at least 1 mm apart",
        breaks: sections_apart,
    },
];

/// Notes points that do not reach from tail to nose.
fn spans(draft: &Draft, breaks: &mut Breaks, place: KeyPlace, points: &[[f64; 2]]) {
    let [[tail, _], .., [nose, _]] = points else {
        breaks.add(
            &[place],
            [points.len() as f64, 2.0],
            "`points` must hold at least the two ends".to_owned(),
            format!("add points at 0 and {} mm", plain(draft.length)),
        );
        return;
    };
    let last = points.len() - 1;
    for (i, x, end, what) in [
        (0, *tail, 0.0, "first"),
        (last, *nose, draft.length, "last"),
    ] {
        if (x - end).abs() > END {
            let at = plain(end);
            breaks.add(
                &[place.element(i)],
                [x, end],
                format!("the {what} of `points` must be at {at} mm"),
                format!("move it to {at} mm, or add a point there"),
            );
        }
    }
}

fn lowest(draft: &Draft, breaks: &mut Breaks) {
    let Rocker::Points(points) = &draft.rocker else {
        return;
    };
    let lowest = points.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
    if lowest > BASE && lowest.is_finite() {
        breaks.add(
            &[key("rocker.points")],
            [lowest, BASE],
            "the lowest of the rocker's `points` must be at height 0, on the base plane".to_owned(),
            format!("take {} mm from every height", plain(lowest)),
        );
    }
}

fn flat(draft: &Draft, breaks: &mut Breaks) {
    let Rocker::Measures { flat, .. } = draft.rocker else {
        return;
    };
    for (i, x) in flat.into_iter().enumerate() {
        if x <= 0.0 || x >= draft.length {
            let limit = if x <= 0.0 { 0.0 } else { draft.length };
            breaks.add(
                &[key("rocker.flat").element(i)],
                [x, limit],
                format!(
                    "`flat` must lie between the ends, 0 and {} mm",
                    plain(draft.length)
                ),
                "give a place between the ends, or check `length`",
            );
        }
    }
}

/// Notes a foil that is thicker at `part` than at `whole`.
fn thins(draft: &Draft, breaks: &mut Breaks, part: &'static str, whole: &'static str) {
    let Foil::Measures {
        centre,
        nose,
        tail,
        nose_tip,
        tail_tip,
    } = draft.foil
    else {
        return;
    };
    let measure = |name: &str| match name {
        "foil.nose" => nose,
        "foil.tail" => tail,
        "foil.nose_tip" => nose_tip,
        "foil.tail_tip" => tail_tip,
        _ => centre,
    };
    let (thickness, most) = (measure(part), measure(whole));
    if thickness > most {
        // Either may be the slip; the one that is written is shown.
        let (part, whole) = (key(part), key(whole));
        let (name, other, limit) = (part.key, whole.key, plain(most));
        breaks.add(
            &[part, whole],
            [thickness, most],
            format!("`{name}` must not be thicker than `{other}`, {limit} mm"),
            format!("give a lesser `{name}`, or a greater `{other}`"),
        );
    }
}

fn sections_inside(draft: &Draft, breaks: &mut Breaks) {
    for (row, section) in draft.sections.iter().enumerate() {
        if section.x > draft.length {
            let limit = plain(draft.length);
            breaks.add(
                &[KeyPlace::in_row("section.at", row)],
                [section.x, draft.length],
                format!("`at` must not lie beyond the board's length, {limit} mm"),
                format!("give a place of at most {limit} mm, or check `length`"),
            );
        }
    }
}

fn sections_apart(draft: &Draft, breaks: &mut Breaks) {
    for (row, section) in draft.sections.iter().enumerate() {
        let before = draft.sections.iter().take(row);
        let near = |other: f64| (other - section.x).abs() < APART;
        if let Some((other, at)) = before.enumerate().find(|(_, s)| near(s.x)) {
            breaks.add(
                &[
                    KeyPlace::in_row("section.at", row),
                    KeyPlace::in_row("section.at", other),
                ],
                [section.x, at.x],
                format!("another section is at {} mm already", plain(section.x)),
                "keep one of them, or put one elsewhere",
            );
        }
    }
}
