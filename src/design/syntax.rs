//! Faults of the file's TOML writing itself.

use toml::de::Error;

use super::source::{Report, Span};

/// Notes the syntax errors and tells whether the tree that was recovered is still worth checking.
///
/// It is if every error lies in the value of a one-line `key = value`: then only that key's value is unsound. Elsewhere, at a
/// broken header or an open bracket, keys may have been taken for others.
pub(super) fn note(errors: &[Error], report: &mut Report<'_>) -> bool {
    let mut recovered = true;
    let mut noted = Vec::new();
    let unclosed = errors.iter().any(|e| e.message().starts_with("unclosed"));
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        let line = report.line_start(span.start);
        if noted.contains(&line) {
            // What follows on a line is only the first error's consequence.
            continue;
        }
        noted.push(line);
        let lead = report.slice(line..span.start);
        recovered &= is_value(lead);
        let runs_on = unclosed && lead.trim().is_empty();
        if runs_on && error.message().starts_with("missing comma") {
            let message = "not valid TOML: the list or table opened above goes on to here";
            report.add_with(span, message.to_owned(), "close it above".to_owned());
            // The rest of the file was read as part of it.
            return false;
        }
        let (message, remedy, span) = explain(error.message(), span, report);
        report.note(span, format!("not valid TOML: {message}"), remedy);
    }
    recovered
}

/// Whether the line up to the error is a bare key and an equals sign, and whatever follows.
fn is_value(lead: &str) -> bool {
    let is_key = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
    lead.split_once('=').is_some_and(|(key, _)| {
        let key = key.trim();
        !key.is_empty() && key.chars().all(is_key)
    })
}

/// The TOML reader's message in a maker's words, what usually helps, and the offending text's place.
fn explain(message: &str, span: Span, report: &Report<'_>) -> (String, Option<String>, Span) {
    /// How the TOML reader begins when it meets a text without quotes.
    const BARE: [&str; 5] = [
        "invalid boolean",
        "invalid float",
        "missing opening quote",
        "string values must be quoted",
        "unexpected character in number",
    ];
    let remedy = |text: &str| Some(text.to_owned());
    let rest = report.rest_of_line(span.start);
    let before = report.slice(report.line_start(span.start)..span.start);
    if message.starts_with("duplicate key") {
        let help = "each key and each table may come once; keep one of them";
        (message.to_owned(), remedy(help), span)
    } else if rest.starts_with(',') && before.ends_with(|c: char| c.is_ascii_digit()) {
        let help = "write decimals with a point, and lists in brackets";
        (
            "unexpected comma".to_owned(),
            remedy(help),
            span.start..span.start + 1,
        )
    } else if BARE.iter().any(|bare| message.starts_with(bare)) {
        let text = rest.split('#').next().unwrap_or("").trim();
        let expected = "expected a number, a list, or a text in quotes";
        let place = span.start..span.start + text.len();
        let write = format!("write {}", quote(text));
        (expected.to_owned(), Some(write), place)
    } else {
        (message.to_owned(), None, span)
    }
}

/// A text in the quotes of TOML.
fn quote(text: &str) -> String {
    let bare = text.replace('\\', "\\\\").replace('"', "\\\"");
    format!("\"{bare}\"")
}
