//! The file's text, places in it, and the faults found so far.

use std::ops::Range;

use super::{Fault, Faults};

/// A stretch of the file, in bytes.
pub(super) type Span = Range<usize>;

/// The file being read and what was found wrong with it.
pub(super) struct Report<'s> {
    text: &'s str,
    file: &'s str,
    faults: Vec<Fault>,
}

impl<'s> Report<'s> {
    pub(super) const fn new(text: &'s str, file: &'s str) -> Self {
        Self {
            text,
            file,
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
        let before = self.text.get(..line_start).unwrap_or("");
        let line = self.text.get(line_start..).unwrap_or("");
        let excerpt = line.split('\n').next().unwrap_or("").trim_end_matches('\r');
        self.faults.push(Fault {
            file: self.file.to_owned(),
            line: before.matches('\n').count() + 1,
            column: self.slice(line_start..start).chars().count() + 1,
            offending: self.slice(start..self.boundary(span.end)).to_owned(),
            message,
            remedy,
            excerpt: excerpt.to_owned(),
        });
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
        let before = self.slice(0..self.boundary(at));
        before.rfind('\n').map_or(0, |newline| newline + 1)
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
    pub(super) fn lines(&self) -> Vec<usize> {
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
