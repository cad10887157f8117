//! The file's text, places in it, and the faults found so far.

use std::collections::BTreeSet;
use std::ops::Range;

use super::{Fault, Faults};

/// A stretch of the file, in bytes.
pub(super) type Span = Range<usize>;

/// The file being read and what was found wrong with it.
pub(super) struct Report<'s> {
    text: &'s str,
    file: &'s str,
    /// Where every line starts: found once, since looking again for each fault takes the square of the file's size.
    line_starts: Vec<usize>,
    faults: Vec<Fault>,
}

/// Most characters of a line that are shown, and those of them before the fault.
const EXCERPT: usize = 200;
const BEFORE: usize = 60;

impl<'s> Report<'s> {
    pub(super) fn new(text: &'s str, file: &'s str) -> Self {
        let later = text.match_indices('\n').map(|(at, _)| at + 1);
        Self {
            text,
            file,
            line_starts: std::iter::once(0).chain(later).collect(),
            faults: Vec::new(),
        }
    }

    /// The text of a span.
    pub(super) fn slice(&self, span: Span) -> &'s str {
        self.text.get(span).unwrap_or("")
    }

    /// Notes a fault.
    pub(super) fn add(&mut self, span: Span, message: String) {
        self.note(span, message, None);
    }

    /// Notes a fault with its remedy.
    pub(super) fn add_with(&mut self, span: Span, message: String, remedy: String) {
        self.note(span, message, Some(remedy));
    }

    /// Notes a fault, with a remedy if there is one.
    pub(super) fn note(&mut self, span: Span, message: String, remedy: Option<String>) {
        let start = self.boundary(span.start);
        let line_start = self.line_start(start);
        let before = self.slice(line_start..start).chars().count();
        let end = self.line_starts.get(self.line_number(start)).copied();
        let line = self.slice(line_start..end.unwrap_or(self.text.len()));
        let line = line.trim_end_matches('\n').trim_end_matches('\r');
        // Few bytes are a short line; a long one is cut round the fault.
        let long = line.len() > EXCERPT && line.chars().nth(EXCERPT).is_some();
        let cut = if long {
            before.saturating_sub(BEFORE)
        } else {
            0
        };
        let offending = self.slice(start..self.boundary(span.end));
        self.faults.push(Fault {
            file: self.file.to_owned(),
            line: self.line_number(start),
            column: before + 1,
            offending: offending.chars().take(EXCERPT).collect(),
            message,
            remedy,
            excerpt: line.chars().skip(cut).take(EXCERPT).collect(),
            excerpt_column: cut + 1,
        });
    }

    /// The number, from 1, of the line that holds `at`.
    fn line_number(&self, at: usize) -> usize {
        self.line_starts.partition_point(|start| *start <= at)
    }

    /// The nearest character boundary at or before `at`.
    fn boundary(&self, at: usize) -> usize {
        let at = at.min(self.text.len());
        (0..=at)
            .rev()
            .find(|&i| self.text.is_char_boundary(i))
            .unwrap_or(0)
    }

    /// Where the line that holds `at` starts.
    pub(super) fn line_start(&self, at: usize) -> usize {
        let number = self.line_number(at.min(self.text.len()));
        self.line_starts.get(number - 1).copied().unwrap_or(0)
    }

    /// The text from `at` to the end of its line.
    pub(super) fn rest_of_line(&self, at: usize) -> &'s str {
        let rest = self.text.get(self.boundary(at)..).unwrap_or("");
        rest.lines().next().unwrap_or("")
    }

    /// Drops the faults from the `first`th on that `keep` does not want.
    pub(super) fn retain_from(&mut self, first: usize, keep: impl Fn(&Fault) -> bool) {
        let later = self.faults.split_off(first.min(self.faults.len()));
        self.faults.extend(later.into_iter().filter(keep));
    }

    /// How many faults there are.
    pub(super) const fn count(&self) -> usize {
        self.faults.len()
    }

    /// The lines that have faults.
    pub(super) fn lines(&self) -> BTreeSet<usize> {
        self.faults.iter().map(|fault| fault.line).collect()
    }

    /// The value if nothing was wrong, otherwise the faults.
    pub(super) fn finish<T>(self, value: Option<T>) -> Result<T, Faults> {
        match (Faults::new(self.faults), value) {
            (Some(faults), _) => Err(faults),
            (None, Some(value)) => Ok(value),
            (None, None) => Err(Faults::incomplete(self.file)),
        }
    }
}
