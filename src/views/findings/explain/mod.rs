//! What each code means: where its value is measured, why it comes about, what to change, and where its limit is from.

mod fittings;
mod frame;
mod rail;
mod shape;
mod skins;
mod strips;

use crate::design::finding::{Code, Topic};

/// A code explained.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Explanation {
    /// What is measured, and where.
    pub meaning: &'static str,
    /// Why it comes about.
    pub cause: &'static str,
    /// A drawing in lines of text, at most 76 characters wide.
    pub sketch: &'static str,
    /// What to change, the easiest first.
    pub remedies: &'static [&'static str],
    /// The limit and its source.
    pub limit: &'static str,
}

/// The explanation of `code`.
pub fn explain(code: Code) -> Explanation {
    match code.topic() {
        Topic::Shape => shape::explain(code),
        Topic::Frame => frame::explain(code),
        Topic::Rail => rail::explain(code),
        Topic::Strips => strips::explain(code),
        Topic::Skins => skins::explain(code),
        Topic::Fittings | Topic::Float => fittings::explain(code),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_is_explained_by_itself() {
        let mut meanings = std::collections::BTreeSet::new();
        for code in Code::ALL {
            let e = explain(*code);
            let name = code.name();
            assert!(e.meaning.len() > 30 && e.cause.len() > 20, "{name}");
            assert!(!e.limit.is_empty() && !e.remedies.is_empty(), "{name}");
            assert!(meanings.insert(e.meaning), "{name}: as another");
            assert!(e.sketch.lines().count() >= 4, "{name}");
            for line in e.sketch.lines() {
                assert!(line.chars().count() <= 76, "{name}: {line}");
                assert_eq!(line, line.trim_end(), "{name}");
            }
        }
    }
}
