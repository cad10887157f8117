//! Where fittings and what they are let into get in each other's way, and the smallest change that would serve.

use super::room::{BELOW, Room, across, places, x_range, y_range};
use super::solid::{floor, reach, skin, thickness};
use super::{FittingKind, PlacedFitting};
use crate::design::Through;
use crate::design::finding::{BoardEnd, Change, Code, Face, Fact, Finding, Half, Part, Place};
use crate::frame::blocks::Block;

/// Least height of the spine left over a cut-out, mm (common practice, no published source).
const SPINE_LEFT: f64 = 8.0;
/// Least wood between a cut-out in a block and the finished outline, mm (common practice, no published source).
const EDGE: f64 = 4.0;
/// Overlaps below this, mm, are none: parts may touch.
pub(super) const TOUCH: f64 = 0.05;

/// End blocks that the skins leave no room for.
pub(super) fn missing(blocks: &[Block]) -> Vec<Finding> {
    [BoardEnd::Tail, BoardEnd::Nose]
        .into_iter()
        .filter(|which| blocks.iter().all(|b| b.which != *which))
        .map(|which| {
            Finding::new(Code::BlockMissing, Part::Block(which))
                .against(Part::Skins)
                .remedies([
                    Change::LongerBlock(which),
                    Change::ThinnerSkins,
                    Change::ThickerBoard,
                ])
        })
        .collect()
}

/// A finding about a fitting against another part, with its place.
fn finding(f: &PlacedFitting, code: Code, against: Part) -> Finding {
    let side = if f.middle[1] > 0.0 {
        Half::Starboard
    } else {
        Half::Port
    };
    let place = Place {
        y: Some(f.middle[1].abs()),
        side: (f.middle[1] != 0.0).then_some(side),
        ..Place::at(f.from_tail)
    };
    let finding = Finding::new(code, Part::Fitting(f.name.clone()))
        .against(against)
        .at(place);
    match f.kind {
        FittingKind::Fin => finding.fact(Fact::FinCut),
        FittingKind::Plug | FittingKind::Vent => finding,
    }
}

/// Whether a fitting lies on the board at all; notes it if not.
pub(super) fn on_board(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) -> bool {
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
    findings.push(
        finding(f, Code::FittingOffBoard, Part::Outline)
            .measured(out, 0.0)
            .remedies([Change::FurtherFromEnd {
                by: up(out),
                now: f.from_tail,
            }]),
    );
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
pub(super) fn check(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) {
    if f.pad.is_none() && !room.held_by_block(f) {
        findings.push(finding(f, Code::PadNoRoom, Part::Hollow).remedies([Change::ToRoomierPlace]));
    }
    ribs(room, f, findings);
    spine(room, f, findings);
    sides(room, f, findings);
    depth(room, f, findings);
    vent(room, f, findings);
}

/// A cut-out that meets a rib.
fn ribs(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) {
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
        let mut changes: Vec<Change> = moves
            .iter()
            .filter(|by| clear(**by))
            .map(|by| move_along(f, *by))
            .collect();
        changes.push(Change::MoveRibTo {
            rib: rib.number,
            to: [
                down(from - rib.thickness / 2.0),
                up(to + rib.thickness / 2.0),
            ],
        });
        changes.extend(notch(room, f, rib.x));
        let value = moves.first().map_or(0.0, |m| m.abs());
        findings.push(
            finding(f, Code::FittingOnRib, Part::Rib(rib.number))
                .measured(value, 0.0)
                .remedies(changes),
        );
    }
}

/// The fitting moved by so much, positive to the nose, rounded so that it serves as it is printed.
fn move_along(f: &PlacedFitting, by: f64) -> Change {
    let (towards, from_tail) = if by < 0.0 {
        (BoardEnd::Tail, down(f.from_tail + by))
    } else {
        (BoardEnd::Nose, up(f.from_tail + by))
    };
    Change::MoveAlong {
        by: up(by.abs()),
        towards,
        from_tail,
    }
}

/// The rib notched over the pad's full thickness, if enough of it is left.
fn notch(room: &Room<'_>, f: &PlacedFitting, x: f64) -> Option<Change> {
    let pad = f.pad.as_ref()?;
    let [low, high] = across(&pad.rectangle, x)?;
    let [bottom, deck] = room.plane(x)?.heights(f.middle[1]);
    let (height, remaining) = (pad.thickness, deck - bottom - pad.thickness);
    (remaining >= SPINE_LEFT).then_some(Change::NotchRib {
        width: high - low,
        height,
        remaining,
        of: deck - bottom,
    })
}

/// A cut-out that meets the spine.
fn spine(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) {
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
        findings.push(
            finding(f, Code::FittingInSpine, Part::Spine)
                .measured(over, 0.0)
                .remedies([Change::MoveOutboard {
                    by: up(over),
                    from_centre: up(f.middle[1].abs() + over),
                }]),
        );
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
        let short = SPINE_LEFT - worst;
        findings.push(
            finding(f, Code::SpineLeftThin, Part::Spine)
                .measured(worst.max(0.0), SPINE_LEFT)
                .remedies([
                    Change::CutDepth(down((f.depth - short).max(0.0))),
                    Change::ToThickerPlace(up(short)),
                ]),
        );
    }
}

/// A cut-out that meets the rail's strips, or in a block comes near the outline.
fn sides(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) {
    let mut over = f64::NEG_INFINITY;
    let mut code = Code::FittingInRail;
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
                let limit = room.strips(x, range[0], range[1])?;
                Some((limit, Code::FittingInRail))
            })
        } else {
            let limit = room.plan.half_width(x) - EDGE;
            Some((limit, Code::FittingNearOutline))
        };
        if let Some((limit, what)) = limit
            && outer - limit > over
        {
            (over, code) = (outer - limit, what);
        }
    }
    if over <= TOUCH {
        return;
    }
    let inboard = Change::MoveInboard {
        by: up(over),
        from_centre: down((f.middle[1].abs() - over).max(0.0)),
    };
    let narrower = (f.kind == FittingKind::Fin).then(|| Change::NarrowerCut(up(2.0 * over)));
    let changes = std::iter::once(inboard).chain(narrower);
    let found = if code == Code::FittingInRail {
        finding(f, code, Part::Rail).measured(over, 0.0)
    } else {
        finding(f, code, Part::Outline)
            .measured(over, 0.0)
            .fact(Fact::LeastDistance(EDGE))
    };
    findings.push(found.remedies(changes));
}

/// A cut-out deeper than the board allows, or one that leaves too thin a floor.
fn depth(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) {
    let c = room.construction();
    let other = match f.through {
        Through::Bottom => c.deck_skin,
        Through::Deck => c.bottom_skin,
    };
    let far = match f.through {
        Through::Bottom => Face::Deck,
        Through::Deck => Face::Bottom,
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
    let through = cut >= wood + other;
    let how = if through {
        Fact::ComesOut(far)
    } else if cut > wood {
        Fact::IntoSkin(cut - wood)
    } else {
        Fact::Floor(floor)
    };
    findings.push(
        finding(f, Code::FittingTooDeep, Part::Skin(far))
            .measured(over, 0.0)
            .fact(how)
            .fact(Fact::Depth(cut))
            .fact(Fact::WoodDepth(wood))
            .error_if(through)
            .remedies([
                Change::CutDepth(down((f.depth - over).max(0.0))),
                Change::ToThickerPlace(up(over)),
            ]),
    );
}

/// A vent that does not open into the hollow.
fn vent(room: &Room<'_>, f: &PlacedFitting, findings: &mut Vec<Finding>) {
    if f.kind != FittingKind::Vent || !room.held_by_block(f) {
        return;
    }
    let [from, to] = room.hollow();
    let [low, high] = x_range(&f.shadow);
    let by = if high <= from { from - low } else { to - high };
    let end = if by > 0.0 {
        BoardEnd::Tail
    } else {
        BoardEnd::Nose
    };
    findings.push(
        finding(f, Code::VentBlocked, Part::Block(end))
            .measured(by.abs(), 0.0)
            .remedies([move_along(f, by)]),
    );
}
