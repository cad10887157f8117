//! Where fittings and what they are let into get in each other's way, and the smallest change that would serve.

use super::room::{BELOW, Room, across, places, x_range, y_range};
use super::solid::{floor, reach, skin, thickness};
use super::{FittingKind, PlacedFitting, Trouble};
use crate::design::Through;
use crate::frame::blocks::{Block, Which};

/// Least height of the spine left over a cut-out, mm (common practice, no published source).
const SPINE_LEFT: f64 = 8.0;
/// Least wood between a cut-out in a block and the finished outline, mm (common practice, no published source).
const EDGE: f64 = 4.0;
/// Overlaps below this, mm, are none: parts may touch.
pub(super) const TOUCH: f64 = 0.05;

/// End blocks that the skins leave no room for.
pub(super) fn missing(blocks: &[Block]) -> Vec<Trouble> {
    [Which::Tail, Which::Nose]
        .into_iter()
        .filter(|which| blocks.iter().all(|b| b.which != *which))
        .map(|which| {
            let key = match which {
                Which::Tail => "tail_block",
                Which::Nose => "nose_block",
            };
            Trouble {
                part: which.name().into(),
                with: "skins".into(),
                headline: format!("the skins leave no room for the {key}").replace('_', " "),
                value: 0.0,
                remedy: format!(
                    "make `{key}` longer, the skins thinner or the board thicker there"
                ),
            }
        })
        .collect()
}

/// Whether a fitting lies on the board at all; notes it if not.
pub(super) fn on_board(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) -> bool {
    let (tail, nose) = room.shell.x_range();
    let [from, to] = x_range(&f.shadow);
    let mut out = (tail - from).max(to - nose);
    for x in places(&f.shadow)
        .into_iter()
        .filter(|x| (tail..=nose).contains(x))
    {
        if let Some([low, high]) = across(&f.shadow, x) {
            let inner = room.plan.inner(x);
            let nearest = if low * high <= 0.0 {
                0.0
            } else {
                low.abs().min(high.abs())
            };
            out = out.max(inner - nearest);
        }
    }
    if out <= 0.0 {
        return true;
    }
    troubles.push(Trouble {
        part: f.name.clone(),
        with: "outline".into(),
        headline: format!("{} reaches {out:.1} mm past the board's end or into its cleft", f.name),
        value: out,
        remedy: format!(
            "place it at least {:.1} mm further from there (`from_tail`, now {:.1} mm); it has no pad until then",
            up(out),
            f.from_tail
        ),
    });
    false
}

/// Rounded to a tenth of a millimetre, so that what a remedy says serves as it is printed.
pub(super) fn up(mm: f64) -> f64 {
    (10.0 * mm - 1e-6).ceil() / 10.0
}

fn down(mm: f64) -> f64 {
    (10.0 * mm + 1e-6).floor() / 10.0
}

/// Everything but other fittings.
pub(super) fn check(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) {
    if f.pad.is_none() && !room.held_by_block(f) {
        troubles.push(Trouble {
            part: f.name.clone(),
            with: "hollow".into(),
            headline: format!("nothing of {}'s pad fits into the hollow there", f.name),
            value: 0.0,
            remedy: "move it to where the board is thicker or wider".into(),
        });
    }
    ribs(room, f, troubles);
    spine(room, f, troubles);
    sides(room, f, troubles);
    depth(room, f, troubles);
    vent(room, f, troubles);
}

fn named(f: &PlacedFitting) -> String {
    match f.kind {
        FittingKind::Fin => format!("{}'s cut-out", f.name),
        FittingKind::Plug | FittingKind::Vent => format!("the hole for {}", f.name),
    }
}

/// A cut-out that meets a rib.
fn ribs(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) {
    if room.held_by_block(f) {
        return;
    }
    let [from, to] = x_range(&f.shadow);
    let spans: Vec<[f64; 2]> = room
        .ribs
        .iter()
        .map(|r| [r.x - r.thickness / 2.0, r.x + r.thickness / 2.0])
        .collect();
    for (rib, span) in room.ribs.iter().zip(&spans) {
        let meets =
            |from: f64, to: f64, span: &[f64; 2]| from < span[1] - TOUCH && to > span[0] + TOUCH;
        if !meets(from, to, span) {
            continue;
        }
        // Moves that clear this rib, the smaller first, and no other.
        let mut moves = [span[0] - to, span[1] - from];
        moves.sort_by(|a, b| a.abs().total_cmp(&b.abs()));
        let (tail, nose) = room.shell.x_range();
        let clear = |by: f64| {
            let (a, b) = (from + by, to + by);
            a > tail && b < nose && spans.iter().all(|s| !meets(a, b, s))
        };
        let mut remedies: Vec<String> = moves
            .iter()
            .filter(|by| clear(**by))
            .map(|by| {
                format!(
                    "move it {:.1} mm towards the {} (`from_tail` = {:.1} mm)",
                    up(by.abs()),
                    if *by < 0.0 { "tail" } else { "nose" },
                    if *by < 0.0 {
                        down(f.from_tail + by)
                    } else {
                        up(f.from_tail + by)
                    }
                )
            })
            .collect();
        remedies.push(format!(
            "move rib {} to {:.1} or {:.1} mm from the tail",
            rib.number,
            down(from - rib.thickness / 2.0),
            up(to + rib.thickness / 2.0)
        ));
        if let Some(notch) = notch(room, f, rib.x) {
            remedies.push(notch);
        }
        let value = moves.first().map_or(0.0, |m| m.abs());
        troubles.push(Trouble {
            part: f.name.clone(),
            with: format!("rib {}", rib.number),
            headline: format!(
                "{} meets rib {}, {value:.1} mm past its nearer face",
                named(f),
                rib.number
            ),
            value,
            remedy: remedies.join("; or "),
        });
    }
}

/// What is left of a rib that is notched over the pad's full thickness.
fn notch(room: &Room<'_>, f: &PlacedFitting, x: f64) -> Option<String> {
    let pad = f.pad.as_ref()?;
    let [low, high] = across(&pad.rectangle, x)?;
    let [bottom, deck] = room.plane(x)?.heights(f.middle[1]);
    let (height, left) = (pad.thickness, deck - bottom - pad.thickness);
    (left >= SPINE_LEFT).then(|| {
        format!(
            "notch the rib {:.1} mm wide and {height:.1} mm high so that the pad goes through, which leaves {left:.1} of its {:.1} mm",
            high - low,
            deck - bottom
        )
    })
}

/// A cut-out that meets the spine.
fn spine(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) {
    if room.held_by_block(f) {
        return;
    }
    let half = room.construction().spine / 2.0;
    let [low, high] = y_range(&f.shadow);
    if low >= half - TOUCH || high <= -half + TOUCH {
        return;
    }
    if f.middle[1].abs() > half {
        let over = if f.middle[1] > 0.0 {
            half - low
        } else {
            high + half
        };
        troubles.push(Trouble {
            part: f.name.clone(),
            with: "spine".into(),
            headline: format!("{} cuts {over:.1} mm into the spine", named(f)),
            value: over,
            remedy: format!(
                "move it {:.1} mm outboard (`from_centre` = {:.1} mm)",
                up(over),
                up(f.middle[1].abs() + over)
            ),
        });
        return;
    }
    // On the centreline the pad's halves lie against the spine, which loses the cut-out's depth.
    let cut = reach(f) - skin(room, f.through);
    let [from, to] = room.hollow();
    let mut worst = f64::INFINITY;
    for x in places(&f.shadow)
        .into_iter()
        .filter(|x| (from..=to).contains(x))
    {
        if let Some(plane) = room.plane(x) {
            let [bottom, deck] = plane.heights(0.0);
            worst = worst.min(deck - bottom - cut);
        }
    }
    if worst < SPINE_LEFT {
        troubles.push(Trouble {
            part: f.name.clone(),
            with: "spine".into(),
            headline: format!(
                "{} leaves {:.1} mm of the spine, {SPINE_LEFT} mm asked",
                named(f),
                worst.max(0.0)
            ),
            value: SPINE_LEFT - worst,
            remedy: format!(
                "make it {:.1} mm deep; or move it to where the board is {:.1} mm thicker",
                down((f.depth - SPINE_LEFT + worst).max(0.0)),
                up(SPINE_LEFT - worst)
            ),
        });
    }
}

/// A cut-out that meets the rail's strips, or in a block comes near the outline.
fn sides(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) {
    let mut over = f64::NEG_INFINITY;
    let mut with = "rail";
    let [from, to] = room.hollow();
    for x in places(&f.shadow) {
        let Some(ends) = across(&f.shadow, x) else {
            continue;
        };
        let outer = ends[0].abs().max(ends[1].abs());
        let limit = if (from..=to).contains(&x) {
            room.plane(x).and_then(|plane| {
                let [bottom, deck] = plane.heights(outer);
                let high = thickness(room, f);
                let range = match f.through {
                    Through::Bottom => [bottom - BELOW, bottom + high],
                    Through::Deck => [deck - high, deck + BELOW],
                };
                Some((room.strips(x, range[0], range[1])?, "rail"))
            })
        } else {
            Some((room.plan.half_width(x) - EDGE, "outline"))
        };
        if let Some((limit, what)) = limit
            && outer - limit > over
        {
            (over, with) = (outer - limit, what);
        }
    }
    if over <= TOUCH {
        return;
    }
    let what = match with {
        "rail" => "reaches past its pad into the rail's strips".to_owned(),
        _ => format!("comes nearer than {EDGE} mm to the outline"),
    };
    troubles.push(Trouble {
        part: f.name.clone(),
        with: with.into(),
        headline: format!("{} {what}, by {over:.1} mm", named(f)),
        value: over,
        remedy: format!(
            "move it {:.1} mm inboard (`from_centre` = {:.1} mm){}",
            up(over),
            down((f.middle[1].abs() - over).max(0.0)),
            if f.kind == FittingKind::Fin {
                "; or make the cut-out narrower by twice as much"
            } else {
                ""
            }
        ),
    });
}

/// A cut-out deeper than the board allows, or one that leaves too thin a floor.
fn depth(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) {
    let c = room.construction();
    let other = match f.through {
        Through::Bottom => c.deck_skin,
        Through::Deck => c.bottom_skin,
    };
    let far = match f.through {
        Through::Bottom => "deck",
        Through::Deck => "bottom",
    };
    // The board's wood from the surface cut into to the far skin's inner face, at its least over the cut-out.
    let mut wood = f64::INFINITY;
    let ys = y_range(&f.shadow);
    for x in places(&f.shadow) {
        let ends = across(&f.shadow, x).unwrap_or(ys);
        if let Some(plane) = room.plane(x) {
            for y in ends {
                let [bottom, deck] = plane.heights(y);
                wood = wood.min(deck - bottom);
            }
        }
    }
    if !wood.is_finite() {
        return;
    }
    let wood = wood + skin(room, f.through);
    let (cut, floor) = (reach(f), floor(room, f.kind));
    if cut + floor <= wood + TOUCH {
        return;
    }
    let over = cut + floor - wood;
    let headline = if cut >= wood + other {
        format!("{} comes out of the {far}", named(f))
    } else if cut > wood {
        format!("{} cuts {:.1} mm into the {far} skin", named(f), cut - wood)
    } else {
        format!(
            "{} leaves {:.1} mm under it, {floor:.1} mm asked",
            named(f),
            wood - cut
        )
    };
    troubles.push(Trouble {
        part: f.name.clone(),
        with: far.into(),
        headline: format!("{headline}: it is {cut:.1} mm deep where the board has {wood:.1} mm"),
        value: over,
        remedy: format!(
            "make it {:.1} mm deep; or move it to where the board is {:.1} mm thicker",
            down((f.depth - over).max(0.0)),
            up(over)
        ),
    });
}

/// A vent that does not open into the hollow.
fn vent(room: &Room<'_>, f: &PlacedFitting, troubles: &mut Vec<Trouble>) {
    if f.kind != FittingKind::Vent || !room.held_by_block(f) {
        return;
    }
    let [from, to] = room.hollow();
    let [low, high] = x_range(&f.shadow);
    let (by, towards) = if high <= from {
        (from - low, "nose")
    } else {
        (high - to, "tail")
    };
    let x = if towards == "nose" {
        f.from_tail + by
    } else {
        f.from_tail - by
    };
    troubles.push(Trouble {
        part: f.name.clone(),
        with: "block".into(),
        headline: "the vent ends in a solid block: no air passes".into(),
        value: by,
        remedy: format!(
            "move it {:.1} mm towards the {towards} (`from_tail` = {:.1} mm)",
            up(by),
            if towards == "nose" { up(x) } else { down(x) }
        ),
    });
}
