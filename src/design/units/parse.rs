//! Reading a length.

use super::{LengthError, Unit, scan::Quantity, scan::Scanner};

/// Reads a length and returns it in millimetres.
///
/// Understood are a number with a unit (`1985 mm`, `2.6 m`, `78.125in`, `20 1/2 in`, `19¾"`), feet and inches (`6' 6"`,
/// `6ft 6in`, `6'-4 1/2"`), feet and inches without the inch mark (`6'4`), and a number alone, which is in `bare`. Primes
/// and typographic quotes stand for typed ones. A leading `-`, `−` or `+` is the sign.
///
/// # Errors
///
/// Says what was expected and at which byte.
///
/// ```
/// use boardwright::design::units::{Unit, parse_length};
///
/// assert_eq!(parse_length("6' 4 1/2\"", Unit::Mm), Ok(76.5 * 25.4));
/// assert_eq!(parse_length("2,6 m", Unit::Mm).unwrap_err().offset, 1);
/// ```
pub fn parse_length(text: &str, bare: Unit) -> Result<f64, LengthError> {
    let mut scanner = Scanner::new(text);
    scanner.skip_space();
    let negative = scanner
        .take(|c| matches!(c, '-' | '+' | '\u{2212}'))
        .is_some_and(|sign| sign != '+');
    scanner.skip_space();
    let first = scanner.quantity()?;
    scanner.skip_space();
    let magnitude = match scanner.unit()? {
        Some(Unit::Ft) => feet(&first, &mut scanner)?,
        Some(unit) => unit.to_mm(first.value),
        None => bare.to_mm(first.value),
    };
    scanner.skip_space();
    if scanner.peek().is_some() {
        return scanner.expected("a unit, or nothing more");
    }
    if !magnitude.is_finite() {
        return Err(LengthError {
            offset: first.start,
            expected: "a number that is not so large",
        });
    }
    Ok(if negative { -magnitude } else { magnitude })
}

/// Feet read so far, and the inches that may follow, in millimetres.
fn feet(feet: &Quantity, scanner: &mut Scanner<'_>) -> Result<f64, LengthError> {
    scanner.skip_space();
    if scanner.peek().is_none() {
        return Ok(Unit::Ft.to_mm(feet.value));
    }
    if feet.value.fract() != 0.0 {
        return Err(LengthError {
            offset: feet.start,
            expected: "whole feet before inches",
        });
    }
    scanner.take(|c| c == '-');
    scanner.skip_space();
    let inches = scanner.quantity()?;
    if inches.value >= 12.0 {
        scanner.back_to(inches.start);
        return scanner.expected("less than 12 inches after feet");
    }
    scanner.skip_space();
    let mark = scanner.at();
    if !matches!(scanner.unit()?, None | Some(Unit::In)) {
        scanner.back_to(mark);
        return scanner.expected("inches after feet");
    }
    Ok(Unit::In.to_mm(feet.value.mul_add(12.0, inches.value)))
}
