//! Which spaces a line may not be broken at: inside a measure, before a unit, between a name and its number.

/// The space that no line is broken at: U+00A0.
pub const GLUE: char = '\u{a0}';

/// Symbols that belong to the number before them.
const UNITS: [&str; 22] = [
    "mm", "cm", "m", "in", "ft", "mm²", "m²", "sq", "m³", "cm³", "mm³", "L", "g", "kg", "lb", "N",
    "lbf", "%", "°C", "°F", "°", "×",
];

/// Names that belong to the number after them.
const NAMES: [&str; 6] = ["rib", "course", "strip", "plank", "fin", "step"];

/// `text` with [`GLUE`] in place of every space that would part a fraction, a number and its unit, the sides of a section, or a part and its
/// number. No other character changes.
pub fn glued(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    let mut before = "";
    for (i, word) in text.split(' ').enumerate() {
        if i > 0 {
            out.push(if belong(before, word) { GLUE } else { ' ' });
        }
        out.push_str(word);
        before = word;
    }
    out
}

/// `name` with no place to break a line at.
pub fn unbroken(name: &str) -> String {
    name.replace(' ', &GLUE.to_string())
}

/// Whether two words that follow each other are one thing.
fn belong(before: &str, after: &str) -> bool {
    let before = before.trim_start_matches(['(', '−', '+', '-', '±', '"']);
    let after = after.trim_end_matches([',', '.', ';', ':', ')', '?']);
    let number = |word: &str| {
        word.starts_with(|c: char| c.is_ascii_digit())
            && word.ends_with(|c: char| c.is_ascii_digit())
    };
    let starts_as_number = after.starts_with(|c: char| c.is_ascii_digit());
    // 20 1/2", 6' 4", 6.0 mm, 6.0 × 12.7, sq ft, rib 3.
    (number(before) && (UNITS.contains(&after) || is_fraction(after)))
        || (before.ends_with('\'') && starts_as_number)
        || (before == "×" && starts_as_number)
        || (after == "×" && before.starts_with(|c: char| c.is_ascii_digit()))
        || (UNITS.contains(&before) && after == "×")
        || (before == "sq" && after == "ft")
        || (NAMES.contains(&before) && starts_as_number)
}

/// Whether a word is the broken part of a mixed number, with or without an inch mark: `3/16"`.
fn is_fraction(word: &str) -> bool {
    let digits = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit());
    word.trim_end_matches('"')
        .split_once('/')
        .is_some_and(|(above, below)| digits(above) && digits(below))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_one_thing_stays_together() {
        let shown = |text: &str| glued(text).replace(GLUE, "_");
        for (text, expected) in [
            ("at 20 1/2\" from the tail", "at 20_1/2\" from the tail"),
            ("is 6' 4 3/16\" long", "is 6'_4_3/16\" long"),
            ("(12.7 mm), 3 ribs", "(12.7_mm), 3 ribs"),
            ("6 × 12.7 mm strips", "6_×_12.7_mm strips"),
            ("0.25 in × 0.5 in", "0.25_in_×_0.5_in"),
            ("rib 5, course 4", "rib_5, course_4"),
            (
                "15.12 sq ft; 23 °C and 85 %.",
                "15.12_sq_ft; 23_°C and 85_%.",
            ),
            ("ribs 1 to 4", "ribs 1 to 4"),
        ] {
            assert_eq!(shown(text), expected);
        }
    }
}
