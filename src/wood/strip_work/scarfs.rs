//! Where no scarf may lie.

use super::StripWork;
use super::limits::limits;
use crate::design::Timber;
use crate::design::timber::BendKind;
use crate::rail::Strip;

/// Stretches of the blank, mm from its tail end, where any strain passes the share `scarf_strain` of its limit.
///
/// Half way to the neighbouring places on either side counts with a place.
pub(super) fn no_scarf_zones(
    strip: &Strip,
    work: &StripWork,
    timber: &Timber,
    scarf_strain: f64,
) -> Vec<(f64, f64)> {
    let Ok(limits) = limits(timber, &timber.rail, work.kind) else {
        return Vec::new();
    };
    let [thickness, width] = work.section;
    let mut found: Vec<(f64, f64)> = Vec::new();
    let places = &strip.places;
    for (i, place) in places.iter().enumerate() {
        let twist = limits.twisting(width, thickness, place.bend.twist);
        let share = limits
            .bending(BendKind::EasyWay, thickness, place.bend.easy)
            .ratio
            .max(
                limits
                    .bending(BendKind::HardWay, width, place.bend.hard)
                    .ratio,
            )
            .max(twist.ok().flatten().map_or(0.0, |u| u.ratio));
        if share <= scarf_strain {
            continue;
        }
        let half = |other: Option<&crate::rail::StripPlace>| {
            other.map_or(place.along, |o| (o.along + place.along) / 2.0) + timber.end_allowance
        };
        let from = half(i.checked_sub(1).and_then(|i| places.get(i)));
        let to = half(places.get(i + 1));
        match found.last_mut() {
            Some(last) if from <= last.1 + 1e-6 => last.1 = to,
            _ => found.push((from, to)),
        }
    }
    found
}
