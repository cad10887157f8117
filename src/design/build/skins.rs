//! The skins.

use crate::design::{
    PanelCentre, PanelJoint, SkinLimits, Skins, read::File, scalar::plain, source::Report,
};

/// Share of a percentage.
const PERCENT: f64 = 0.01;

/// How the skins are made.
pub(super) fn skins(file: &File, report: &mut Report<'_>) -> Option<Skins> {
    let table = file.one("skins")?;
    let mut pair = |dry: &str, soaked: &str, falling: bool| {
        let pair = [table.number(dry)?, table.number(soaked)?];
        let contradicts = if falling {
            pair[0] < pair[1]
        } else {
            pair[0] > pair[1]
        };
        if contradicts {
            let word = if falling { "less" } else { "more" };
            let at = if table.given(soaked) { soaked } else { dry };
            report.add(
                table.span(at),
                format!("a soaked panel takes no {word} than a dry one here: `{dry}` is {}, `{soaked}` is {}", plain(pair[0]), plain(pair[1])),
                format!("change one of them; to do without soaking, make both {}", plain(pair[0])),
            );
            return None;
        }
        Some(pair)
    };
    let along = pair("dry_strain_along", "soaked_strain_along", false);
    let across = pair("dry_strain_across", "soaked_strain_across", false);
    let bend = pair("dry_bend", "soaked_bend", true);
    let bend = bend?.map(|ratio| 1.0 / ratio);
    Some(Skins {
        plank_width: table.number("plank_width")?,
        plank_length: table.number_if_given("plank_length")?,
        joint: match table.word("joint")? {
            "keyed" => PanelJoint::Keyed,
            _ => PanelJoint::Scarf,
        },
        centre: match table.word("centre")? {
            "plank" => PanelCentre::Plank,
            _ => PanelCentre::Seam,
        },
        overhang: table.number("overhang")?,
        limits: SkinLimits {
            strain_along: along?.map(|s| s * PERCENT),
            strain_across: across?.map(|s| s * PERCENT),
            bend_along: bend,
            bend_across: bend,
        },
    })
}
