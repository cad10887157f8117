//! Faults of the file's TOML writing itself.

use toml::de::Error;

use super::source::{Report, Span};

/// Notes the syntax errors and tells whether the tree that was recovered is still worth checking.
///
/// It is if every error lies in the value of a one-line `key = value`: then only that key's value is unsound. Elsewhere, at a
/// broken header or an open bracket, keys may have been taken for others.
pub(super) fn note(errors: &[Error], report: &mut Report<'_>) -> bool {
    let mut recovered = true;
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        let lead: Span = report.line_start(span.start)..span.start;
        recovered &= is_value(report.slice(lead));
        let message = format!("not valid TOML: {}", error.message());
        match remedy(error.message()) {
            Some(remedy) => report.add_with(span, message, remedy.to_owned()),
            None => report.add(span, message),
        }
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

/// What usually helps.
fn remedy(message: &str) -> Option<&'static str> {
    if message.starts_with("duplicate key") {
        Some("each key and each table may come once; keep one of them")
    } else if message.contains("string values must be quoted") {
        Some("put texts and lengths with units in quotes")
    } else {
        None
    }
}
