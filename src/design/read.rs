//! Walking the file's tree against the table of keys.

use toml::{
    Spanned,
    de::{DeTable, DeValue},
};

use super::{
    hint,
    key::{Key, Kind, TableKeys},
    keys::tables,
    scalar::{Context, found},
    source::{Report, Span},
    table::{Entry, Placed, Table, Value},
};
use crate::units::Unit;

/// All tables of a file: each one of [`tables`] once if not repeated, else as often as the file has it.
pub(super) struct File {
    tables: Vec<Table>,
    pub(super) unit: Unit,
}

impl File {
    /// The tables of this dotted name.
    pub(super) fn all(&self, path: &str) -> impl Iterator<Item = &Table> {
        self.tables.iter().filter(move |t| t.keys.path == path)
    }

    /// The table of this dotted name.
    pub(super) fn one(&self, path: &str) -> Option<&Table> {
        self.all(path).next()
    }

    /// Every table.
    pub(super) fn every(&self) -> impl Iterator<Item = &Table> {
        self.tables.iter()
    }
}

/// Reads every known key of the tree and notes unknown keys, wrong types and values out of range.
pub(super) fn file(tree: &DeTable<'_>, report: &mut Report<'_>) -> File {
    let unit = tree
        .get("unit")
        .and_then(|value| value.get_ref().as_str())
        .and_then(Unit::from_symbol)
        .unwrap_or(Unit::Mm);
    let mut context = Context { report, unit };
    let mut tables_read = Vec::new();
    for keys in tables() {
        for (tree, header) in trees(keys, tree, &mut context) {
            let table = table(keys, tree, header, &mut context);
            tables_read.push(table);
        }
    }
    File {
        tables: tables_read,
        unit,
    }
}

/// The trees of one table of keys with their headers' places. A table that is not repeated has always one.
fn trees<'t, 'i>(
    keys: &TableKeys,
    root: &'t DeTable<'i>,
    context: &mut Context<'_, '_>,
) -> Vec<(Option<&'t DeTable<'i>>, Span)> {
    let missing = if keys.repeated {
        vec![]
    } else {
        vec![(None, 0..0)]
    };
    if keys.path.is_empty() {
        return vec![(Some(root), 0..0)];
    }
    let mut tree = root;
    let mut steps = keys.path.split('.').peekable();
    while let Some(step) = steps.next() {
        let Some(value) = tree.get(step) else {
            return missing;
        };
        match value.get_ref() {
            DeValue::Table(_) if steps.peek().is_none() && keys.repeated => {
                context.report.add_with(
                    value.span(),
                    format!("`{step}` may come several times"),
                    format!("write its header as {}", keys.header()),
                );
                return missing;
            }
            DeValue::Table(table) if steps.peek().is_none() => {
                return vec![(Some(table), value.span())];
            }
            DeValue::Table(table) => tree = table,
            DeValue::Array(list) if steps.peek().is_none() && keys.repeated => {
                let mut found = Vec::new();
                for element in list.iter() {
                    match element.get_ref() {
                        DeValue::Table(table) => found.push((Some(table), element.span())),
                        _ => not_a_table(keys, element, context),
                    }
                }
                return found;
            }
            _ => {
                // Once only: at the table itself, not again at the tables below it.
                if steps.peek().is_some() {
                    return missing;
                }
                not_a_table(keys, value, context);
                return match keys.repeated {
                    true => vec![],
                    false => vec![(None, value.span())],
                };
            }
        }
    }
    missing
}

fn not_a_table(keys: &TableKeys, value: &Spanned<DeValue<'_>>, context: &mut Context<'_, '_>) {
    let message = format!(
        "expected the table {}, but this is {}",
        keys.header(),
        found(value.get_ref())
    );
    context.report.add(value.span(), message);
}

/// One table.
fn table(
    keys: &'static TableKeys,
    tree: Option<&DeTable<'_>>,
    header: Span,
    context: &mut Context<'_, '_>,
) -> Table {
    let mut table = Table {
        keys,
        header,
        present: tree.is_some(),
        entries: Default::default(),
    };
    for (key, value) in tree.into_iter().flat_map(DeTable::iter) {
        let name = key.get_ref().as_ref();
        let Some(known) = keys.key(name) else {
            if !children(keys).any(|child| child == name) {
                unknown(keys, name, key.span(), context.report);
            }
            continue;
        };
        let entry = Entry {
            key: key.span(),
            span: value.span(),
            value: read(known, value, context),
        };
        table.entries.insert(known.name, entry);
    }
    table
}

/// The last names of the tables directly below one.
fn children(keys: &TableKeys) -> impl Iterator<Item = &'static str> {
    let below = |path: &'static str| match (keys.path, path) {
        ("", _) if !path.contains('.') => Some(path),
        ("", _) => None,
        (parent, _) => path.strip_prefix(parent)?.strip_prefix('.'),
    };
    tables()
        .iter()
        .map(|table| table.path)
        .filter(|path| !path.is_empty())
        .filter_map(below)
}

/// Notes a key that is in no table of keys, or not in this one.
fn unknown(keys: &TableKeys, name: &str, span: Span, report: &mut Report<'_>) {
    let names = keys.keys.iter().map(|key| key.name).chain(children(keys));
    let elsewhere = || {
        let home = tables().iter().find(|table| {
            table.key(name).is_some() || table.path.rsplit('.').next() == Some(name)
        })?;
        Some(match home.key(name) {
            Some(_) => format!("`{name}` belongs to {}", home.header()),
            None => format!("write its header as {}", home.header()),
        })
    };
    let remedy = hint::nearest(name, names)
        .map(|near| format!("did you mean `{near}`?"))
        .or_else(elsewhere);
    let message = format!("{} has no key `{name}`", keys.header());
    report.note(span, message, remedy);
}

/// One key's value.
fn read(key: &Key, value: &Spanned<DeValue<'_>>, context: &mut Context<'_, '_>) -> Option<Value> {
    let name = key.name;
    Some(match key.kind {
        Kind::Text => Value::Text(context.text(name, value)?),
        Kind::Choice(words) => Value::Word(context.choice(name, value, words)?),
        Kind::Length(least, most) => {
            Value::Number(context.length_within(name, value, least, most)?)
        }
        Kind::Degrees(least, most) => {
            let range = [least, most];
            let degrees = context.number_within(name, value, range, "a number of degrees")?;
            Value::Number(degrees.to_radians())
        }
        Kind::Number(least, most) => {
            Value::Number(context.number_within(name, value, [least, most], "a number")?)
        }
        Kind::Count(least, most) => Value::Number(context.count_within(name, value, least, most)?),
        Kind::Pairs(what, least, most) => {
            Value::Pairs(pairs(name, value, (what, least, most), context)?)
        }
        Kind::Places(least, most) => Value::Places(places(name, value, least, most, context)?),
    })
}

/// A list of `[x, y]` pairs with rising `x`.
fn pairs(
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
fn places(
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
