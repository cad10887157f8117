//! Text as HTML.

use std::fmt::{Display, Write};

use crate::views::document::{Prose, Span, glued};

pub(super) fn put(html: &mut String, what: impl Display) {
    let _ = write!(html, "{what}");
}

/// Text in elements and in attributes, its spaces as they are.
pub(super) fn verbatim(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(c),
            c if c.is_control() => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

/// Text to read, measures unbroken.
pub(super) fn words(text: &str) -> String {
    verbatim(&glued(text))
}

/// Running text.
pub(super) fn prose(prose: &Prose) -> String {
    let mut html = String::new();
    for span in &prose.0 {
        match span {
            Span::Plain(text) => html.push_str(&words(text)),
            Span::Strong(text) => put(&mut html, format_args!("<strong>{}</strong>", words(text))),
            Span::Link { text, to } => put(
                &mut html,
                format_args!("<a href=\"{}\">{}</a>", verbatim(to), words(text)),
            ),
        }
    }
    html
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_no_markup() {
        assert_eq!(
            verbatim("<b a=\"6' 4\">\u{7}"),
            "&lt;b a=&quot;6&#39; 4&quot;&gt;\u{fffd}"
        );
    }

    #[test]
    fn a_measure_stays_on_its_line() {
        assert_eq!(words("at 12.7 mm"), "at 12.7\u{a0}mm");
    }
}
