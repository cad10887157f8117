//! Which parts are neighbours, and where they bear on each other.

use super::contact::{Bearing, ContactKind};
use crate::board::Board;
use crate::design::{Arrangement, Through};
use crate::geometry::mesh::Mesh;
use crate::rail::{CourseKind, Stack, Strip};

/// Two parts, by their places in the list, and what they bear on.
pub(super) struct Pair {
    pub parts: [usize; 2],
    pub kind: ContactKind,
    pub bearing: Bearing,
}

/// Length over which parts must bear somewhere, mm.
const STEP: f64 = 15.0;

/// Bearing along the board over stretches.
fn along(stretches: Vec<[f64; 2]>) -> Bearing {
    Bearing {
        axis: 0,
        stretches,
        step: STEP,
    }
}

/// Bearing across the board.
fn across(stretch: [f64; 2]) -> Bearing {
    Bearing {
        axis: 1,
        stretches: vec![stretch],
        step: STEP,
    }
}

/// Kept clear of corners and ends, mm.
const CLEAR: f64 = 1.5;
/// An inner face of less than this, mm, is too little to bear on a rib.
const FACE: f64 = 2.0;

/// Where parts are in the list, after the ribs, the spine, the bottom skin and the deck skin.
#[derive(Debug, Default)]
pub(super) struct Places {
    /// Of the board's strips.
    pub strips: Vec<Option<usize>>,
    /// Of the blocks, by their index in the board.
    pub blocks: Vec<(usize, usize)>,
    /// Of the pads' pieces, with the skin they lie on.
    pub pads: Vec<(Through, usize)>,
}

/// All pairs of neighbours.
pub(super) fn pairs(board: &Board, places: &Places, parts: &[Mesh]) -> Vec<Pair> {
    let strips = &places.strips;
    let spine = board.ribs.len();
    let (bottom, deck) = (spine + 1, spine + 2);
    let mut found = Vec::new();
    for (i, rib) in board.ribs.iter().enumerate() {
        let boundary = rib.stack.inner_boundary();
        let ends = boundary.and_then(|b| Some([b.first()?.x, b.last()?.x]));
        let [low, high] = ends.unwrap_or_default();
        // The template clears both faces, so it ends where the narrower does.
        let slant = rib.thickness * rib.bevels.rail.tan().abs();
        let slot = rib.slot_width / 2.0 + CLEAR;
        found.push(Pair {
            parts: [i, bottom],
            kind: ContactKind::RibOnBottom,
            bearing: across([slot, low - slant - CLEAR]),
        });
        found.push(Pair {
            parts: [i, deck],
            kind: ContactKind::RibUnderDeck,
            bearing: across([slot, high - slant - CLEAR]),
        });
        found.push(Pair {
            parts: [i, spine],
            kind: ContactKind::RibOnSpine,
            bearing: across([-board.spine.thickness / 2.0, board.spine.thickness / 2.0]),
        });
        for (strip, &place) in board.strips.iter().zip(strips) {
            let Some(place) = place else { continue };
            let half = rib.thickness / 2.0;
            let [aft, fore] = [rib.x - half, rib.x + half];
            if strip.ends[0] > fore || strip.ends[1] < aft {
                continue;
            }
            // Where it runs out, shavings are left of it, which carry nothing.
            let [from, to] = reach(&parts[place]);
            let whole = from < aft && to > fore;
            let stretches = if whole
                && bears(
                    &rib.stack,
                    strip,
                    board.design.construction.starter.arrangement,
                ) {
                vec![[aft, fore]]
            } else {
                Vec::new()
            };
            found.push(Pair {
                parts: [i, place],
                kind: ContactKind::StripOnRib,
                bearing: along(stretches),
            });
        }
    }
    let ends = [board.spine.ends[0] + CLEAR, board.spine.ends[1] - CLEAR];
    found.push(Pair {
        parts: [spine, bottom],
        kind: ContactKind::SpineOnBottom,
        bearing: along(vec![ends]),
    });
    // The spine is slotted from above.
    let mut bays = Vec::new();
    let mut from = ends[0];
    for rib in &board.ribs {
        let half = board.spine.slot_width / 2.0 + CLEAR;
        bays.push([from, rib.x - half]);
        from = rib.x + half;
    }
    bays.push([from, ends[1]]);
    found.push(Pair {
        parts: [spine, deck],
        kind: ContactKind::SpineUnderDeck,
        bearing: along(bays),
    });
    found.extend(rail(board, strips, parts, bottom, deck));
    found.extend(blocks(board, places, parts));
    found.extend(pads(board, places, parts));
    found
}

/// Pairs of blocks with skins, spine and strips.
fn blocks(board: &Board, places: &Places, parts: &[Mesh]) -> Vec<Pair> {
    let spine = board.ribs.len();
    let mut found = Vec::new();
    for &(index, place) in &places.blocks {
        for (skin, kind) in [
            (spine + 1, ContactKind::BlockOnBottom),
            (spine + 2, ContactKind::BlockUnderDeck),
        ] {
            found.push(Pair {
                parts: [place, skin],
                kind,
                bearing: along(shared(&parts[place], &parts[skin], 0)),
            });
        }
        let face = board.blocks[index].face;
        // What ends within this of the face butts on it.
        let butts = |ends: [f64; 2]| ends.iter().any(|e| (e - face).abs() < CLEAR);
        let butt = |part: usize, kind| Pair {
            parts: [part, place],
            kind,
            bearing: along(vec![[face - CLEAR, face + CLEAR]]),
        };
        if butts(board.spine.ends) {
            found.push(butt(spine, ContactKind::SpineToBlock));
        }
        for (strip, part) in board.strips.iter().zip(&places.strips) {
            if let Some(part) = part.filter(|_| butts(strip.ends)) {
                found.push(butt(part, ContactKind::StripToBlock));
            }
        }
    }
    found
}

/// Pairs of pads with skins, ribs and spine. What they do not bear on they only must not enter.
fn pads(board: &Board, places: &Places, parts: &[Mesh]) -> Vec<Pair> {
    let spine = board.ribs.len();
    let mut found = Vec::new();
    for &(through, place) in &places.pads {
        let skin = match through {
            Through::Bottom => spine + 1,
            Through::Deck => spine + 2,
        };
        found.push(Pair {
            parts: [place, skin],
            kind: ContactKind::PadOnSkin,
            bearing: along(shared(&parts[place], &parts[skin], 0)),
        });
        for part in 0..=spine {
            if !shared(&parts[place], &parts[part], 0).is_empty() {
                found.push(Pair {
                    parts: [place, part],
                    kind: if part == spine {
                        ContactKind::PadBySpine
                    } else {
                        ContactKind::PadByRib
                    },
                    bearing: along(Vec::new()),
                });
            }
        }
    }
    found
}

/// Where two parts lie side by side along an axis, if they do.
fn shared(a: &Mesh, b: &Mesh, axis: usize) -> Vec<[f64; 2]> {
    let range = |m: &Mesh| {
        let along = m.vertices.iter().map(|v| v[axis]);
        along.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| {
            [low.min(v), high.max(v)]
        })
    };
    let ([a0, a1], [b0, b1]) = (range(a), range(b));
    let both = [a0.max(b0) + 1e-6, a1.min(b1) - 1e-6];
    if both[1] > both[0] {
        vec![both]
    } else {
        Vec::new()
    }
}

/// Whether the strip shows the rib enough of its inner face.
fn bears(stack: &Stack, strip: &Strip, arrangement: Arrangement) -> bool {
    let c = match stack.courses.get(strip.course) {
        Some(c) => c,
        None => return false,
    };
    // Of starters abreast the innermost alone meets the rib.
    let next = stack.courses.get(strip.course + 1);
    let outer = arrangement == Arrangement::SideBySide
        && !c.is_moulded()
        && next.is_some_and(|next| !next.is_moulded());
    let [low, high] = c.inner_wood();
    let steps = 20;
    let within = (0..=steps)
        .map(|i| low + (high - low) * (f64::from(i) / f64::from(steps)))
        .filter(|p| stack.faces.iter().all(|f| f.inside(p) > 0.0))
        .count();
    !outer && (high - low).norm() * within as f64 / f64::from(steps) > FACE
}

/// Pairs of strips with each other and with the skins.
fn rail(
    board: &Board,
    strips: &[Option<usize>],
    parts: &[Mesh],
    bottom: usize,
    deck: usize,
) -> Vec<Pair> {
    let c = &board.design.construction;
    let mut found = Vec::new();
    let lies = c.starter.arrangement == Arrangement::SideBySide;
    for (upper, &place) in board.strips.iter().zip(strips) {
        let Some(place) = place else { continue };
        if upper.course == 0 || (lies && upper.kind == CourseKind::Starter) {
            found.push(Pair {
                parts: [place, bottom],
                kind: ContactKind::StarterOnBottom,
                bearing: along(vec![inner(upper.ends)]),
            });
        }
        // Top where the stack ends with it and it reaches the deck over its whole thickness.
        found.push(Pair {
            parts: [place, deck],
            kind: ContactKind::StripUnderDeck,
            bearing: along(tops(board, upper)),
        });
        for (lower, &under) in board.strips.iter().zip(strips) {
            let Some(under) = under else { continue };
            let carried = match upper.kind {
                _ if upper.course == 0 => false,
                // Starters abreast: the first moulded strip stands on the outermost.
                CourseKind::BeadOnly if lies => lower.course == 0,
                _ => lower.course + 1 == upper.course,
            };
            if !carried {
                continue;
            }
            // As far as there is wood: a strip's run-out may be shavings that are no solid.
            let [a, b] = [place, under].map(|part| reach(&parts[part]));
            let shared = [a[0].max(b[0]), a[1].min(b[1])];
            if shared[1] - shared[0] < 2.0 * CLEAR {
                continue;
            }
            found.push(Pair {
                parts: [place, under],
                kind: match (upper.kind, lower.kind) {
                    (CourseKind::Starter, _) => ContactKind::Starters,
                    (CourseKind::BeadOnly, _) => ContactKind::FlatBase,
                    (CourseKind::BeadAndCove, _) => ContactKind::CoveOnBead,
                },
                bearing: along(vec![inner(shared)]),
            });
        }
    }
    found
}

/// How far a part reaches along the board.
fn reach(part: &Mesh) -> [f64; 2] {
    let x = || part.vertices.iter().map(|v| v.x);
    [
        x().fold(f64::INFINITY, f64::min),
        x().fold(f64::NEG_INFINITY, f64::max),
    ]
}

fn inner([from, to]: [f64; 2]) -> [f64; 2] {
    [from + CLEAR, to - CLEAR]
}

/// Stretches over which `strip` carries the deck. Of starters abreast that fill the rail by themselves it is the outermost, on which the next
/// course would stand; those behind it may lie lower, in the hollow.
fn tops(board: &Board, strip: &Strip) -> Vec<[f64; 2]> {
    let mut found: Vec<[f64; 2]> = Vec::new();
    let mut run: Option<[f64; 2]> = None;
    let starter = &board.design.construction.starter;
    let abreast = starter.arrangement == Arrangement::SideBySide;
    for stack in &board.rail.stacks {
        let carrier = if abreast && stack.courses.len() <= starter.count {
            0
        } else {
            stack.courses.len().saturating_sub(1)
        };
        let top = !stack.courses.is_empty() && carrier == strip.course && stack.reaches_deck;
        let here = top && stack.x >= strip.ends[0] && stack.x <= strip.ends[1];
        match (&mut run, here) {
            (Some(r), true) => r[1] = stack.x,
            (None, true) => run = Some([stack.x; 2]),
            (_, false) => found.extend(run.take()),
        }
    }
    found.extend(run);
    found.retain(|r| r[1] - r[0] > 4.0 * CLEAR);
    found.into_iter().map(inner).collect()
}
