//! Reading lists: points, and places along the board.

use toml::{Spanned, de::DeValue};

use super::{
    scalar::Context,
    source::{Report, Span},
    table::Placed,
};

/// A list of `[x, y]` pairs with rising `x`.
pub(super) fn pairs(
    name: &str,
    value: &Spanned<DeValue<'_>>,
    (what, least, most): (&str, f64, f64),
    context: &mut Context<'_, '_>,
) -> Option<Vec<Placed<[f64; 2]>>> {
    let wanted = format!("[place, {what}]");
    let DeValue::Array(list) = value.get_ref() else {
        let message = format!("`{name}` must be a list of {wanted} pairs");
        context.report.add(value.span(), message);
        return None;
    };
    let mut pairs: Vec<Placed<[f64; 2]>> = Vec::new();
    let mut sound = true;
    for element in list.iter() {
        let Some([x, y]) = element.get_ref().as_array().map(|pair| &pair[..]) else {
            let message = format!("each of `{name}` must be a pair {wanted}");
            context.report.add(element.span(), message);
            sound = false;
            continue;
        };
        let place = context.length("place", x);
        let across = context.length_within(what, y, least, most);
        let (Some(place), Some(across)) = (place, across) else {
            sound = false;
            continue;
        };
        pairs.push(Placed {
            value: [place, across],
            span: x.span(),
        });
    }
    let xs = pairs.iter().map(|pair| (pair.value[0], pair.span.clone()));
    (rising(name, xs, context.report) && sound).then_some(pairs)
}

/// A list of rising places along the board.
pub(super) fn places(
    name: &str,
    value: &Spanned<DeValue<'_>>,
    least: usize,
    most: usize,
    context: &mut Context<'_, '_>,
) -> Option<Vec<Placed<f64>>> {
    let list = value.get_ref().as_array();
    let Some(list) = list.filter(|list| (least..=most).contains(&list.len())) else {
        let wanted = match (least, most) {
            (2, 2) => "a pair [from, to]".to_owned(),
            _ => format!("a list of {least} to {most} places"),
        };
        let message = format!("`{name}` must be {wanted}");
        context.report.add(value.span(), message);
        return None;
    };
    let read = |element: &Spanned<DeValue<'_>>| {
        Some(Placed {
            value: context.length(name, element)?,
            span: element.span(),
        })
    };
    // Reads all of them, so that each has its fault noted, before giving up on one.
    let read: Vec<Option<Placed<f64>>> = list.iter().map(read).collect();
    let places: Vec<Placed<f64>> = read.into_iter().collect::<Option<_>>()?;
    let xs = places.iter().map(|place| (place.value, place.span.clone()));
    rising(name, xs, context.report).then_some(places)
}

/// Whether places rise by at least a millimetre; notes each that does not.
fn rising(name: &str, xs: impl Iterator<Item = (f64, Span)>, report: &mut Report<'_>) -> bool {
    let mut last: Option<f64> = None;
    let mut sound = true;
    for (x, span) in xs {
        if last.is_some_and(|last| x < last + 1.0) {
            let message =
                format!("the places of `{name}` must rise by at least 1 mm from one to the next");
            report.add(span, message);
            sound = false;
        }
        last = Some(x);
    }
    sound
}
