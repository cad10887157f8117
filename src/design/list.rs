//! Reading lists: points, and places along the board.

use toml::{Spanned, de::DeValue};

use super::{
    key::POINTS,
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
        let remedy =
            format!("write each pair in brackets and brackets round all: [{wanted}, {wanted}]");
        context.report.add(value.span(), message, remedy);
        return None;
    };
    if list.len() > POINTS {
        let message = format!(
            "`{name}` may hold at most {POINTS} points, but this holds {}",
            list.len()
        );
        let remedy = "keep the points that shape the board; curves are drawn fair through them";
        context.report.add(value.span(), message, remedy);
        return None;
    }
    let mut pairs: Vec<Placed<[f64; 2]>> = Vec::new();
    let mut sound = true;
    for element in list.iter() {
        let Some([x, y]) = element.get_ref().as_array().map(|pair| &pair[..]) else {
            let message = format!("each of `{name}` must be a pair {wanted}");
            let remedy = "write two lengths in brackets, such as [900, 60]";
            context.report.add(element.span(), message, remedy);
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
        let (wanted, remedy) = match (least, most) {
            (2, 2) => (
                "a pair [from, to]".to_owned(),
                "write two lengths in brackets, such as [700, 1100]".to_owned(),
            ),
            _ => (
                format!("a list of {least} to {most} places"),
                format!("write {least} to {most} lengths in brackets, such as [400, 800]"),
            ),
        };
        let message = format!("`{name}` must be {wanted}");
        context.report.add(value.span(), message, remedy);
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
            let remedy = "put them in order from the tail, and leave out what comes twice";
            report.add(span, message, remedy);
            sound = false;
        }
        last = Some(x);
    }
    sound
}
