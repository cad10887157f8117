//! The rail's strips.

use crate::design::{Laid, Lie, Starter, Strip, scalar::plain, source::Report, table::Table};

/// Slack for radii and depths typed in rounded figures, mm.
const ROUNDED: f64 = 0.005;
/// The least wood between the bottom of the cove and the spring of the bead, mm.
const BODY: f64 = 2.0;

/// Height of an arc of this radius over a chord of this length; 0 where the arc is too small for the chord.
fn sagitta(radius: f64, chord: f64) -> f64 {
    let half = chord / 2.0;
    let leg = (radius - half).max(0.0) * (radius + half);
    (radius - leg.sqrt()).max(0.0)
}

/// The bead-and-cove strip.
pub(super) fn strip(table: &Table, report: &mut Report<'_>) -> Option<Strip> {
    let thickness = table.number("thickness")?;
    let width = table.number("width")?;
    let bead_radius = table.number_or("bead_radius", Some(thickness / 2.0))?;
    let cove_radius = table.number_or("cove_radius", Some(bead_radius))?;
    if bead_radius < thickness / 2.0 - ROUNDED {
        let least = plain(thickness / 2.0);
        let message = format!(
            "`bead_radius` must be at least half the thickness, {least} mm: a smaller arc does not span the strip"
        );
        let remedy = format!("give at least {least} mm, or leave `bead_radius` out");
        report.add(table.span("bead_radius"), message, remedy);
        return None;
    }
    let bead_radius = bead_radius.max(thickness / 2.0);
    if cove_radius < bead_radius - ROUNDED {
        let least = plain(bead_radius);
        let message = format!(
            "`cove_radius` must be at least that of the bead, {least} mm: a tighter cove rocks on its lips"
        );
        let remedy = format!("give at least {least} mm, or leave `cove_radius` out");
        report.add(table.span("cove_radius"), message, remedy);
        return None;
    }
    let cove_radius = cove_radius.max(bead_radius);
    let deepest = sagitta(cove_radius, thickness);
    let silent_depth = (deepest - 0.5).max(deepest / 2.0);
    let cove_depth = table.number_or("cove_depth", Some(silent_depth))?;
    if cove_depth > deepest + ROUNDED {
        let most = plain(deepest);
        let message = format!(
            "`cove_depth` must not be more than {most} mm, where its arc meets the strip's faces"
        );
        let remedy = format!("give at most {most} mm, or leave `cove_depth` out");
        report.add(table.span("cove_depth"), message, remedy);
        return None;
    }
    let cove_depth = cove_depth.min(deepest);
    let least = cove_depth + sagitta(bead_radius, thickness) + BODY;
    if width < least {
        let least = plain(least);
        let message = format!(
            "`width` must be at least {least} mm, to leave {BODY} mm between cove and bead"
        );
        let remedy = format!("give at least {least} mm, or a lesser `thickness` or `cove_depth`");
        report.add(table.span("width"), message, remedy);
        return None;
    }
    Some(Strip {
        thickness,
        width,
        bead_radius,
        cove_radius,
        cove_depth,
    })
}

/// The starters, which must be able to carry the strip.
pub(super) fn starter(
    table: &Table,
    strip: Option<Strip>,
    report: &mut Report<'_>,
) -> Option<Starter> {
    let size = table.number("size")?;
    if let Some(strip) = strip.filter(|strip| size < strip.thickness) {
        let least = plain(strip.thickness);
        let message =
            format!("`size` must be at least the thickness of the strip it carries, {least} mm");
        let remedy = format!("give at least {least} mm, or a thinner strip");
        report.add(table.span("size"), message, remedy);
    }
    // Whole numbers from 1 to 4 by their range.
    let [count, laminations] =
        ["count", "laminations"].map(|name| table.number(name).map(|n| n as usize));
    let most = (size / Starter::THINNEST + ROUNDED).floor().max(1.0);
    if laminations.is_some_and(|n| n as f64 > most) {
        let message = format!(
            "starters of {} mm give {most} laminations at most: one must be {} mm thick or more",
            plain(size),
            plain(Starter::THINNEST)
        );
        let remedy = format!("give at most {most} `laminations`, or a greater `size`");
        report.add(table.span("laminations"), message, remedy);
        return None;
    }
    Some(Starter {
        size,
        count: count?,
        laminations: laminations?,
        laid: match table.word("laid")? {
            "level" => Laid::Level,
            _ => Laid::Upright,
        },
        lie: match table.word("lie")? {
            "stacked" => Lie::Stacked,
            _ => Lie::Abreast,
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

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
