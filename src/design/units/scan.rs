//! The small pieces a length is written with: signs, numbers with fractions, unit signs.

use super::{LengthError, Unit};

/// A number as written.
pub(super) struct Quantity {
    /// Its value.
    pub(super) value: f64,
    /// Byte offset of its first character.
    pub(super) start: usize,
}

/// A place in a text, moving forward.
pub(super) struct Scanner<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Scanner<'t> {
    pub(super) const fn new(text: &'t str) -> Self {
        Self { text, at: 0 }
    }

    pub(super) const fn at(&self) -> usize {
        self.at
    }

    pub(super) const fn back_to(&mut self, at: usize) {
        self.at = at;
    }

    pub(super) fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or("")
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Steps over one character that satisfies `wanted`.
    pub(super) fn take(&mut self, wanted: impl Fn(char) -> bool) -> Option<char> {
        let c = self.peek().filter(|&c| wanted(c))?;
        self.at += c.len_utf8();
        Some(c)
    }

    /// Steps over all characters that satisfy `wanted`, and returns them.
    fn take_while(&mut self, wanted: impl Fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let end = rest.find(|c| !wanted(c)).unwrap_or(rest.len());
        self.at += end;
        rest.get(..end).unwrap_or("")
    }

    pub(super) fn skip_space(&mut self) {
        self.take_while(char::is_whitespace);
    }

    pub(super) const fn expected<T>(&self, expected: &'static str) -> Result<T, LengthError> {
        Err(LengthError {
            offset: self.at,
            expected,
        })
    }

    /// A number: `78.125`, `3/4`, `19 3/4`, `19-3/4`, `19¾`.
    pub(super) fn quantity(&mut self) -> Result<Quantity, LengthError> {
        let start = self.at;
        if let Some(part) = self.vulgar() {
            return Ok(Quantity { value: part, start });
        }
        let whole = self.take_while(|c| c.is_ascii_digit());
        if self.peek() == Some(',') {
            return self.expected("`.` as the decimal mark");
        }
        if self.take(|c| c == '.').is_some() {
            let decimals = self.take_while(|c| c.is_ascii_digit());
            if decimals.is_empty() {
                return self.expected("a digit after the decimal point");
            }
            if self.peek() == Some(',') {
                return self.expected("no grouping of digits");
            }
            return self.number(start);
        }
        if whole.is_empty() {
            return self.expected("a number");
        }
        if self.peek().is_some_and(is_slash) {
            self.at = start;
            let value = self.fraction(f64::INFINITY)?;
            return Ok(Quantity { value, start });
        }
        let mut quantity = self.number(start)?;
        if let Some(part) = self.vulgar() {
            quantity.value += part;
        } else if self.mixed_follows() {
            self.take_while(is_joint);
            quantity.value += self.fraction(1.0)?;
        }
        Ok(quantity)
    }

    /// The number written from `start` to here.
    fn number(&self, start: usize) -> Result<Quantity, LengthError> {
        let written = self.text.get(start..self.at).unwrap_or("");
        match written.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(Quantity { value, start }),
            _ => Err(LengthError {
                offset: start,
                expected: "a number that is not so large",
            }),
        }
    }

    /// Whether a joint, digits and a slash come next: the fraction of a mixed number.
    fn mixed_follows(&self) -> bool {
        let rest = self.rest().trim_start_matches(is_joint);
        let after = rest.trim_start_matches(|c: char| c.is_ascii_digit());
        rest.len() < self.rest().len() && after.len() < rest.len() && after.starts_with(is_slash)
    }

    /// `numerator/denominator`, below `limit`.
    fn fraction(&mut self, limit: f64) -> Result<f64, LengthError> {
        let start = self.at;
        self.take_while(|c| c.is_ascii_digit());
        let numerator = self.number(start)?.value;
        self.take(is_slash);
        let below = self.at;
        if self.take_while(|c| c.is_ascii_digit()).is_empty() {
            return self.expected("the fraction's denominator");
        }
        let denominator = self.number(below)?.value;
        if denominator == 0.0 {
            return Err(LengthError {
                offset: below,
                expected: "a denominator other than zero",
            });
        }
        let value = numerator / denominator;
        if value >= limit {
            return Err(LengthError {
                offset: start,
                expected: "a fraction below one after a whole number",
            });
        }
        Ok(value)
    }

    /// One of the ready-made fraction characters.
    fn vulgar(&mut self) -> Option<f64> {
        let value = match self.peek()? {
            '½' => 0.5,
            '¼' => 0.25,
            '¾' => 0.75,
            '⅛' => 0.125,
            '⅜' => 0.375,
            '⅝' => 0.625,
            '⅞' => 0.875,
            _ => return None,
        };
        self.take(|_| true);
        Some(value)
    }

    /// A unit's sign or name, if one comes next.
    pub(super) fn unit(&mut self) -> Result<Option<Unit>, LengthError> {
        if self.take(is_inch_mark).is_some() {
            return Ok(Some(Unit::In));
        }
        if self.take(is_foot_mark).is_some() {
            let doubled = self.take(is_foot_mark).is_some();
            return Ok(Some(if doubled { Unit::In } else { Unit::Ft }));
        }
        let start = self.at;
        let word = self.take_while(char::is_alphabetic).to_lowercase();
        Ok(Some(match word.as_str() {
            "" => return Ok(None),
            "mm" => Unit::Mm,
            "cm" => Unit::Cm,
            "m" => Unit::M,
            "in" | "inch" | "inches" => Unit::In,
            "ft" | "foot" | "feet" => Unit::Ft,
            _ => {
                self.at = start;
                return self.expected("a unit: mm, cm, m, in or ft");
            }
        }))
    }
}

/// What may stand between a whole number and its fraction.
fn is_joint(c: char) -> bool {
    c.is_whitespace() || c == '-'
}

/// The slash of a fraction, typed or typeset.
const fn is_slash(c: char) -> bool {
    matches!(c, '/' | '\u{2044}')
}

/// Inch marks: typed, double prime, typographic double quotes.
const fn is_inch_mark(c: char) -> bool {
    matches!(c, '"' | '\u{2033}' | '\u{201c}' | '\u{201d}')
}

/// Foot marks: typed, prime, typographic single quotes.
const fn is_foot_mark(c: char) -> bool {
    matches!(c, '\'' | '\u{2032}' | '\u{2018}' | '\u{2019}')
}
