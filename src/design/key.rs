//! What a key of the design file is.

/// Most characters of a name: what still fits on a template and in a cell of a table.
pub(super) const NAME: usize = 60;

/// Most points of a list of pairs: a hundred times as many as shape a board.
pub(super) const POINTS: usize = 200;

/// What a key's value may be. Lengths are millimetres here, angles degrees; bounds are included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum KeyKind {
    /// Text of so many characters at most.
    Text(usize),
    /// One of some words.
    Choice(&'static [&'static str]),
    /// A length.
    Length(f64, f64),
    /// An angle.
    Degrees(f64, f64),
    /// A number without a unit.
    Number(f64, f64),
    /// A whole number.
    Count(u32, u32),
    /// Up to 200 `[x, y]` pairs of lengths with rising `x`; the bounds are those of `y`, which has this name.
    Pairs(&'static str, f64, f64),
    /// So many places along the board, rising.
    Places(usize, usize),
}

/// What a key that is left out means.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fallback {
    /// The key may not be left out.
    Required,
    /// The key may only be left out where this other key of the same table stands for it.
    RequiredUnless(&'static str),
    /// The design does without.
    Nothing,
    /// This number, in millimetres, degrees or as it is.
    Number(f64),
    /// This word.
    Word(&'static str),
    /// A value worked out from others, in words.
    Rule(&'static str),
}

/// Where makers usually choose a value, by common practice with no published source: what `boardwright keys` prints as usual, and
/// from where plausible designs are drawn in tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Usual {
    /// Near its default, or near its sample where the default is a rule.
    Near,
    /// Between these, in the unit of the key's kind.
    Between(f64, f64),
    /// Between these shares of another key, which is of the same table or has its table's name before it.
    Share(&'static str, f64, f64),
}

/// How the words of another key narrow a range, where the file writes that key.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Narrowed {
    /// The other key, of the same table.
    pub by: &'static str,
    /// Its words with the least and greatest value each allows.
    pub words: &'static [(&'static str, f64, f64)],
    /// What the value is, in a message, `{}` standing for the word.
    pub what: &'static str,
}

/// A key of the design file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Key {
    /// Its name.
    pub name: &'static str,
    /// What its value may be.
    pub kind: KeyKind,
    /// What it means when left out.
    pub fallback: Fallback,
    /// Another key of the same table and the words of it that this key belongs to.
    pub only: Option<(&'static str, &'static [&'static str])>,
    /// A key of the same table that says the same in another way, so that both contradict.
    pub instead: Option<&'static str>,
    /// Where its value usually lies.
    pub usual: Usual,
    /// What it is.
    pub doc: &'static str,
    /// A value, as a file would have it.
    pub sample: &'static str,
    /// How a word of another key narrows its range.
    pub narrowed: Option<Narrowed>,
    /// Whether the starter file shows the key commented out.
    pub commented: bool,
}

impl Key {
    /// Least and greatest number it takes, in the unit of its kind; `None` for texts, words and lists.
    pub fn range(&self) -> Option<[f64; 2]> {
        match self.kind {
            KeyKind::Length(least, most)
            | KeyKind::Degrees(least, most)
            | KeyKind::Number(least, most) => Some([least, most]),
            KeyKind::Count(least, most) => Some([f64::from(least), f64::from(most)]),
            _ => None,
        }
    }

    /// A required key, with its sample value.
    pub(super) const fn new(name: &'static str, kind: KeyKind, sample: &'static str) -> Self {
        Self {
            name,
            kind,
            fallback: Fallback::Required,
            only: None,
            instead: None,
            usual: Usual::Near,
            doc: "",
            sample,
            narrowed: None,
            commented: false,
        }
    }

    /// The same with what it means when left out.
    pub(super) const fn or(self, fallback: Fallback) -> Self {
        Self { fallback, ..self }
    }

    /// The same, by default this number.
    pub(super) const fn or_number(self, number: f64) -> Self {
        self.or(Fallback::Number(number))
    }

    /// The same, by default this word.
    pub(super) const fn or_word(self, word: &'static str) -> Self {
        self.or(Fallback::Word(word))
    }

    /// The same, by default what this rule says.
    pub(super) const fn or_rule(self, rule: &'static str) -> Self {
        self.or(Fallback::Rule(rule))
    }

    /// The same, belonging only to these words of another key.
    pub(super) const fn only(self, key: &'static str, words: &'static [&'static str]) -> Self {
        Self {
            only: Some((key, words)),
            ..self
        }
    }

    /// The same, contradicting another key.
    pub(super) const fn instead_of(self, key: &'static str) -> Self {
        Self {
            instead: Some(key),
            ..self
        }
    }

    /// The same, usually between these.
    pub(super) const fn usually(self, least: f64, most: f64) -> Self {
        Self {
            usual: Usual::Between(least, most),
            ..self
        }
    }

    /// The same, usually between these shares of another key.
    pub(super) const fn usual_share(self, key: &'static str, least: f64, most: f64) -> Self {
        Self {
            usual: Usual::Share(key, least, most),
            ..self
        }
    }

    /// The same, required unless the other key stands for it, which it contradicts.
    pub(super) const fn unless(self, key: &'static str) -> Self {
        self.or(Fallback::RequiredUnless(key)).instead_of(key)
    }

    /// The same in a range that a word of another key narrows.
    pub(super) const fn narrowed(self, narrowed: Narrowed) -> Self {
        Self {
            narrowed: Some(narrowed),
            ..self
        }
    }

    /// The same, commented out in the starter file.
    pub(super) const fn commented(self) -> Self {
        Self {
            commented: true,
            ..self
        }
    }

    /// The same with its description.
    pub(super) const fn doc(self, doc: &'static str) -> Self {
        Self { doc, ..self }
    }
}

/// A table of the design file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableKeys {
    /// Its dotted name; empty for the top of the file.
    pub path: &'static str,
    /// How often it may come: once as `[path]`, else as `[[path]]`.
    pub most: usize,
    /// What it is.
    pub doc: &'static str,
    /// Its keys.
    pub keys: &'static [Key],
}

impl TableKeys {
    /// Whether it may come more than once, as `[[path]]`.
    pub const fn repeated(&self) -> bool {
        self.most > 1
    }

    /// Its header line as a file has it; `the top of the file` for the top.
    pub fn header(&self) -> String {
        match (self.path, self.repeated()) {
            ("", _) => "the top of the file".to_owned(),
            (path, false) => format!("[{path}]"),
            (path, true) => format!("[[{path}]]"),
        }
    }

    /// The key of this name.
    pub fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }
}
