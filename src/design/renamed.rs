//! Keys and words that were called otherwise, so that an old file is told the new name.

/// A key that was renamed: its table, its old name, its new one.
const KEYS: &[(&str, &str, &str)] = &[
    ("construction.starter", "lie", "arrangement"),
    ("construction.starter", "laid", "lamination_plane"),
    ("timber", "softened", "softening"),
    ("timber", "working", "working_strain"),
];

/// A word that was renamed: the key it is a value of, the old word, the new one.
const WORDS: &[(&str, &str, &str)] = &[
    ("arrangement", "abreast", "side-by-side"),
    ("lamination_plane", "upright", "vertical"),
    ("lamination_plane", "level", "horizontal"),
    ("joint", "keyed", "key"),
];

/// What the key that a table once had is called now.
pub(super) fn key(table: &str, old: &str) -> Option<&'static str> {
    let renamed = KEYS.iter().find(|(t, o, _)| *t == table && *o == old);
    renamed.map(|(_, _, new)| *new)
}

/// What a word that was a value of this key is called now.
pub(super) fn word(key: &str, old: &str) -> Option<&'static str> {
    let renamed = WORDS.iter().find(|(k, o, _)| *k == key && *o == old);
    renamed.map(|(_, _, new)| *new)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::key::KeyKind;
    use crate::design::keys::{self, tables};

    #[test]
    fn new_names_are_in_the_table_of_keys_and_old_ones_are_not() {
        for (table, old, new) in KEYS {
            assert!(keys::key(table, new).is_some(), "{table}.{new}");
            assert!(keys::key(table, old).is_none(), "{table}.{old}");
        }
        for (name, old, new) in WORDS {
            let mut keys = tables().iter().filter_map(|table| table.key(name));
            let has = |word| {
                move |key: &&super::super::Key| match key.kind {
                    KeyKind::Choice(words) => words.contains(word),
                    _ => false,
                }
            };
            assert!(keys.clone().any(|key| has(new)(&key)), "{name} {new}");
            assert!(!keys.any(|key| has(old)(&key)), "{name} {old}");
        }
    }
}
