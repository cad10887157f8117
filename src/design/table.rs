//! A table of the file as read: each key's value, with its place, or that it was silent.

use std::collections::BTreeMap;

use super::{
    key::{Fallback, Kind, TableKeys},
    scalar::quoted,
    source::{Report, Span},
};

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
    pub(super) fn silent(keys: &'static TableKeys) -> Self {
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
    pub(super) fn given(&self, name: &str) -> bool {
        self.entries.contains_key(name)
    }

    /// The place of a key's value, or the header's if it is silent.
    pub(super) fn span(&self, name: &str) -> Span {
        let entry = self.entries.get(name);
        entry.map_or_else(|| self.header.clone(), |entry| entry.span.clone())
    }

    fn value(&self, name: &str) -> Option<&Value> {
        self.entries.get(name)?.value.as_ref()
    }

    /// A number: given, or its fixed default. `None` if it is faulty.
    pub(super) fn number(&self, name: &str) -> Option<f64> {
        let key = self.keys.key(name)?;
        match (key.fallback, key.kind) {
            (Fallback::Number(n), Kind::Degrees(..)) => self.number_or(name, Some(n.to_radians())),
            (Fallback::Number(n), _) => self.number_or(name, Some(n)),
            _ => self.number_or(name, None),
        }
    }

    /// A number: given, or what the rule for the silent key gave. `None` if it is faulty.
    pub(super) fn number_or(&self, name: &str, rule: Option<f64>) -> Option<f64> {
        if !self.given(name) {
            return rule;
        }
        match self.value(name)? {
            Value::Number(number) => Some(*number),
            _ => None,
        }
    }

    /// A number that may be silent, which is then no number. `None` if it is faulty.
    pub(super) fn number_if_given(&self, name: &str) -> Option<Option<f64>> {
        if self.given(name) {
            self.number_or(name, None).map(Some)
        } else {
            Some(None)
        }
    }

    /// A number that may not be silent; notes a fault if it is.
    pub(super) fn need(&self, name: &str, report: &mut Report<'_>) -> Option<f64> {
        self.demand(name, report);
        self.number_or(name, None)
    }

    /// Notes a fault if the key is silent.
    pub(super) fn demand(&self, name: &str, report: &mut Report<'_>) {
        let noted = self.displaced || self.misspelt.contains(&name);
        let Some(key) = self.keys.key(name).filter(|_| !noted && !self.given(name)) else {
            return;
        };
        let message = if self.present || self.keys.path.is_empty() {
            format!("`{name}` is missing from {}", self.keys.header())
        } else {
            format!("{} with its `{name}` is missing", self.keys.header())
        };
        let remedy = format!("add a line such as `{name} = {}`", key.sample);
        report.add(self.header.clone(), message, remedy);
    }

    /// A word: given, or its default. `None` if it is faulty or silent without a default.
    pub(super) fn word(&self, name: &str) -> Option<&'static str> {
        if !self.given(name) {
            return match self.keys.key(name)?.fallback {
                Fallback::Word(word) => Some(word),
                _ => None,
            };
        }
        match self.value(name)? {
            Value::Word(word) => Some(word),
            _ => None,
        }
    }

    /// A text, if given.
    pub(super) fn text(&self, name: &str) -> Option<&str> {
        match self.value(name)? {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Points, if given rightly.
    pub(super) fn pairs(&self, name: &str) -> Option<&[Placed<[f64; 2]>]> {
        match self.value(name)? {
            Value::Pairs(pairs) => Some(pairs),
            _ => None,
        }
    }

    /// Places along the board, if given rightly.
    pub(super) fn places(&self, name: &str) -> Option<&[Placed<f64>]> {
        match self.value(name)? {
            Value::Places(places) => Some(places),
            _ => None,
        }
    }

    /// Notes the keys that do not go with others of the table.
    pub(super) fn contradictions(&self, report: &mut Report<'_>) {
        for (name, entry) in &self.entries {
            let Some(key) = self.keys.key(name) else {
                continue;
            };
            if let Some(other) = key.instead.filter(|other| self.given(other)) {
                report.add(
                    entry.key.clone(),
                    format!("`{name}` and `{other}` contradict: each says the same in its own way"),
                    "keep one of them".to_owned(),
                );
            }
            let Some((selector, words)) = key.only else {
                continue;
            };
            if let Some(word) = self.word(selector).filter(|word| !words.contains(word)) {
                let silent = if self.given(selector) {
                    ""
                } else {
                    " when silent"
                };
                report.add(
                    entry.key.clone(),
                    format!(
                        "`{name}` belongs to `{selector}` {}, but `{selector}` is \"{word}\"{silent}",
                        quoted(words)
                    ),
                    format!("leave `{name}` out, or change `{selector}`"),
                );
            }
        }
    }
}
