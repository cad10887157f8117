//! Reading one number, length or word, with its fault if it is none.

use toml::{Spanned, de::DeValue};

use super::{
    hint,
    raw::raw_offset,
    renamed,
    source::{Report, Span},
};
use crate::design::units::{Unit, parse_length};

/// The file's report and the unit of its bare numbers; none where `unit` is faulty, so that bare lengths cannot be judged.
pub(super) struct Context<'r, 's> {
    pub(super) report: &'r mut Report<'s>,
    pub(super) unit: Option<Unit>,
}

/// A number without needless zeros, to a thousandth; a huge one to four figures, as `1.235e12`.
pub(super) fn plain(number: f64) -> String {
    /// Beyond it the digits say nothing and a power of ten says all.
    const ORDINARY: f64 = 1e9;
    let shorter = |text: &str| text.trim_end_matches('0').trim_end_matches('.').to_owned();
    if number.abs() >= ORDINARY {
        let text = format!("{number:.3e}");
        return match text.split_once('e') {
            Some((digits, power)) => format!("{}e{power}", shorter(digits)),
            None => text,
        };
    }
    let text = shorter(&format!("{number:.3}"));
    if text == "-0" { "0".to_owned() } else { text }
}

/// The number of an integer or float; `None` if the value is neither.
fn as_number(value: &DeValue<'_>) -> Option<f64> {
    match value {
        // Beyond 2^53 the nearest float is meant; no length comes near.
        DeValue::Integer(i) => Some(
            i64::from_str_radix(i.as_str(), i.radix()).map_or(f64::INFINITY, |whole| whole as f64),
        ),
        DeValue::Float(f) => Some(f.as_str().parse().unwrap_or(f64::NAN)),
        _ => None,
    }
}

/// What a value is, in words.
pub(super) fn found(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

impl Context<'_, '_> {
    /// Notes that a value is not finite; otherwise passes it on.
    fn finite(&mut self, name: &str, number: f64, span: Span) -> Option<f64> {
        if number.is_finite() {
            return Some(number);
        }
        let message = format!("`{name}` must be a finite number");
        let remedy = "write a number in digits that is not so large";
        self.report.add(span, message, remedy);
        None
    }

    /// How a length is written.
    fn length_remedy(&self) -> String {
        let unit = self.unit.map_or("the file's unit", Unit::symbol);
        format!("write a number of {unit}, or text such as \"19 3/4 in\"")
    }

    /// A length in millimetres.
    pub(super) fn length(&mut self, name: &str, value: &Spanned<DeValue<'_>>) -> Option<f64> {
        let span = value.span();
        if let DeValue::String(text) = value.get_ref() {
            return match parse_length(text, self.unit.unwrap_or(Unit::Mm)) {
                // Without a unit of its own it would be in the faulty one.
                Ok(_) if self.unit.is_none() && !text.contains(is_unit_sign) => None,
                Ok(mm) => Some(mm),
                Err(error) => {
                    let raw = self.report.slice(span.clone());
                    let start = span.start + raw_offset(raw, error.offset);
                    let message = format!("`{name}` is not a length: expected {}", error.expected);
                    let remedy = self.length_remedy();
                    self.report.add(start..span.end, message, remedy);
                    None
                }
            };
        }
        let Some(number) = as_number(value.get_ref()) else {
            let found = found(value.get_ref());
            let remedy = self.length_remedy();
            self.report.add(
                span,
                format!("`{name}` must be a length, but this is {found}"),
                remedy,
            );
            return None;
        };
        let number = self.finite(name, number, span)?;
        Some(self.unit?.to_mm(number))
    }

    /// A length in millimetres within its range.
    pub(super) fn length_within(
        &mut self,
        name: &str,
        value: &Spanned<DeValue<'_>>,
        least: f64,
        most: f64,
    ) -> Option<f64> {
        let mm = self.length(name, value)?;
        if (least..=most).contains(&mm) {
            return Some(mm);
        }
        let unit = self.unit.unwrap_or(Unit::Mm);
        let range = range(unit, least, most);
        let message = format!(
            "`{name}` must be from {range}, but this is {} mm",
            plain(mm)
        );
        let remedy = as_number(value.get_ref()).and_then(|bare| {
            let fits = |unit: &Unit| (least..=most).contains(&unit.to_mm(bare));
            let other = Unit::ALL.into_iter().find(fits)?;
            Some(format!(
                "plain numbers here are {}; did you mean \"{bare} {}\"?",
                unit.words(),
                other.symbol()
            ))
        });
        let bound = format!("{} mm", plain(if mm < least { least } else { most }));
        let remedy = remedy.unwrap_or_else(|| nearest_bound(mm < least, &bound));
        self.report.add(value.span(), message, remedy);
        None
    }

    /// A number within its range.
    pub(super) fn number_within(
        &mut self,
        name: &str,
        value: &Spanned<DeValue<'_>>,
        [least, most]: [f64; 2],
        what: &str,
    ) -> Option<f64> {
        let Some(number) = as_number(value.get_ref()) else {
            let found = found(value.get_ref());
            let message = format!("`{name}` must be {what}, but this is {found}");
            let remedy = "write a number without quotes and without a unit";
            self.report.add(value.span(), message, remedy);
            return None;
        };
        let number = self.finite(name, number, value.span())?;
        if (least..=most).contains(&number) {
            return Some(number);
        }
        let below = number < least;
        let (least, most) = (plain(least), plain(most));
        let message = format!("`{name}` must be {what} from {least} to {most}");
        let remedy = nearest_bound(below, if below { &least } else { &most });
        self.report.add(value.span(), message, remedy);
        None
    }

    /// A whole number within its range.
    pub(super) fn count_within(
        &mut self,
        name: &str,
        value: &Spanned<DeValue<'_>>,
        least: u32,
        most: u32,
    ) -> Option<f64> {
        let range = [f64::from(least), f64::from(most)];
        let count = self.number_within(name, value, range, "a whole number")?;
        if count.fract() == 0.0 {
            return Some(count);
        }
        let message = format!("`{name}` must be a whole number");
        let remedy = format!("write {} or {}", plain(count.floor()), plain(count.ceil()));
        self.report.add(value.span(), message, remedy);
        None
    }

    /// A text of so many characters at most.
    pub(super) fn text(
        &mut self,
        name: &str,
        value: &Spanned<DeValue<'_>>,
        most: usize,
    ) -> Option<String> {
        if let DeValue::String(text) = value.get_ref() {
            let length = text.chars().count();
            if length <= most {
                return Some(text.clone().into_owned());
            }
            self.report.add(
                value.span(),
                format!("`{name}` must be at most {most} characters long, but this is {length}"),
                format!("shorten it to {most} characters"),
            );
            return None;
        }
        let found = found(value.get_ref());
        self.report.add(
            value.span(),
            format!("`{name}` must be a text, but this is {found}"),
            "put it in quotes",
        );
        None
    }

    /// One of some words.
    pub(super) fn choice(
        &mut self,
        name: &str,
        value: &Spanned<DeValue<'_>>,
        words: &[&'static str],
    ) -> Option<&'static str> {
        let text = match value.get_ref() {
            DeValue::String(text) => text.as_ref(),
            _ => "",
        };
        if let Some(word) = words.iter().find(|&&word| word == text) {
            return Some(word);
        }
        if let Some(word) = renamed::word(name, text).filter(|word| words.contains(word)) {
            let message = format!("\"{text}\" is now called \"{word}\"");
            let remedy = format!("write `{name} = \"{word}\"`");
            self.report.add(value.span(), message, remedy);
            return None;
        }
        let message = format!("`{name}` must be one of {}", quoted(words));
        let remedy = hint::nearest(text, words.iter().copied())
            .or_else(|| unit_named(text).filter(|unit| words.contains(unit)))
            .map_or_else(
                || "write one of these words, in quotes".to_owned(),
                |word| format!("did you mean \"{word}\"?"),
            );
        self.report.add(value.span(), message, remedy);
        None
    }
}

/// The remedy for a value beyond a bound of its range.
fn nearest_bound(below: bool, bound: &str) -> String {
    match below {
        true => format!("give at least {bound}"),
        false => format!("give at most {bound}"),
    }
}

/// A range of lengths in words, in millimetres and in the file's unit.
fn range(unit: Unit, least: f64, most: f64) -> String {
    let mut range = format!("{} mm to {} mm", plain(least), plain(most));
    if unit != Unit::Mm {
        let [from, to] = [least, most].map(|mm| plain(unit.from_mm(mm)));
        let symbol = unit.symbol();
        range += &format!(" ({from} {symbol} to {to} {symbol})");
    }
    range
}

/// Whether a character of a length is part of a unit rather than of a number.
fn is_unit_sign(c: char) -> bool {
    c.is_alphabetic() || "'\"\u{2032}\u{2033}\u{2018}\u{2019}\u{201c}\u{201d}".contains(c)
}

/// The symbol of a unit that is named in another way: `inch`, `feet`.
fn unit_named(name: &str) -> Option<&'static str> {
    let mm = parse_length(&format!("1 {name}"), Unit::Mm).ok()?;
    let named = |unit: &Unit| !name.is_empty() && unit.in_mm() == mm;
    Some(Unit::ALL.into_iter().find(named)?.symbol())
}

/// Words in quotes: `"pin", "round"`.
pub(super) fn quoted(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    quoted.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_numbers() {
        assert_eq!(plain(12.7), "12.7");
        assert_eq!(plain(250.0), "250");
        assert_eq!(plain(-0.000_01), "0");
        assert_eq!(plain(1.0 / 3.0), "0.333");
        assert_eq!(plain(999_999_999.25), "999999999.25");
        assert_eq!(plain(1e9), "1e9");
        assert_eq!(plain(-1.234_56e12), "-1.235e12");
        assert_eq!(plain(1e308), "1e308");
    }
}
