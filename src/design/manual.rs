//! The starter file and the key reference, both printed from the table of keys.

use std::fmt::Write;
use std::sync::OnceLock;

use super::{
    key::{Fallback, Key, KeyKind, POINTS, TableKeys, Usual},
    keys::tables,
    place::KeyPlace,
    rules::rules,
    scalar::{plain, quoted},
};

/// What the starter file says first.
const PREFACE: [&str; 4] = [
    "A board's design. Every key is here; a key left out takes its default.",
    "A length is a plain number in `unit`, or text with a unit: \"1930 mm\", \"19 3/4 in\", \"6' 4\\\"\".",
    "Angles are in degrees. Places along the board are measured from the tail.",
    "Keys behind a # are for other shapes, or say the same as their neighbours in another way.",
];

/// A commented design file with every key in it, for a maker to start from.
///
/// Keys that belong to another shape than the starter's, or say the same as others in another way, are commented out.
pub fn starter() -> &'static str {
    static TEXT: OnceLock<String> = OnceLock::new();
    TEXT.get_or_init(|| {
        let mut text = String::new();
        for line in PREFACE {
            comment(&mut text, line);
        }
        for table in tables() {
            text.push('\n');
            comment(&mut text, &about(table));
            if !table.path.is_empty() {
                text.push_str(&table.header());
                text.push('\n');
            }
            for key in table.keys {
                comment(&mut text, &describe(key));
                let lead = if key.commented { "# " } else { "" };
                let _ = writeln!(text, "{lead}{} = {}", key.name, key.sample);
            }
        }
        text
    })
}

/// All keys of the design file in Markdown: one table of keys a table of the file.
pub fn reference() -> String {
    let mut text = String::new();
    for table in tables() {
        let title = match table.path {
            "" => "Top of the file".to_owned(),
            _ => format!("`{}`", table.header()),
        };
        let _ = write!(text, "## {title}\n\n{}\n\n", about(table));
        text.push_str("| key | value | default | what it is |\n|---|---|---|---|\n");
        for key in table.keys {
            let (value, default) = (value(key) + &usual(key), default(key));
            let _ = writeln!(
                text,
                "| `{}` | {value} | {default} | {}{} |",
                key.name,
                key.doc,
                belongs(key)
            );
        }
        text.push('\n');
        text.push_str(&rules_of(table));
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

/// The rules between keys that bind a key of this table, one a line, each with its code and its keys.
fn rules_of(table: &TableKeys) -> String {
    let mut text = String::new();
    for rule in rules() {
        let keys: Vec<KeyPlace> = rule.keys.iter().map(|name| KeyPlace::of(name)).collect();
        if keys.iter().all(|key| key.table != table.path) {
            continue;
        }
        let named: Vec<String> = keys
            .iter()
            .map(|key| match (key.table, key.table == table.path) {
                ("", _) | (_, true) => format!("`{}`", key.key),
                (other, false) => format!("`{other}.{}`", key.key),
            })
            .collect();
        let _ = writeln!(
            text,
            "- {}: {} ({})",
            named.join(", "),
            rule.says,
            rule.code
        );
    }
    if text.is_empty() {
        return text;
    }
    format!("Rules between keys:\n\n{text}\n")
}

/// What a table is, and how often it may come.
fn about(table: &TableKeys) -> String {
    match table.repeated() {
        true => format!("{} May come up to {} times.", table.doc, table.most),
        false => table.doc.to_owned(),
    }
}

/// One key in a few sentences.
pub(super) fn describe(key: &Key) -> String {
    let when_left_out = match key.fallback {
        Fallback::Required => "required".to_owned(),
        Fallback::Nothing => "may be left out".to_owned(),
        Fallback::RequiredUnless(_) => default(key),
        _ => format!("default: {}", default(key)),
    };
    format!(
        "{}{}. {}; {when_left_out}.",
        key.doc,
        belongs(key),
        value(key)
    )
}

/// The shapes a key belongs to or the key it contradicts, as an afterthought.
fn belongs(key: &Key) -> String {
    match (key.only, key.instead) {
        (Some((selector, words)), _) => format!(" (only for `{selector}` {})", quoted(words)),
        (None, Some(other)) => format!(" (not beside `{other}`)"),
        (None, None) => String::new(),
    }
}

/// What a key's value may be, in words.
fn value(key: &Key) -> String {
    let between = |least, most, unit| format!("{} to {}{unit}", plain(least), plain(most));
    match key.kind {
        KeyKind::Text(most) => format!("Text, up to {most} characters"),
        KeyKind::Choice(words) => format!("One of {}", quoted(words)),
        KeyKind::Length(least, most) => format!("Length, {}", between(least, most, " mm")),
        KeyKind::Degrees(least, most) => format!("Degrees, {}", between(least, most, "")),
        KeyKind::Number(least, most) => format!("Number, {}", between(least, most, "")),
        KeyKind::Count(least, most) => format!("Whole number, {least} to {most}"),
        KeyKind::Pairs(what, least, most) => {
            let range = between(least, most, " mm");
            format!("List of up to {POINTS} [place, {what}], {what} {range}")
        }
        KeyKind::Places(2, 2) => "[from, to]".to_owned(),
        KeyKind::Places(least, most) => format!("List of {least} to {most} places"),
    }
}

/// Where a key's value usually lies, in words; empty where that is near its default.
fn usual(key: &Key) -> String {
    match key.usual {
        Usual::Near => String::new(),
        Usual::Between(least, most) => format!("; usually {} to {}", plain(least), plain(most)),
        Usual::Share(of, least, most) => {
            format!("; usually {} to {} of `{of}`", plain(least), plain(most))
        }
    }
}

/// What a key that is left out means, in words.
fn default(key: &Key) -> String {
    match key.fallback {
        Fallback::Required => "required".to_owned(),
        Fallback::RequiredUnless(other) => format!("required unless `{other}` is given"),
        Fallback::Nothing => "nothing".to_owned(),
        Fallback::Word(word) => format!("\"{word}\""),
        Fallback::Rule(rule) => rule.to_owned(),
        Fallback::Number(number) => {
            let unit = match key.kind {
                KeyKind::Length(..) => " mm",
                _ => "",
            };
            format!("{}{unit}", plain(number))
        }
    }
}

/// Adds a comment broken into lines of about a hundred characters.
fn comment(text: &mut String, words: &str) {
    /// Longest line.
    const WIDTH: usize = 100;
    let mut line = String::from("#");
    for word in words.split_whitespace() {
        if line.chars().count() + 1 + word.chars().count() > WIDTH {
            text.push_str(&line);
            text.push('\n');
            line = String::from("#");
        }
        line.push(' ');
        line.push_str(word);
    }
    text.push_str(&line);
    text.push('\n');
}
