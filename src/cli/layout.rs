//! Headings and rows on the terminal.

use super::columns::{Side, columns};
use super::paint::Paint;

/// Widest line, in characters.
pub(super) const WIDTH: usize = 90;

pub(super) fn heading(text: &mut String, paint: Paint, title: &str, aside: &str) {
    text.push('\n');
    text.push_str(&paint.bold(title));
    if !aside.is_empty() {
        text.push_str("  ");
        text.push_str(&paint.dim(aside));
    }
    text.push('\n');
}

pub(super) fn block(text: &mut String, sides: &[Side], rows: &[Vec<String>]) {
    for line in columns(sides, rows) {
        text.push_str(&line);
        text.push('\n');
    }
}

/// Like [`block`], the first row being the columns' names.
pub(super) fn headed(text: &mut String, paint: Paint, sides: &[Side], rows: &[Vec<String>]) {
    for (i, line) in columns(sides, rows).into_iter().enumerate() {
        text.push_str(&if i == 0 { paint.dim(&line) } else { line });
        text.push('\n');
    }
}
