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

/// The words of `text`; a number stays with its fraction and its unit: `8 3/16"`, `1.30 mm`.
fn words(text: &str) -> Vec<String> {
    let digits = |word: &str| word.ends_with(|c: char| c.is_ascii_digit());
    let fraction = |word: &str| {
        word.split_once('/').is_some_and(|(a, b)| {
            let digit = |c: char| c.is_ascii_digit();
            !a.is_empty() && a.chars().all(digit) && b.starts_with(digit)
        })
    };
    let unit = |word: &str| {
        let bare = word.trim_end_matches([',', ';', '.', ':', ')']);
        matches!(
            bare,
            "mm" | "cm" | "m" | "in" | "%" | "kg" | "g" | "lb" | "L" | "N"
        )
    };
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(last) if digits(last) && (fraction(word) || unit(word)) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// `text` in lines of at most `width` characters, broken between words, each after `indent`.
pub(super) fn wrapped(text: &str, width: usize, indent: &str) -> String {
    let mut out = String::new();
    let mut line = String::new();
    for word in words(text) {
        let longer = indent.len() + line.chars().count() + 1 + word.chars().count();
        if !line.is_empty() && longer > width {
            out.extend([indent, &line, "\n"]);
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(&word);
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

    #[test]
    fn a_number_keeps_its_fraction_and_its_unit() {
        assert_eq!(wrapped("of 8 3/16\", 42", 8, ""), "of\n8 3/16\",\n42\n");
        assert_eq!(wrapped("at 1.30 mm, off", 9, ""), "at\n1.30 mm,\noff\n");
        assert_eq!(wrapped("strip 3 in all", 9, ""), "strip\n3 in all\n");
    }
}
