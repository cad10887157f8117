//! Decimal numbers for files: rounded, shortest, locale-free, and never "-0".

/// Decimals of a coordinate; see [`GRAIN`](crate::geometry::path::GRAIN).
pub(crate) const COORDINATE: u32 = 4;
/// Decimals of a bulge: over a 3 m chord the last one moves an arc by 1.5e-6 mm.
pub(crate) const BULGE: u32 = 9;

/// What stands for a number that is none.
const NONE: &str = "–";

/// Coordinate in whole grains.
pub(crate) fn grains(value: f64) -> i64 {
    (value * 1e4).round() as i64
}

/// Appends `value` rounded to `decimals` places (at most 9), without trailing zeros; a dash where it is no number.
pub(crate) fn push(out: &mut String, value: f64, decimals: u32) {
    if !value.is_finite() {
        // Writers refuse it before; nothing a file says may pass for a number that is none.
        out.push_str(NONE);
        return;
    }
    let scale = 10u64.pow(decimals);
    let scaled = (value * scale as f64).round();
    // Below 2^53 the scaled number is exact; no board comes near that.
    if scaled.abs() < 9.0e15 {
        push_scaled(out, scaled as i64, decimals);
    } else {
        out.push_str(&format!("{value}"));
    }
}

/// Appends `scaled` / 10^`decimals`.
pub(crate) fn push_scaled(out: &mut String, scaled: i64, decimals: u32) {
    if scaled < 0 {
        out.push('-');
    }
    let scale = 10u64.pow(decimals);
    let magnitude = scaled.unsigned_abs();
    push_whole(out, magnitude / scale, 1);
    let mut fraction = magnitude % scale;
    if fraction > 0 {
        let mut places = decimals as usize;
        while fraction.is_multiple_of(10) {
            fraction /= 10;
            places -= 1;
        }
        out.push('.');
        push_whole(out, fraction, places);
    }
}

/// Appends a whole number with at least `places` digits.
fn push_whole(out: &mut String, mut value: u64, places: usize) {
    let mut digits = [b'0'; 20];
    let mut first = digits.len();
    while value > 0 {
        first -= 1;
        digits[first] = b'0' + (value % 10) as u8;
        value /= 10;
    }
    first = first.min(digits.len() - places);
    for &digit in &digits[first..] {
        out.push(char::from(digit));
    }
}

/// `value` rounded, as text.
pub(crate) fn text(value: f64, decimals: u32) -> String {
    let mut out = String::new();
    push(&mut out, value, decimals);
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_are_short_and_have_no_minus_zero() {
        let cases = [
            (0.0, "0"),
            (-0.0, "0"),
            (-0.00004, "0"),
            (-0.00006, "-0.0001"),
            (1.5, "1.5"),
            (1e9, "1000000000"),
            (-377.952_755, "-377.9528"),
            (0.9999, "0.9999"),
            (0.999_96, "1"),
            (12.0304, "12.0304"),
            (1e20, "100000000000000000000"),
        ];
        for (value, expected) in cases {
            assert_eq!(text(value, COORDINATE), expected);
        }
    }

    proptest! {
        #[test]
        fn reading_back_gives_the_rounded_number(value in -1e6..1e6f64) {
            let back: f64 = text(value, 4).parse().unwrap_or(f64::NAN);
            prop_assert!((back - value).abs() <= 0.500001e-4);
            let back: f64 = text(value / 1e6, 9).parse().unwrap_or(f64::NAN);
            prop_assert!((back - value / 1e6).abs() <= 0.500001e-9);
        }
    }
}
