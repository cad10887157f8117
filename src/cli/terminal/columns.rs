//! Tables as lines: columns two spaces apart, indented by two; where they are too wide, headings and words are broken, numbers never.

use super::wrap::{WIDTH, broken, longest_word};
use crate::design::units::Unit;
use crate::views::table::Table;

/// A line of a table.
pub(super) struct Line {
    /// Its text.
    pub text: String,
    /// Whether it names columns.
    pub is_heading: bool,
}

/// Between two columns, and before the first.
const GAP: usize = 2;

/// The table's lines, its title and its headings first.
pub(super) fn lines(table: &Table, unit: Unit) -> Vec<Line> {
    let headings = table
        .columns
        .iter()
        .map(|column| column.heading())
        .collect();
    let body = table.rows.iter().map(|row| {
        let cells = row.iter().zip(&table.columns);
        cells
            .map(|(cell, column)| cell.text(column, unit))
            .collect()
    });
    let grid = Grid {
        is_number: (0..table.columns.len())
            .map(|i| table.is_numeric(i))
            .collect(),
        headings,
        body: body.collect(),
    };
    let title = (!table.title.is_empty()).then(|| Line {
        text: format!("  {}", table.title),
        is_heading: true,
    });
    title.into_iter().chain(grid.lines()).collect()
}

/// Rows of a name and words.
pub(super) fn pairs(rows: &[[String; 2]]) -> Vec<String> {
    let grid = Grid {
        is_number: vec![false; 2],
        headings: Vec::new(),
        body: rows.iter().map(|row| row.to_vec()).collect(),
    };
    grid.lines().into_iter().map(|line| line.text).collect()
}

/// What is broken where a table is too wide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Narrow {
    /// Headings alone.
    Headings,
    /// Columns of words, with their headings.
    Words,
    /// Whichever is widest.
    Both,
}

fn total(widths: &[usize]) -> usize {
    widths.iter().map(|w| w + GAP).sum()
}

struct Grid {
    /// Whether a column is set flush right and never broken.
    is_number: Vec<bool>,
    /// The columns' names; empty where they have none.
    headings: Vec<String>,
    body: Vec<Vec<String>>,
}

impl Grid {
    /// The lines at the natural widths if these fit, else at those narrowed widths that take the fewest lines.
    fn lines(&self) -> Vec<Line> {
        let ways = [Narrow::Headings, Narrow::Both, Narrow::Words];
        let fits = |widths: &Vec<usize>| total(widths) <= WIDTH;
        let choices = ways.map(|way| self.widths(way));
        let fitting: Vec<&Vec<usize>> = choices.iter().filter(|w| fits(w)).collect();
        // A word longer than the screen goes beyond it.
        let choices = if fitting.is_empty() {
            vec![&choices[1]]
        } else {
            fitting
        };
        let arranged = choices.into_iter().map(|widths| self.arranged(widths));
        arranged.min_by_key(Vec::len).unwrap_or_default()
    }

    fn arranged(&self, widths: &[usize]) -> Vec<Line> {
        let mut lines = Vec::new();
        if self.headings.iter().any(|h| !h.is_empty()) {
            lines.extend(self.row(&self.headings, widths, true));
        }
        for row in &self.body {
            lines.extend(self.row(row, widths, false));
        }
        lines
    }

    /// The columns' widths: as wide as their widest cell, unless that is too wide for the screen; then narrower in one of the ways.
    fn widths(&self, way: Narrow) -> Vec<usize> {
        let count = self.is_number.len();
        let body = |i: usize, of: fn(&str) -> usize| {
            let cells = self.body.iter().filter_map(|row| row.get(i));
            cells.map(|cell| of(cell)).max().unwrap_or(0)
        };
        let heading = |i: usize, of: fn(&str) -> usize| self.headings.get(i).map_or(0, |h| of(h));
        let least = |i: usize| {
            let whole_words = !self.is_number[i] && way != Narrow::Headings;
            let cells = body(
                i,
                if whole_words {
                    longest_word
                } else {
                    longest_line
                },
            );
            let whole_heading = way == Narrow::Words && self.is_number[i];
            let name = heading(
                i,
                if whole_heading {
                    longest_line
                } else {
                    longest_word
                },
            );
            cells.max(name)
        };
        let least: Vec<usize> = (0..count).map(least).collect();
        let natural = |i: usize| body(i, longest_line).max(heading(i, longest_line));
        let mut widths: Vec<usize> = (0..count).map(natural).collect();
        while total(&widths) > WIDTH {
            let narrower = (0..count).filter(|&i| widths[i] > least[i]);
            let Some(i) = narrower.max_by_key(|&i| widths[i]) else {
                break;
            };
            widths[i] -= 1;
        }
        widths
    }

    /// A row's lines; headings stand on the last of theirs.
    fn row(&self, row: &[String], widths: &[usize], is_heading: bool) -> Vec<Line> {
        let cells: Vec<Vec<String>> = row
            .iter()
            .zip(widths)
            .map(|(cell, &width)| {
                let parts = cell.split('\n');
                parts.flat_map(|part| broken(part, width, width)).collect()
            })
            .collect();
        let height = cells.iter().map(Vec::len).max().unwrap_or(0);
        let line = |k: usize| {
            let mut text = String::new();
            for ((cell, &width), &is_number) in cells.iter().zip(widths).zip(&self.is_number) {
                let above = if is_heading { height - cell.len() } else { 0 };
                let words = k.checked_sub(above).and_then(|k| cell.get(k));
                let words = words.map_or("", String::as_str);
                let blank = " ".repeat(width.saturating_sub(words.chars().count()));
                text.push_str("  ");
                if is_number {
                    text.extend([blank.as_str(), words]);
                } else {
                    text.extend([words, blank.as_str()]);
                }
            }
            text.truncate(text.trim_end().len());
            Line { text, is_heading }
        };
        (0..height).map(line).collect()
    }
}

fn longest_line(text: &str) -> usize {
    let lines = text.split('\n');
    lines.map(|line| line.chars().count()).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::views::table::{Cell, Quantity};

    #[test]
    fn columns_line_up() {
        let mut table = Table::with_columns(&["", "far off"]);
        table.rows = vec![
            vec!["a".into(), Cell::Count(10)],
            vec!["bcd".into(), Cell::Count(1)],
        ];
        let lines: Vec<String> = lines(&table, Unit::Mm)
            .into_iter()
            .map(|l| l.text)
            .collect();
        assert_eq!(
            lines,
            ["       far off", "  a         10", "  bcd        1"]
        );
    }

    #[test]
    fn what_is_too_wide_is_broken_and_no_number_is() {
        let mut table = Table::with_columns(&["where it is found to be", "height over the table"]);
        let words = "a long row of words ".repeat(6);
        let height = Quantity::Size(1234.5 * 25.4);
        table.rows = vec![vec![words.as_str().into(), height.into()]];
        let lines: Vec<String> = lines(&table, Unit::In)
            .into_iter()
            .map(|l| l.text)
            .collect();
        assert!(
            lines.iter().all(|l| l.chars().count() <= WIDTH),
            "{lines:?}"
        );
        assert!(lines.iter().any(|l| l.contains("1234 1/2\"")), "{lines:?}");
        let all = lines.join(" ");
        assert_eq!(all.matches("words").count(), 6, "{all}");
    }
}
