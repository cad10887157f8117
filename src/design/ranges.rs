//! Every value of a draft against its own key: range, length, number of elements.

use super::fields::{Field, Scale, fields};
use super::key::{Key, KeyKind, POINTS};
use super::keys::{self, tables};
use super::model::Draft;
use super::place::KeyPlace;
use super::rule_break::RuleBreak;
use super::scalar::plain;

/// Least distance of two places in a list along the board, mm.
pub(super) const APART: f64 = 1.0;

/// How far beyond a bound a value may lie by the rounding of its unit alone, as a share of the bound.
const ROUNDING: f64 = 1e-12;

impl Draft {
    /// Every number of the draft with its key's place, to be read or changed: for studies, optimisers, and tests.
    pub fn numbers(&mut self) -> Vec<(KeyPlace, &mut f64)> {
        let mut numbers = Vec::new();
        for (place, field) in fields(self) {
            match field {
                Field::Number(number, _) => numbers.push((place, number)),
                Field::Places(places) => {
                    let each = places.iter_mut().enumerate();
                    numbers.extend(each.map(|(i, x)| (place.element(i), x)));
                }
                Field::Pairs(pairs) => {
                    let each = pairs.iter_mut().enumerate();
                    numbers.extend(
                        each.flat_map(|(i, pair)| {
                            pair.iter_mut().map(move |n| (place.element(i), n))
                        }),
                    );
                }
                Field::Count(_) | Field::Text(_) | Field::Tables(_) => {}
            }
        }
        numbers
    }
}

/// What of the draft is no number, or not within its own key's bounds.
pub(super) fn breaks(draft: &mut Draft) -> Vec<RuleBreak> {
    let mut found = Vec::new();
    for (place, field) in fields(draft) {
        let Some(key) = keys::key(place.table, place.key) else {
            continue;
        };
        match field {
            Field::Number(number, scale) => found.extend(number_breaks(place, key, *number, scale)),
            Field::Count(count) => {
                found.extend(number_breaks(place, key, count as f64, Scale::Plain));
            }
            Field::Text(text) => found.extend(text_breaks(place, key, text)),
            Field::Pairs(pairs) => pairs_break(place, key, pairs, &mut found),
            Field::Places(places) => places_break(place, key, places, &mut found),
            Field::Tables(count) => found.extend(too_many(place, count)),
        }
    }
    found
}

fn not_finite(place: KeyPlace) -> RuleBreak {
    let message = format!("`{}` must be a finite number", place.key);
    RuleBreak::new("finite", vec![place], message, "give a number")
}

fn number_breaks(place: KeyPlace, key: &Key, number: f64, scale: Scale) -> Option<RuleBreak> {
    let [least, most] = key.range()?;
    let value = scale.written(number);
    if !number.is_finite() || !value.is_finite() {
        return Some(not_finite(place));
    }
    let slack = |bound: f64| {
        if scale == Scale::Plain {
            0.0
        } else {
            ROUNDING * bound.abs()
        }
    };
    if value >= least - slack(least) && value <= most + slack(most) {
        return None;
    }
    let (name, limit) = (place.key, if value < least { least } else { most });
    let unit = match key.kind {
        KeyKind::Length(..) => " mm",
        _ => "",
    };
    let message = format!(
        "`{name}` must be from {}{unit} to {}{unit}, but this is {}{unit}",
        plain(least),
        plain(most),
        plain(value)
    );
    let word = if value < least { "least" } else { "most" };
    let remedy = format!("give at {word} {}{unit}", plain(limit));
    Some(RuleBreak::new("range", vec![place], message, remedy).figures(value, limit))
}

fn text_breaks(place: KeyPlace, key: &Key, text: &str) -> Option<RuleBreak> {
    let KeyKind::Text(most) = key.kind else {
        return None;
    };
    let length = text.chars().count();
    (length > most).then(|| {
        let name = place.key;
        RuleBreak::new(
            "text",
            vec![place],
            format!("`{name}` must be at most {most} characters long, but this is {length}"),
            format!("shorten it to {most} characters"),
        )
        .figures(length as f64, most as f64)
    })
}

fn pairs_break(place: KeyPlace, key: &Key, pairs: &[[f64; 2]], found: &mut Vec<RuleBreak>) {
    let KeyKind::Pairs(what, least, most) = key.kind else {
        return;
    };
    let name = place.key;
    if pairs.len() > POINTS {
        let count = pairs.len();
        found.push(
            RuleBreak::new(
                "list",
                vec![place],
                format!("`{name}` may hold at most {POINTS} points, but this holds {count}"),
                "keep the points that shape the board; curves are drawn fair through them",
            )
            .figures(count as f64, POINTS as f64),
        );
        return;
    }
    for (i, &[x, y]) in pairs.iter().enumerate() {
        if !x.is_finite() || !y.is_finite() {
            found.push(not_finite(place.element(i)));
        } else if !(least..=most).contains(&y) {
            let limit = if y < least { least } else { most };
            found.push(
                RuleBreak::new(
                    "range",
                    vec![place.element(i)],
                    format!(
                        "`{what}` must be from {} mm to {} mm, but this is {} mm",
                        plain(least),
                        plain(most),
                        plain(y)
                    ),
                    format!("give {} mm", plain(limit)),
                )
                .figures(y, limit),
            );
        }
    }
    rising(place, pairs.iter().map(|pair| pair[0]), found);
}

fn places_break(place: KeyPlace, key: &Key, places: &[f64], found: &mut Vec<RuleBreak>) {
    let KeyKind::Places(least, most) = key.kind else {
        return;
    };
    let (name, count) = (place.key, places.len());
    if !(least..=most).contains(&count) {
        let message =
            format!("`{name}` must hold {least} to {most} places, but this holds {count}");
        let remedy = format!("give {least} to {most} places");
        let limit = if count < least { least } else { most };
        found.push(
            RuleBreak::new("list", vec![place], message, remedy)
                .figures(count as f64, limit as f64),
        );
        return;
    }
    for (i, x) in places.iter().enumerate().filter(|(_, x)| !x.is_finite()) {
        let _ = x;
        found.push(not_finite(place.element(i)));
    }
    rising(place, places.iter().copied(), found);
}

fn rising(place: KeyPlace, xs: impl Iterator<Item = f64>, found: &mut Vec<RuleBreak>) {
    let mut last: Option<f64> = None;
    for (i, x) in xs.enumerate() {
        if last.is_some_and(|last| x < last + APART) {
            let (message, remedy) = not_rising(place.key);
            found.push(RuleBreak::new(
                "list",
                vec![place.element(i)],
                message,
                remedy,
            ));
        }
        last = Some(x);
    }
}

/// What to say of a list whose places do not rise.
pub(super) fn not_rising(name: &str) -> (String, &'static str) {
    (
        format!("the places of `{name}` must rise by at least {APART} mm from one to the next"),
        "put them in order from the tail, and leave out what comes twice",
    )
}

fn too_many(place: KeyPlace, count: usize) -> Option<RuleBreak> {
    let table = tables().iter().find(|table| table.path == place.table)?;
    (count > table.most).then(|| {
        RuleBreak::new(
            "list",
            vec![place],
            format!(
                "{} may come {} times at most, but it comes {count} times",
                table.header(),
                table.most
            ),
            "take out those that are not needed",
        )
        .figures(count as f64, table.most as f64)
    })
}
