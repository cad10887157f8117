//! Rules of the rail's strips and starters.

use super::{Breaks, ROUNDED, Rule, key};
use crate::design::model::{Draft, Starter, Strip};
use crate::design::scalar::plain;

pub(super) const RULES: &[Rule] = &[
    Rule {
        code: "bead-radius",
        keys: &[
            "construction.strip.bead_radius",
            "construction.strip.thickness",
        ],
        rests_on: &[],
        says: "`bead_radius` must be at least half of `thickness`",
        breaks: bead_radius,
    },
    Rule {
        code: "cove-radius",
        keys: &[
            "construction.strip.cove_radius",
            "construction.strip.bead_radius",
        ],
        rests_on: &["construction.strip.thickness"],
        says: "`cove_radius` must be at least `bead_radius`",
        breaks: cove_radius,
    },
    Rule {
        code: "cove-depth",
        keys: &[
            "construction.strip.cove_depth",
            "construction.strip.cove_radius",
        ],
        rests_on: &[
            "construction.strip.bead_radius",
            "construction.strip.thickness",
        ],
        says: "`cove_depth` must not be more than the depth at which its arc meets the strip's faces",
        breaks: cove_depth,
    },
    Rule {
        code: "strip-width",
        keys: &[
            "construction.strip.width",
            "construction.strip.thickness",
            "construction.strip.cove_depth",
        ],
        rests_on: &[
            "construction.strip.cove_radius",
            "construction.strip.bead_radius",
        ],
        says: "`width` must leave 2 mm between cove and bead",
        breaks: width,
    },
    Rule {
        code: "starter-size",
        keys: &["construction.starter.size", "construction.strip.thickness"],
        rests_on: &[],
        says: "`size` of a starter must be at least `thickness` of the strip it carries",
        breaks: starter_size,
    },
    Rule {
        code: "starter-laminations",
        keys: &[
            "construction.starter.laminations",
            "construction.starter.size",
        ],
        rests_on: &[],
        says: "a starter's lamination must be 2 mm thick or more",
        breaks: laminations,
    },
];

/// Whether the bead spans the strip.
fn bead_spans(strip: &Strip) -> bool {
    strip.bead_radius >= strip.thickness / 2.0
}

/// Whether the cove is no tighter than the bead, and the bead spans the strip.
fn cove_fits(strip: &Strip) -> bool {
    bead_spans(strip) && strip.cove_radius >= strip.bead_radius
}

fn bead_radius(draft: &Draft, breaks: &mut Breaks) {
    let strip = &draft.construction.strip;
    if !bead_spans(strip) {
        let least = plain(strip.thickness / 2.0);
        breaks.add(
            &[
                key("construction.strip.bead_radius"),
                key("construction.strip.thickness"),
            ],
            [strip.bead_radius, strip.thickness / 2.0],
            format!("`bead_radius` must be at least half the thickness, {least} mm: a smaller arc does not span the strip"),
            format!("give at least {least} mm, or leave `bead_radius` out"),
        );
    }
}

fn cove_radius(draft: &Draft, breaks: &mut Breaks) {
    let strip = &draft.construction.strip;
    if bead_spans(strip) && !cove_fits(strip) {
        let least = plain(strip.bead_radius);
        breaks.add(
            &[
                key("construction.strip.cove_radius"),
                key("construction.strip.bead_radius"),
            ],
            [strip.cove_radius, strip.bead_radius],
            format!("`cove_radius` must be at least that of the bead, {least} mm: a tighter cove rocks on its lips"),
            format!("give at least {least} mm, or leave `cove_radius` out"),
        );
    }
}

fn cove_depth(draft: &Draft, breaks: &mut Breaks) {
    let strip = &draft.construction.strip;
    let deepest = strip.deepest_cove();
    if cove_fits(strip) && strip.cove_depth > deepest {
        let most = plain(deepest);
        breaks.add(
            &[
                key("construction.strip.cove_depth"),
                key("construction.strip.cove_radius"),
            ],
            [strip.cove_depth, deepest],
            format!("`cove_depth` must not be more than {most} mm, where its arc meets the strip's faces"),
            format!("give at most {most} mm, or leave `cove_depth` out"),
        );
    }
}

fn width(draft: &Draft, breaks: &mut Breaks) {
    let strip = &draft.construction.strip;
    let least = strip.least_width();
    if cove_fits(strip) && strip.cove_depth <= strip.deepest_cove() && strip.width < least {
        let (body, width) = (Strip::BODY, plain(least));
        breaks.add(
            &[
                key("construction.strip.width"),
                key("construction.strip.thickness"),
                key("construction.strip.cove_depth"),
            ],
            [strip.width, least],
            format!(
                "`width` must be at least {width} mm, to leave {body} mm between cove and bead"
            ),
            format!("give at least {width} mm, or a lesser `thickness` or `cove_depth`"),
        );
    }
}

fn starter_size(draft: &Draft, breaks: &mut Breaks) {
    let c = &draft.construction;
    if c.starter.size < c.strip.thickness {
        let least = plain(c.strip.thickness);
        breaks.add(
            &[
                key("construction.starter.size"),
                key("construction.strip.thickness"),
            ],
            [c.starter.size, c.strip.thickness],
            format!("`size` must be at least the thickness of the strip it carries, {least} mm"),
            format!("give at least {least} mm, or a thinner strip"),
        );
    }
}

fn laminations(draft: &Draft, breaks: &mut Breaks) {
    let starter = &draft.construction.starter;
    let most = (starter.size / Starter::THINNEST + ROUNDED)
        .floor()
        .max(1.0);
    if starter.laminations as f64 > most {
        breaks.add(
            &[
                key("construction.starter.laminations"),
                key("construction.starter.size"),
            ],
            [starter.laminations as f64, most],
            format!(
                "starters of {} mm give {most} laminations at most: one must be {} mm thick or more",
                plain(starter.size),
                plain(Starter::THINNEST)
            ),
            format!("give at most {most} `laminations`, or a greater `size`"),
        );
    }
}
