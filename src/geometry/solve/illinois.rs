//! False position.

/// Root of `f` on a bracket with f(a) < 0 ≤ f(b): the Illinois rule (Dowell & Jarratt, *A modified regula falsi method for computing the
/// root of an equation*, BIT 11, 1971), safeguarded by bisection.
///
/// The value at the kept end is halved only when the same end is kept twice running. Halved at every step the rule converges no faster than
/// by a constant factor.
pub fn illinois(
    mut a: f64,
    mut b: f64,
    mut fa: f64,
    mut fb: f64,
    mut f: impl FnMut(f64) -> f64,
) -> f64 {
    // Which end the step before replaced: −1 the first, +1 the last.
    let mut replaced = 0;
    for round in 0..80 {
        let secant = b - fb * (b - a) / (fb - fa);
        let middle = if round % 8 == 7 || secant.is_nan() {
            (a + b) / 2.0
        } else {
            secant
        };
        let value = f(middle);
        if value.abs() < 1e-11 || (b - a).abs() < 1e-15 {
            return middle;
        }
        let side = if value < 0.0 { -1 } else { 1 };
        if side < 0 {
            (a, fa) = (middle, value);
            if replaced == side {
                fb /= 2.0;
            }
        } else {
            (b, fb) = (middle, value);
            if replaced == side {
                fa /= 2.0;
            }
        }
        replaced = side;
    }
    (a + b) / 2.0
}

/// Where `f` changes its sign between two parameters, if its values there differ in sign.
pub fn sign_change(from: f64, to: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    let (a, b) = (f(from), f(to));
    let sign = b.signum();
    (a * b < 0.0).then(|| illinois(from, to, sign * a, sign * b, |v| sign * f(v)))
}

#[cfg(test)]
mod tests {
    use super::illinois;
    use std::cell::Cell;

    /// Roots known in closed form, with the evaluations they take. The rule's order is the cube root of 3 (Dowell & Jarratt 1971), so from a
    /// bracket of 1 to 1e-11 takes some ten evaluations; a rule that converges by a constant factor takes thirty and more.
    #[test]
    fn the_illinois_rule_converges_faster_than_by_a_constant_factor() {
        type Function = fn(f64) -> f64;
        let cases: [(Function, f64, f64, f64); 4] = [
            (|t| t * t - 2.0, 1.0, 2.0, 2.0_f64.sqrt()),
            (|t| t.exp() - 2.0, 0.0, 1.0, 2.0_f64.ln()),
            (|t| t.sin() - 0.5, 0.0, 1.5, std::f64::consts::FRAC_PI_6),
            (|t| 0.3 - 1.0 / (1.0 + t), 0.0, 5.0, 7.0 / 3.0),
        ];
        for (f, a, b, want) in cases {
            let count = Cell::new(0);
            let counted = |t: f64| {
                count.set(count.get() + 1);
                f(t)
            };
            let found = illinois(a, b, f(a), f(b), counted);
            assert!((found - want).abs() < 1e-9, "{found} against {want}");
            assert!(count.get() <= 12, "{} evaluations", count.get());
        }
    }
}
