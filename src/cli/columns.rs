//! Words in columns.

/// Where a column's words stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
}

/// Rows of cells as lines, each column as wide as its widest cell, two spaces apart, indented by two.
pub(super) fn columns(sides: &[Side], rows: &[Vec<String>]) -> Vec<String> {
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..sides.len()).map(width).collect();
    let line = |row: &Vec<String>| {
        let mut line = String::new();
        for ((cell, side), width) in row.iter().zip(sides).zip(&widths) {
            line.push_str("  ");
            let blank = " ".repeat(width - cell.chars().count());
            match side {
                Side::Left => line.extend([cell.as_str(), &blank]),
                Side::Right => line.extend([blank.as_str(), cell]),
            }
        }
        line.truncate(line.trim_end().len());
        line
    };
    rows.iter().map(line).collect()
}

/// `text` in lines of at most `width` characters, broken between words, each after `indent`.
pub(super) fn wrapped(text: &str, width: usize, indent: &str) -> String {
    let mut out = String::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let longer = indent.len() + line.chars().count() + 1 + word.chars().count();
        if !line.is_empty() && longer > width {
            out.extend([indent, &line, "\n"]);
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    out.extend([indent, &line, "\n"]);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up() {
        let rows = [["a", "10"], ["bcd", "1"]].map(|r| r.map(String::from).to_vec());
        assert_eq!(
            columns(&[Side::Left, Side::Right], &rows),
            ["  a    10", "  bcd   1"]
        );
    }

    #[test]
    fn lines_break_between_words() {
        assert_eq!(wrapped("aa bb cc", 6, " "), " aa bb\n cc\n");
    }
}
