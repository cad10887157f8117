//! Walking the file's tree against the table of keys.

use toml::{
    Spanned,
    de::{DeTable, DeValue},
};

use super::{
    hint,
    key::{Key, KeyKind, TableKeys},
    keys::tables,
    list::{pairs, places},
    renamed,
    scalar::{Context, found},
    source::{Report, Span, excerpt},
    table::{Entry, Table, Value},
};
use crate::design::units::Unit;

/// All tables of a file: each one of [`tables`] once if not repeated, else as often as the file has it.
pub(super) struct File {
    tables: Vec<Table>,
    /// What stands for a table that is not there.
    none: Table,
    pub(super) unit: Unit,
}

impl File {
    /// The tables of this dotted name.
    pub(super) fn all(&self, path: &str) -> impl Iterator<Item = &Table> {
        self.tables.iter().filter(move |t| t.keys.path == path)
    }

    /// The table of this dotted name, which comes once.
    pub(super) fn one(&self, path: &str) -> &Table {
        self.all(path).next().unwrap_or(&self.none)
    }

    /// A file that leaves out everything but these numbers and texts.
    pub(super) fn of(values: Vec<(&'static str, &'static str, Value)>) -> Self {
        let once = tables().iter().filter(|keys| !keys.repeated());
        let mut read: Vec<Table> = once.map(Table::absent).collect();
        for (path, key, value) in values {
            let table = read.iter_mut().find(|table| table.keys.path == path);
            if let Some(table) = table {
                let entry = Entry {
                    key: 0..0,
                    span: 0..0,
                    value: Some(value),
                };
                table.entries.insert(key, entry);
            }
        }
        Self {
            tables: read,
            none: Table::absent(&tables()[0]),
            unit: Unit::Mm,
        }
    }

    /// Every table.
    pub(super) fn every(&self) -> impl Iterator<Item = &Table> {
        self.tables.iter()
    }
}

/// Reads every known key of the tree and notes unknown keys, wrong types and values out of range.
pub(super) fn file(tree: &DeTable<'_>, report: &mut Report<'_>) -> File {
    let unit = match tree.get("unit") {
        Some(value) => value.get_ref().as_str().and_then(Unit::from_symbol),
        None => Some(Unit::Mm),
    };
    let mut context = Context { report, unit };
    let mut read: Vec<Table> = Vec::new();
    for keys in tables() {
        for (tree, header) in trees(keys, tree, &mut context) {
            let mut table = table(keys, tree, header, &mut context);
            let top = read.first();
            table.displaced |= top.is_some_and(|top| top.misspelt.contains(&keys.path));
            read.push(table);
        }
    }
    File {
        tables: read,
        none: Table::absent(&tables()[0]),
        unit: unit.unwrap_or(Unit::Mm),
    }
}

/// The trees of one table of keys with their headers' places. A table that is not repeated has always one.
fn trees<'t, 'i>(
    keys: &TableKeys,
    root: &'t DeTable<'i>,
    context: &mut Context<'_, '_>,
) -> Vec<(Option<&'t DeTable<'i>>, Span)> {
    let missing = if keys.repeated() {
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
            DeValue::Table(_) if steps.peek().is_none() && keys.repeated() => {
                context.report.add(
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
            DeValue::Array(list) if steps.peek().is_none() && keys.repeated() => {
                let mut found = Vec::new();
                if let Some(beyond) = list.get(keys.most) {
                    context.report.add(
                        beyond.span(),
                        format!(
                            "{} may come {} times at most, but it comes {} times",
                            keys.header(),
                            keys.most,
                            list.len()
                        ),
                        "take out this one and those after it, or others that are not needed",
                    );
                }
                for element in list.iter().take(keys.most) {
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
                return match keys.repeated() {
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
    let remedy = format!(
        "write {} on a line of its own and its keys on the lines below",
        keys.header()
    );
    context.report.add(value.span(), message, remedy);
}

/// One table.
fn table(
    keys: &'static TableKeys,
    tree: Option<&DeTable<'_>>,
    header: Span,
    context: &mut Context<'_, '_>,
) -> Table {
    let mut table = Table {
        present: tree.is_some(),
        // What is no table has its own place as the header's, what is missing has none.
        displaced: tree.is_none() && !header.is_empty(),
        header,
        ..Table::absent(keys)
    };
    for (key, value) in tree.into_iter().flat_map(DeTable::iter) {
        let name = key.get_ref().as_ref();
        let Some(description) = keys.key(name) else {
            if !children(keys).any(|child| child == name) {
                let meant = match renamed::key(keys.path, name) {
                    Some(new) => Some(old_name(name, new, key.span(), value, context.report)),
                    None => unknown(keys, name, key.span(), context.report),
                };
                table.misspelt.extend(meant);
            }
            continue;
        };
        let entry = Entry {
            key: key.span(),
            span: value.span(),
            value: read(description, value, context),
        };
        table.entries.insert(description.name, entry);
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

/// Notes a key that was renamed, with the line as it is written now; returns the new name.
fn old_name(
    old: &str,
    new: &'static str,
    span: Span,
    value: &Spanned<DeValue<'_>>,
    report: &mut Report<'_>,
) -> &'static str {
    let word = value
        .get_ref()
        .as_str()
        .and_then(|old| renamed::word(new, old));
    let written = match word {
        Some(word) => format!("\"{word}\""),
        None => excerpt(report.slice(value.span())).into_owned(),
    };
    let message = format!("`{old}` is now called `{new}`");
    report.add(span, message, format!("write `{new} = {written}`"));
    new
}

/// Notes a key that is in no table of keys, or not in this one; returns the key of this one it seems to mean.
fn unknown(
    keys: &TableKeys,
    name: &str,
    span: Span,
    report: &mut Report<'_>,
) -> Option<&'static str> {
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
    let meant = hint::nearest(name, names);
    let remedy = meant
        .map(|near| format!("did you mean `{near}`?"))
        .or_else(elsewhere)
        .unwrap_or_else(|| "take it out; `boardwright keys` lists every key".to_owned());
    let message = format!("{} has no key `{}`", keys.header(), excerpt(name));
    report.add(span, message, remedy);
    meant
}

/// One key's value.
fn read(key: &Key, value: &Spanned<DeValue<'_>>, context: &mut Context<'_, '_>) -> Option<Value> {
    let name = key.name;
    Some(match key.kind {
        KeyKind::Text(most) => Value::Text(context.text(name, value, most)?),
        KeyKind::Choice(words) => Value::Word(context.choice(name, value, words)?),
        KeyKind::Length(least, most) => {
            Value::Number(context.length_within(name, value, least, most)?)
        }
        KeyKind::Degrees(least, most) => {
            let range = [least, most];
            let degrees = context.number_within(name, value, range, "a number of degrees")?;
            Value::Number(degrees.to_radians())
        }
        KeyKind::Number(least, most) => {
            Value::Number(context.number_within(name, value, [least, most], "a number")?)
        }
        KeyKind::Count(least, most) => {
            Value::Number(context.count_within(name, value, least, most)?)
        }
        KeyKind::Pairs(what, least, most) => {
            Value::Pairs(pairs(name, value, (what, least, most), context)?)
        }
        KeyKind::Places(least, most) => Value::Places(places(name, value, least, most, context)?),
    })
}
