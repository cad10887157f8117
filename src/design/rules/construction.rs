//! Rules of how the board is built: hollow, blocks, ribs, skins, bed.

use super::{Breaks, Rule, key};
use crate::design::model::{Draft, Foil, Tail};
use crate::design::place::KeyPlace;
use crate::design::polyline::between;
use crate::design::scalar::plain;

/// The least height of the hollow at the board's centre, mm.
const HOLLOW: f64 = 10.0;
/// Wood left ahead of a swallow tail's cleft, mm.
const AHEAD: f64 = 10.0;
/// The least length of the hollow between the blocks, mm.
const SHORTEST: f64 = 300.0;
/// Least wood between a beam's notch and a cradle's upper edge, mm (common practice, no published source).
const OVER_BEAM: f64 = 15.0;

pub(super) const RULES: &[Rule] = &[
    Rule {
        code: "hollow-height",
        keys: &[
            "foil.centre",
            "foil.points",
            "construction.bottom_skin",
            "construction.deck_skin",
        ],
        rests_on: &["outline.length"],
        says: "the board must leave 10 mm between its skins at the centre",
        breaks: hollow_height,
    },
    Rule {
        code: "tail-block-cleft",
        keys: &["construction.tail_block", "outline.tail_cleft"],
        rests_on: &[
            "outline.tail_end_width",
            "outline.tail_width",
            "outline.width",
            "outline.points",
        ],
        says: "`tail_block` must reach 10 mm past a swallow tail's cleft",
        breaks: past_cleft,
    },
    Rule {
        code: "hollow-length",
        keys: &[
            "construction.tail_block",
            "construction.nose_block",
            "outline.length",
        ],
        rests_on: &[],
        says: "the blocks must leave at least 300 mm of hollow",
        breaks: hollow_length,
    },
    Rule {
        code: "ribs-stand",
        keys: &[
            "construction.rib_stations",
            "construction.rib",
            "construction.tail_block",
            "construction.nose_block",
            "outline.length",
        ],
        rests_on: &[],
        says: "ribs must stand between the blocks, and must not overlap",
        breaks: ribs,
    },
    Rule {
        code: "skin-strain-along",
        keys: &["skins.dry_strain_along", "skins.soaked_strain_along"],
        rests_on: &[],
        says: "a soaked panel takes no less than a dry one",
        breaks: |draft, breaks| {
            let pair = draft.skins.limits.strain_along.map(|s| 100.0 * s);
            soaked(
                breaks,
                ["skins.dry_strain_along", "skins.soaked_strain_along"],
                pair,
            );
        },
    },
    Rule {
        code: "skin-strain-across",
        keys: &["skins.dry_strain_across", "skins.soaked_strain_across"],
        rests_on: &[],
        says: "a soaked panel takes no less than a dry one",
        breaks: |draft, breaks| {
            let pair = draft.skins.limits.strain_across.map(|s| 100.0 * s);
            soaked(
                breaks,
                ["skins.dry_strain_across", "skins.soaked_strain_across"],
                pair,
            );
        },
    },
    Rule {
        code: "skin-bend",
        keys: &["skins.dry_bend", "skins.soaked_bend"],
        rests_on: &[],
        says: "a soaked panel bends at least as tight as a dry one",
        breaks: |draft, breaks| {
            let limits = draft.skins.limits;
            for pair in [limits.bend_along, limits.bend_across] {
                let before = breaks.found.len();
                soaked(
                    breaks,
                    ["skins.dry_bend", "skins.soaked_bend"],
                    pair.map(|b| 1.0 / b),
                );
                if breaks.found.len() > before {
                    // A file has one pair for both ways.
                    return;
                }
            }
        },
    },
    Rule {
        code: "bed-beam",
        keys: &["bed.beam_height", "bed.base_height"],
        rests_on: &[],
        says: "`beam_height` must be at least 15 mm less than `base_height`",
        breaks: beam,
    },
    Rule {
        code: "cradles-stand",
        keys: &["bed.stations", "bed.thickness", "outline.length"],
        rests_on: &[],
        says: "cradles must stand under the board, and must not overlap",
        breaks: cradles,
    },
];

fn hollow_height(draft: &Draft, breaks: &mut Breaks) {
    let points = draft.foil.points(draft.length);
    let Some(centre) = between(&points, draft.length / 2.0) else {
        return;
    };
    let skins = draft.construction.bottom_skin + draft.construction.deck_skin;
    if centre < skins + HOLLOW {
        let place = match draft.foil {
            Foil::Points(_) => key("foil.points"),
            Foil::Measures { .. } => key("foil.centre"),
        };
        let (hollow, thickness) = (plain(centre - skins), plain(centre));
        breaks.add(
            &[place],
            [centre - skins, HOLLOW],
            format!("the board must leave {HOLLOW} mm between its skins at the centre, but its {thickness} mm leave {hollow} mm"),
            "make the board thicker there, or the skins thinner",
        );
    }
}

fn past_cleft(draft: &Draft, breaks: &mut Breaks) {
    let block = draft.construction.tail_block;
    if let Tail::Swallow { depth, .. } = draft.outline.tail
        && block < depth + AHEAD
    {
        let least = plain(depth + AHEAD);
        breaks.add(
            &[key("construction.tail_block")],
            [block, depth + AHEAD],
            format!("`tail_block` must reach past the cleft, so it must be at least {least} mm"),
            format!("give at least {least} mm, or a lesser `tail_cleft`"),
        );
    }
}

/// Where the hollow begins and ends, mm from the tail.
fn hollow(draft: &Draft) -> [f64; 2] {
    let c = &draft.construction;
    [c.tail_block, draft.length - c.nose_block]
}

fn hollow_length(draft: &Draft, breaks: &mut Breaks) {
    let [from, to] = hollow(draft);
    if to - from < SHORTEST {
        breaks.add(
            &[
                key("construction.tail_block"),
                key("construction.nose_block"),
            ],
            [to - from, SHORTEST],
            format!(
                "the blocks must leave at least {SHORTEST} mm of hollow, but they leave {} mm",
                plain(to - from)
            ),
            "give a shorter `tail_block` or `nose_block`, or check `length`",
        );
    }
}

fn ribs(draft: &Draft, breaks: &mut Breaks) {
    let [from, to] = hollow(draft);
    if to - from < SHORTEST {
        return;
    }
    let what = Standing {
        list: key("construction.rib_stations"),
        names: ["rib", "ribs"],
        place: "between the blocks",
        between: [from, to],
        thickness: draft.construction.rib,
    };
    stand(&draft.construction.rib_stations, &what, breaks);
}

fn cradles(draft: &Draft, breaks: &mut Breaks) {
    let what = Standing {
        list: key("bed.stations"),
        names: ["cradle", "cradles"],
        place: "under the board",
        between: [0.0, draft.length],
        thickness: draft.bed.thickness,
    };
    stand(draft.bed.stations.as_deref().unwrap_or(&[]), &what, breaks);
}

/// What stands at stations across the board.
struct Standing {
    list: KeyPlace,
    /// Its name and its plural.
    names: [&'static str; 2],
    /// Where it must stand, in words.
    place: &'static str,
    /// Between which its planes must lie, mm from the tail.
    between: [f64; 2],
    /// Its thickness, mm.
    thickness: f64,
}

/// Notes every station that does not lie in its place, or not apart from the one before.
fn stand(stations: &[f64], what: &Standing, breaks: &mut Breaks) {
    let half = what.thickness / 2.0;
    let (from, to) = (what.between[0] + half, what.between[1] - half);
    let ([name, names], place) = (what.names, what.place);
    let mut last = f64::NEG_INFINITY;
    for (i, &x) in stations.iter().enumerate() {
        let at = [what.list.element(i)];
        if x < from || x > to {
            let limit = if x < from { from } else { to };
            breaks.add(
                &at,
                [x, limit],
                format!(
                    "a {name} must stand {place}, from {} mm to {} mm",
                    plain(from),
                    plain(to)
                ),
                format!("give a place between these, or leave this {name} out"),
            );
        } else if x < last + what.thickness {
            let thickness = plain(what.thickness);
            breaks.add(
                &at,
                [x, last + what.thickness],
                format!("{names} of {thickness} mm overlap here"),
                format!(
                    "put this {name} at least {thickness} mm from the one before, or leave it out"
                ),
            );
        }
        last = x;
    }
}

/// Notes a soaked panel that takes less than a dry one, by radii over thickness (keys of bends) or by strains.
fn soaked(breaks: &mut Breaks, [dry, soaked]: [&'static str; 2], [takes, takes_soaked]: [f64; 2]) {
    let (dry, soaked) = (key(dry), key(soaked));
    let radii = dry.key == "dry_bend";
    // Rounding by the keys' units is no contradiction.
    let slack = 1e-9 * takes.abs();
    let contradicts = match radii {
        true => takes < takes_soaked - slack,
        false => takes > takes_soaked + slack,
    };
    if contradicts {
        let word = if radii { "less" } else { "more" };
        breaks.add(
            &[soaked, dry],
            [takes_soaked, takes],
            format!(
                "a soaked panel takes no {word} than a dry one here: `{}` is {}, `{}` is {}",
                dry.key,
                plain(takes),
                soaked.key,
                plain(takes_soaked)
            ),
            format!(
                "change one of them; to do without soaking, make both {}",
                plain(takes)
            ),
        );
    }
}

fn beam(draft: &Draft, breaks: &mut Breaks) {
    let base = draft.bed.base_height;
    if let Some([_, height]) = draft.bed.beam
        && height > base - OVER_BEAM
    {
        let most = plain(base - OVER_BEAM);
        breaks.add(
            &[key("bed.beam_height"), key("bed.base_height")],
            [height, base - OVER_BEAM],
            format!("`beam_height` must leave {OVER_BEAM} mm under the board, so it must be at most {most} mm"),
            "give a lower beam, or a greater `base_height`",
        );
    }
}
