//! Words in lines.

use crate::views::document::{GLUE, glued};

/// Widest line, in characters: an everyday terminal's.
pub(super) const WIDTH: usize = 80;

/// A text on one line, without characters that would steer a terminal.
pub(super) fn one_line(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

/// `text` broken between words, and in no measure, into lines that leave room for `first` characters before the first of them and for `next`
/// before the others.
pub(super) fn wrapped(text: &str, first: usize, next: usize) -> Vec<String> {
    broken(
        text,
        WIDTH.saturating_sub(first),
        WIDTH.saturating_sub(next),
    )
}

/// `text` in lines of at most `first` characters for the first of them and `next` for the others; at least one line.
pub(super) fn broken(text: &str, first: usize, next: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    let clean = one_line(text);
    for word in glued(&clean).split(' ').filter(|w| !w.is_empty()) {
        let room = if lines.len() == 1 { first } else { next };
        let Some(line) = lines.last_mut() else {
            break;
        };
        if !line.is_empty() && line.chars().count() + 1 + word.chars().count() > room {
            lines.push(String::new());
        } else if !line.is_empty() {
            line.push(' ');
        }
        if let Some(line) = lines.last_mut() {
            line.push_str(word);
        }
    }
    lines.iter().map(|l| l.replace(GLUE, " ")).collect()
}

/// `words` in lines, `lead` before the first and `hang` before the others.
pub(super) fn hung(lead: &str, hang: &str, words: &str) -> Vec<String> {
    let lines = wrapped(words, lead.chars().count(), hang.chars().count());
    let lines = lines.into_iter().enumerate();
    lines
        .map(|(i, line)| format!("{}{line}", if i == 0 { lead } else { hang }))
        .collect()
}

/// The longest stretch of `text` that is not broken, in characters.
pub(super) fn longest_word(text: &str) -> usize {
    let glued = glued(text);
    let words = glued.split([' ', '\n']);
    words.map(|word| word.chars().count()).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_between_words_and_in_no_measure() {
        assert_eq!(broken("aa bb cc", 5, 5), ["aa bb", "cc"]);
        assert_eq!(broken("is 20 1/2\" wide", 8, 8), ["is", "20 1/2\"", "wide"]);
        assert_eq!(broken("over 12.7 mm", 9, 9), ["over", "12.7 mm"]);
        assert_eq!(broken("", 9, 9), [""]);
        assert_eq!(hung("- ", "  ", "a"), ["- a"]);
        assert!(
            wrapped(&"word ".repeat(60), 10, 4)
                .iter()
                .all(|l| l.len() <= 76)
        );
    }
}
