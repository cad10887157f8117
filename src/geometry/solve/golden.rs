//! Golden-section search.

/// Where `f` is greatest between `low` and `high`, to a millionth of a millionth of their distance, if it has one peak there (Kiefer, *Sequential minimax search
/// for a maximum*, 1953). A peak is as flat as rounding lets it be: its place is good to the root of that.
fn golden(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let ratio = (5.0_f64.sqrt() - 1.0) / 2.0;
    let [mut low, mut high] = [low, high];
    for _ in 0..60 {
        let (p, q) = (high - ratio * (high - low), low + ratio * (high - low));
        if f(p) > f(q) {
            high = q;
        } else {
            low = p;
        }
    }
    (low + high) / 2.0
}

/// Where `f` is greatest between `low` and `high`: the best of `steps` + 1 samples, then golden sections between its neighbours.
pub fn greatest(low: f64, high: f64, steps: usize, f: impl Fn(f64) -> f64) -> f64 {
    let at = |i: usize| low + (high - low) * i as f64 / steps as f64;
    let samples: Vec<f64> = (0..=steps).map(|i| f(at(i))).collect();
    let best = (0..=steps)
        .max_by(|&i, &j| samples[i].total_cmp(&samples[j]))
        .unwrap_or(0);
    golden(at(best.saturating_sub(1)), at((best + 1).min(steps)), f)
}

#[cfg(test)]
mod tests {
    use super::greatest;

    /// sin has its peaks at π/2 and 5π/2, the greater of a rising sine at the second.
    #[test]
    fn the_highest_of_two_peaks_is_found() {
        let f = |x: f64| x.sin() + 0.01 * x;
        // cos x = −0.01.
        let peak = (-0.01_f64).acos() + std::f64::consts::TAU;
        assert!((greatest(0.0, 9.0, 100, f) - peak).abs() < 1e-7);
    }
}
