//! Faults of the file's TOML writing itself.

use std::collections::BTreeSet;

use toml::de::Error;

use super::source::{Report, Span, excerpt};

/// Notes the syntax errors and tells whether the tree that was recovered is still worth checking.
///
/// It is if every error lies in the value of a one-line `key = value`: then only that key's value is unsound. Elsewhere, at a
/// broken header or an open bracket, keys may have been taken for others.
pub(super) fn note(errors: &[Error], report: &mut Report<'_>) -> bool {
    let mut recovered = true;
    let mut noted = BTreeSet::new();
    let unclosed = errors.iter().any(|e| e.message().starts_with("unclosed"));
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        let line = report.line_start(span.start);
        if !noted.insert(line) {
            // What follows on a line is only the first error's consequence.
            continue;
        }
        let lead = report.slice(line..span.start);
        recovered &= is_value(lead);
        let runs_on = unclosed && lead.trim().is_empty();
        if runs_on && error.message().starts_with("missing comma") {
            let message = "not valid TOML: the list or table opened above goes on to here";
            report.add(span, message.to_owned(), "close it above");
            // The rest of the file was read as part of it.
            return false;
        }
        let (message, remedy, span) = explain(error.message(), span, report);
        report.add(span, format!("not valid TOML: {message}"), remedy);
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
fn explain(message: &str, span: Span, report: &Report<'_>) -> (String, String, Span) {
    /// How the TOML reader begins when it meets a text without quotes.
    const BARE: [&str; 5] = [
        "invalid boolean",
        "invalid float",
        "missing opening quote",
        "string values must be quoted",
        "unexpected character in number",
    ];
    let rest = report.rest_of_line(span.start);
    let before = report.slice(report.line_start(span.start)..span.start);
    if message.starts_with("duplicate key") {
        let remedy = "each key and each table may come once; keep one of them";
        (message.to_owned(), remedy.to_owned(), span)
    } else if rest.starts_with(',') && before.ends_with(|c: char| c.is_ascii_digit()) {
        let remedy = "write decimals with a point, and lists in brackets";
        let comma = span.start..span.start + 1;
        ("unexpected comma".to_owned(), remedy.to_owned(), comma)
    } else if BARE.iter().any(|bare| message.starts_with(bare)) {
        let text = rest.split('#').next().unwrap_or("").trim();
        let expected = "expected a number, a list, or a text in quotes";
        let place = span.start..span.start + text.len();
        let remedy = match text {
            "" => "write a value here, or take the key out".to_owned(),
            _ if text.ends_with(']') => {
                "put commas between the values of a list, and texts in quotes".to_owned()
            }
            _ => format!("write {}", quote(&excerpt(text))),
        };
        (expected.to_owned(), remedy, place)
    } else {
        (message.to_owned(), usual_remedy(message).to_owned(), span)
    }
}

/// What helps where the TOML reader found no key and value.
const LINES: &str =
    "write each key on a line of its own as `key = value`, and each table's name as [name]";

/// What usually helps against a fault that the TOML reader names like this.
fn usual_remedy(message: &str) -> &'static str {
    /// Words of the reader, and the remedy for what has them; the first that fits counts.
    const REMEDIES: [(&str, &str); 15] = [
        ("unclosed array table", "close the header: [[name]]"),
        ("unclosed table", "close the header: [name]"),
        ("unclosed array", "close the list with ]"),
        ("unclosed inline table", "close the table with }"),
        (
            "recursi",
            "take brackets out: no key needs as many within each other",
        ),
        (
            "comma",
            "put one comma between two values, on one line with the first",
        ),
        ("key", LINES),
        (
            "string",
            "put the text in quotes of one kind, and in single quotes if it holds a \\",
        ),
        (
            "escape",
            "write a \\ in a text twice, or the text in single quotes",
        ),
        (
            "unicode",
            "write a \\ in a text twice, or the text in single quotes",
        ),
        ("comment", "take out characters that cannot be seen"),
        (
            "carriage return",
            "save the file with the line ends of your system",
        ),
        (
            "digits",
            "write the number in plain digits with a point, such as 19.75",
        ),
        (
            "number",
            "write the number in plain digits with a point, such as 19.75",
        ),
        (
            "leading zero",
            "write the number in plain digits with a point, such as 19.75",
        ),
    ];
    REMEDIES
        .iter()
        .find(|(words, _)| message.contains(words))
        .map_or(LINES, |(_, remedy)| remedy)
}

/// A text in the quotes of TOML.
fn quote(text: &str) -> String {
    let bare = text.replace('\\', "\\\\").replace('"', "\\\"");
    format!("\"{bare}\"")
}
