//! A table of the file as read: each key's value, with its place, or that it was left out.

use std::collections::BTreeMap;

use super::{
    key::{Fallback, Key, KeyKind, TableKeys},
    scalar::{plain, quoted},
    source::{Report, Span},
};
use crate::design::units::{Unit, parse_length};

/// A value as read: lengths in millimetres, angles in radians.
#[derive(Debug, Clone)]
pub(super) enum Value {
    Number(f64),
    Word(&'static str),
    Text(String),
    Pairs(Vec<Placed<[f64; 2]>>),
    Places(Vec<Placed<f64>>),
}

/// Something with its place in the file.
#[derive(Debug, Clone)]
pub(super) struct Placed<T> {
    pub(super) value: T,
    pub(super) span: Span,
}

/// A key that the file gives.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    pub(super) key: Span,
    pub(super) span: Span,
    /// The value; `None` if its fault is already noted.
    pub(super) value: Option<Value>,
}

/// A table of the file.
#[derive(Debug, Clone)]
pub(super) struct Table {
    pub(super) keys: &'static TableKeys,
    /// The header's place, or the top of the file where the table is not given.
    pub(super) header: Span,
    /// Whether the file gives the table.
    pub(super) present: bool,
    /// Whether something else stands in its place, or its name is misspelt: a fault noted already.
    pub(super) displaced: bool,
    /// Keys and tables below that unknown keys seem to mean: faults noted already.
    pub(super) misspelt: Vec<&'static str>,
    pub(super) entries: BTreeMap<&'static str, Entry>,
}

impl Table {
    /// A table that the file does not give.
    pub(super) fn absent(keys: &'static TableKeys) -> Self {
        Self {
            keys,
            header: 0..0,
            present: false,
            displaced: false,
            misspelt: Vec::new(),
            entries: BTreeMap::new(),
        }
    }

    /// Whether the file gives the key, be it rightly or wrongly.
    pub(super) fn has(&self, name: &str) -> bool {
        self.entries.contains_key(name)
    }

    /// The place of a key's value, or the header's if it is not written.
    pub(super) fn span(&self, name: &str) -> Span {
        let entry = self.entries.get(name);
        entry.map_or_else(|| self.header.clone(), |entry| entry.span.clone())
    }

    /// The place of an element of a key's list, or that of its value.
    pub(super) fn element_span(&self, name: &str, index: usize) -> Span {
        let element = match self.value(name) {
            Some(Value::Pairs(pairs)) => pairs.get(index).map(|pair| pair.span.clone()),
            Some(Value::Places(places)) => places.get(index).map(|place| place.span.clone()),
            _ => None,
        };
        element.unwrap_or_else(|| self.span(name))
    }

    fn value(&self, name: &str) -> Option<&Value> {
        self.entries.get(name)?.value.as_ref()
    }

    /// Whether the file writes the key, or must, in a way that gave no value: a fault that is noted already.
    pub(super) fn faulty(&self, name: &str) -> bool {
        match self.entries.get(name) {
            Some(entry) => entry.value.is_none(),
            None => {
                self.displaced
                    || self.misspelt.contains(&name)
                    || self.keys.key(name).is_some_and(|key| self.missing(key))
            }
        }
    }

    /// Whether a required key is not written, nor one that stands for it.
    fn missing(&self, key: &Key) -> bool {
        let required = match key.fallback {
            Fallback::Required => true,
            Fallback::RequiredUnless(other) => !self.has(other),
            _ => false,
        };
        required && !self.has(key.name)
    }

    /// A number: written, or its fixed default; where it is required or faulty, the key's sample holds its place.
    pub(super) fn number(&self, name: &str) -> f64 {
        // No key of the table: no number, which no check lets pass.
        let default = self.keys.key(name).map_or(f64::NAN, default_number);
        self.number_or(name, default)
    }

    /// A number: written, or what the rule for the key gives.
    pub(super) fn number_or(&self, name: &str, rule: f64) -> f64 {
        match self.value(name) {
            Some(Value::Number(number)) => *number,
            _ => rule,
        }
    }

    /// A number that may be left out, which is then no number.
    pub(super) fn optional(&self, name: &str) -> Option<f64> {
        self.has(name).then(|| self.number(name))
    }

    /// A whole number, by the range of its key.
    pub(super) fn count(&self, name: &str) -> usize {
        self.number(name) as usize
    }

    /// Notes every required key that is missing.
    pub(super) fn demands(&self, report: &mut Report<'_>) {
        for key in self.keys.keys.iter().filter(|key| self.missing(key)) {
            if self.displaced || self.misspelt.contains(&key.name) {
                continue;
            }
            let (name, header) = (key.name, self.keys.header());
            let message = if self.present || self.keys.path.is_empty() {
                format!("`{name}` is missing from {header}")
            } else {
                format!("{header} with its `{name}` is missing")
            };
            let remedy = format!("add a line such as `{name} = {}`", key.sample);
            report.add(self.header.clone(), message, remedy);
        }
    }

    /// A word: written, or its default; where it is faulty, the default holds its place.
    pub(super) fn word(&self, name: &str) -> &'static str {
        let default = || match self.keys.key(name).map(|key| key.fallback) {
            Some(Fallback::Word(word)) => word,
            _ => "",
        };
        match self.value(name) {
            Some(Value::Word(word)) => word,
            _ => default(),
        }
    }

    /// A text, if written rightly.
    pub(super) fn text(&self, name: &str) -> Option<&str> {
        match self.value(name)? {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Points, if written rightly.
    pub(super) fn pairs(&self, name: &str) -> Option<Vec<[f64; 2]>> {
        match self.value(name)? {
            Value::Pairs(pairs) => Some(pairs.iter().map(|pair| pair.value).collect()),
            _ => None,
        }
    }

    /// Places along the board, if written rightly.
    pub(super) fn places(&self, name: &str) -> Option<Vec<f64>> {
        match self.value(name)? {
            Value::Places(places) => Some(places.iter().map(|place| place.value).collect()),
            _ => None,
        }
    }

    /// Notes the keys that do not go with others of the table.
    pub(super) fn contradictions(&self, report: &mut Report<'_>) {
        for (name, entry) in &self.entries {
            let Some(key) = self.keys.key(name) else {
                continue;
            };
            if let Some(other) = key.instead.filter(|other| self.has(other)) {
                report.add(
                    entry.key.clone(),
                    format!("`{name}` and `{other}` contradict: each says the same in its own way"),
                    "keep one of them".to_owned(),
                );
            }
            self.narrowed(key, report);
            let Some((selector, words)) = key.only else {
                continue;
            };
            let word = self.word(selector);
            if !self.faulty(selector) && !words.contains(&word) {
                let origin = if self.has(selector) {
                    ""
                } else {
                    " by default"
                };
                report.add(
                    entry.key.clone(),
                    format!(
                        "`{name}` belongs to `{selector}` {}, but `{selector}` is \"{word}\"{origin}",
                        quoted(words)
                    ),
                    format!("leave `{name}` out, or change `{selector}`"),
                );
            }
        }
    }
    /// Notes a value beyond the range that a word of another key, where it is written, leaves it.
    fn narrowed(&self, key: &Key, report: &mut Report<'_>) {
        let (Some(narrowed), Some(Value::Number(value))) = (key.narrowed, self.value(key.name))
        else {
            return;
        };
        let by = narrowed.by;
        let word = if self.has(by) && !self.faulty(by) {
            self.word(by)
        } else {
            return;
        };
        let Some((_, least, most)) = narrowed.words.iter().find(|words| words.0 == word) else {
            return;
        };
        let bound = if value < least {
            format!("at least {}", plain(*least))
        } else if value > most {
            format!("at most {}", plain(*most))
        } else {
            return;
        };
        report.add(
            self.span(key.name),
            format!("{} must be {bound} mm", narrowed.what.replace("{}", word)),
            format!("change `{by}`, or leave it out"),
        );
    }
}

/// A key's default number, or its sample's, in millimetres, radians or as it is.
fn default_number(key: &Key) -> f64 {
    let number = match key.fallback {
        Fallback::Number(number) => number,
        _ => {
            let text = key.sample.strip_prefix('"');
            let text = text.and_then(|text| text.strip_suffix('"'));
            let sample = text.unwrap_or(key.sample).replace("\\\"", "\"");
            parse_length(&sample, Unit::Mm).unwrap_or(f64::NAN)
        }
    };
    match key.kind {
        KeyKind::Degrees(..) => number.to_radians(),
        _ => number,
    }
}
