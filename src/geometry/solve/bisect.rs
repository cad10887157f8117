//! Bisection.

/// The bracket of a change between `here`, where `holds` is true or taken to be, and `there`, where it is not, halved `halvings` times: the last place
/// found where it holds, and the first where it does not. Needs no slope and no value, only the answer; 50 halvings reach rounding.
pub fn bisect(here: f64, there: f64, halvings: usize, holds: impl Fn(f64) -> bool) -> [f64; 2] {
    let [mut here, mut there] = [here, there];
    for _ in 0..halvings {
        let middle = (here + there) / 2.0;
        if holds(middle) {
            here = middle;
        } else {
            there = middle;
        }
    }
    [here, there]
}

#[cfg(test)]
mod tests {
    use super::bisect;

    /// √2 to rounding, from either side.
    #[test]
    fn a_change_is_closed_in_on() {
        let root = 2.0_f64.sqrt();
        for (here, there) in [(0.0, 2.0), (2.0, 0.0)] {
            let side = |x: f64| (x * x < 2.0) == (here < there);
            let [last, first] = bisect(here, there, 60, side);
            assert!((last - root).abs() < 1e-15 * 4.0 && (first - root).abs() < 1e-15 * 4.0);
        }
    }
}
