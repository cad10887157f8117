//! Words made safe for files.

/// `content` on one line, without control characters.
pub(crate) fn printable(content: &str) -> String {
    content
        .chars()
        .map(|c| {
            if matches!(c, '\n' | '\r' | '\t') {
                ' '
            } else {
                c
            }
        })
        .filter(|c| !c.is_control() && !matches!(c, '\u{fffe}' | '\u{ffff}'))
        .collect()
}

/// `content` on one line as text of an XML element.
pub(crate) fn xml(content: &str) -> String {
    printable(content)
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// A name made of ASCII letters, digits, `-` and `_` only, starting with a letter.
pub(crate) fn identifier(name: &str) -> String {
    let mut id: String = name
        .chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() || c == '_' {
                c
            } else {
                '-'
            }
        })
        .collect();
    if !id.starts_with(|c: char| c.is_ascii_alphabetic()) {
        id.insert(0, 'p');
    }
    id
}
