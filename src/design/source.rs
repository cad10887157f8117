//! The file's text, places in it, and the faults found so far.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::ops::Range;

use super::{Fault, Faults, columns::Columns};

/// A stretch of the file, in bytes.
pub(super) type Span = Range<usize>;

/// The file being read and what was found wrong with it.
pub(super) struct Report<'s> {
    text: &'s str,
    file: &'s str,
    /// Where every line starts: found once, since looking again for each fault takes the square of the file's size.
    line_starts: Vec<usize>,
    columns: Columns<'s>,
    faults: Vec<Fault>,
}

/// Most characters of a line that are shown, and those of them before the fault.
const EXCERPT: usize = 200;
const BEFORE: usize = 60;

/// A name or a text as messages quote it: the beginning of a long one.
pub(super) fn excerpt(text: &str) -> Cow<'_, str> {
    /// Most characters; no key and no species has as many.
    const MOST: usize = 60;
    match text.char_indices().nth(MOST) {
        Some((end, _)) => format!("{}…", text.get(..end).unwrap_or("")).into(),
        None => text.into(),
    }
}

impl<'s> Report<'s> {
    pub(super) fn new(text: &'s str, file: &'s str) -> Self {
        let later = text.match_indices('\n').map(|(at, _)| at + 1);
        Self {
            text,
            file,
            line_starts: std::iter::once(0).chain(later).collect(),
            columns: Columns::new(text),
            faults: Vec::new(),
        }
    }

    /// The text of a span.
    pub(super) fn slice(&self, span: Span) -> &'s str {
        self.text.get(span).unwrap_or("")
    }

    /// Notes a fault with its remedy.
    pub(super) fn add(&mut self, span: Span, message: String, remedy: impl Into<String>) {
        let start = self.boundary(span.start);
        let line_start = self.line_start(start);
        let before = self.columns.between(line_start, start);
        let end = self.line_starts.get(self.line_number(start)).copied();
        let line = self.slice(line_start..end.unwrap_or(self.text.len()));
        let line = line.trim_end_matches('\n').trim_end_matches('\r');
        // Few bytes are a short line; a long one is cut round the fault.
        let long = line.len() > EXCERPT && line.chars().nth(EXCERPT).is_some();
        let ahead = self.slice(line_start..start).char_indices();
        let (cut, from) = match ahead.rev().nth(BEFORE - 1) {
            Some((from, _)) if long => (before - BEFORE, from),
            _ => (0, 0),
        };
        let excerpt = line.get(from..).unwrap_or("");
        let offending = self.slice(start..self.boundary(span.end));
        self.faults.push(Fault {
            file: self.file.to_owned(),
            line: self.line_number(start),
            column: before + 1,
            offending: offending.chars().take(EXCERPT).collect(),
            message,
            remedy: remedy.into(),
            excerpt: excerpt.chars().take(EXCERPT).collect(),
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
