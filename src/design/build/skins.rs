//! The skins.

use crate::design::{PanelCentre, PanelJoint, SkinLimits, Skins, table::Table};

/// Share of a percentage.
const PERCENT: f64 = 0.01;

/// How the skins are made.
pub(super) fn skins(table: &Table) -> Skins {
    let strain = |names: [&str; 2]| names.map(|name| table.number(name) * PERCENT);
    let bend = ["dry_bend", "soaked_bend"].map(|name| 1.0 / table.number(name));
    Skins {
        plank_width: table.number("plank_width"),
        plank_length: table.optional("plank_length"),
        joint: match table.word("joint") {
            "key" => PanelJoint::Key,
            _ => PanelJoint::Scarf,
        },
        centre: match table.word("centre") {
            "plank" => PanelCentre::Plank,
            _ => PanelCentre::Seam,
        },
        overhang: table.number("overhang"),
        limits: SkinLimits {
            strain_along: strain(["dry_strain_along", "soaked_strain_along"]),
            strain_across: strain(["dry_strain_across", "soaked_strain_across"]),
            bend_along: bend,
            bend_across: bend,
        },
    }
}
