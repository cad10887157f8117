//! What is wrong with a design file, with its place and its remedy.

use std::fmt;

use serde::Serialize;

/// One fault in a design file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// The file's name as the caller gave it.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The offending text; empty where something is missing from the file as a whole.
    pub offending: String,
    /// What was expected, in one sentence without a full stop.
    pub message: String,
    /// What to do about it.
    pub remedy: String,
    /// The line the fault is on; of a long one, 200 characters round the fault.
    pub excerpt: String,
    /// Column of the line at which the excerpt starts, from 1.
    #[serde(skip)]
    pub excerpt_column: usize,
}

impl fmt::Display for Fault {
    /// `board.toml:12:9: message`, the line with carets under the offending text, and the remedy.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { file, line, .. } = self;
        writeln!(f, "{file}:{line}:{}: {}", self.column, self.message)?;
        let gutter = line.to_string().len();
        let before = self.excerpt.chars().take(self.column - self.excerpt_column);
        let lead: String = before.map(|c| if c == '\t' { c } else { ' ' }).collect();
        let room = self.excerpt.chars().count().saturating_sub(lead.len());
        let first_line = self.offending.lines().next().unwrap_or("");
        let carets = first_line.chars().count().min(room).max(1);
        writeln!(f, "{line} | {}", printable(&self.excerpt))?;
        write!(f, "{:gutter$} | {lead}{}", "", "^".repeat(carets))?;
        write!(f, "\n{:gutter$} = {}", "", self.remedy)
    }
}

/// The text without characters that would steer a terminal.
fn printable(text: &str) -> String {
    let shown = |c: char| {
        if c.is_control() && c != '\t' {
            '\u{fffd}'
        } else {
            c
        }
    };
    text.chars().map(shown).collect()
}

/// All faults found in a design file: at least one, in the order of their places.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Faults(Vec<Fault>);

impl Faults {
    /// The faults, or nothing if there are none.
    pub(super) fn new(mut faults: Vec<Fault>) -> Option<Self> {
        faults.sort_by_key(|fault| (fault.line, fault.column));
        faults.dedup();
        (!faults.is_empty()).then_some(Self(faults))
    }

    /// The fault of a file that gave no design though nothing particular was found wrong.
    pub(super) fn incomplete(file: &str) -> Self {
        Self(vec![Fault {
            file: file.to_owned(),
            line: 1,
            column: 1,
            offending: String::new(),
            message: "expected a complete design".to_owned(),
            remedy: "begin with the file that `boardwright new` writes".to_owned(),
            excerpt: String::new(),
            excerpt_column: 1,
        }])
    }

    /// The faults.
    pub fn list(&self) -> &[Fault] {
        &self.0
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().enumerate() {
            if i > 0 {
                f.write_str("\n\n")?;
            }
            fault.fmt(f)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

impl IntoIterator for Faults {
    type Item = Fault;
    type IntoIter = std::vec::IntoIter<Fault>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<'a> IntoIterator for &'a Faults {
    type Item = &'a Fault;
    type IntoIter = std::slice::Iter<'a, Fault>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}
