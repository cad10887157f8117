//! Stations of the maker's own for parts that stand across the board.

use crate::design::{scalar::plain, source::Report, table::Placed};

/// What stands at the stations.
pub(super) struct Standing {
    /// Its name and its plural.
    pub names: [&'static str; 2],
    /// Where it must stand, in words.
    pub place: &'static str,
    /// Between which its planes must lie, mm from the tail.
    pub between: [f64; 2],
    /// Its thickness, mm.
    pub thickness: f64,
}

/// The stations, if all lie in their place and apart; else every one that does not is noted.
pub(super) fn stations(
    places: &[Placed<f64>],
    what: &Standing,
    report: &mut Report<'_>,
) -> Option<Vec<f64>> {
    let half = what.thickness / 2.0;
    let (from, to) = (what.between[0] + half, what.between[1] - half);
    let (mut sound, mut last) = (true, f64::NEG_INFINITY);
    for place in places {
        let x = place.value;
        let fault = if x < from || x > to {
            let (from, to) = (plain(from), plain(to));
            let ([name, _], place) = (what.names, what.place);
            Some((
                format!("a {name} must stand {place}, from {from} mm to {to} mm"),
                format!("give a place between these, or leave this {name} out"),
            ))
        } else if x < last + what.thickness {
            let ([name, names], thickness) = (what.names, plain(what.thickness));
            Some((
                format!("{names} of {thickness} mm overlap here"),
                format!(
                    "put this {name} at least {thickness} mm from the one before, or leave it out"
                ),
            ))
        } else {
            None
        };
        if let Some((message, remedy)) = fault {
            report.add(place.span.clone(), message, remedy);
            sound = false;
        }
        last = x;
    }
    sound.then(|| places.iter().map(|place| place.value).collect())
}
