//! Screens and pages as running text.

/// White space of any width as one space: screens break lines.
pub fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A page's entities as characters.
pub fn unescaped(html: &str) -> String {
    let pairs = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&amp;", "&"),
    ];
    pairs
        .iter()
        .fold(html.to_owned(), |text, (from, to)| text.replace(from, to))
}

/// A page's text without its tags, entities as characters.
pub fn untagged(html: &str) -> String {
    let parts = html.split('<').skip(1);
    let words = parts.map(|part| part.split_once('>').map_or("", |(_, words)| words));
    unescaped(&words.collect::<String>())
}
