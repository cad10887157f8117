//! Gauss–Legendre rules.

/// Abscissae and weights of the `n`-point Gauss–Legendre rule on [−1, 1], rising.
///
/// Exact for polynomials of degree `2n − 1`, to about 1e-15. Newton's method on the Legendre polynomial from Tricomi's
/// starting values (Abramowitz & Stegun, 25.4.29 and 22.16.6); an empty rule for `n = 0`.
pub fn gauss_legendre(n: usize) -> Vec<(f64, f64)> {
    let mut rule: Vec<(f64, f64)> = (0..n).map(|i| node(n, i)).collect();
    // Exact symmetry keeps integrals of odd functions at zero.
    for i in 0..n / 2 {
        rule[n - 1 - i] = (-rule[i].0, rule[i].1);
    }
    if n % 2 == 1 {
        rule[n / 2].0 = 0.0;
    }
    rule
}

/// Node `i` from the left of the `n`-point rule, with its weight.
fn node(n: usize, i: usize) -> (f64, f64) {
    let order = n as f64;
    let mut x = -(std::f64::consts::PI * (i as f64 + 0.75) / (order + 0.5)).cos();
    let mut slope = 1.0;
    // Quadratic convergence from a start good to 1/n²: eight rounds are more than enough.
    for _ in 0..8 {
        let (value, derivative) = legendre(n, x);
        slope = derivative;
        x -= value / slope;
    }
    (x, 2.0 / ((1.0 - x * x) * slope * slope))
}

/// The Legendre polynomial of degree `n` and its derivative at an inner `x`.
fn legendre(n: usize, x: f64) -> (f64, f64) {
    let (mut before, mut p) = (0.0, 1.0);
    for k in 0..n {
        let k = k as f64;
        (before, p) = (p, ((2.0 * k + 1.0) * x * p - k * before) / (k + 1.0));
    }
    (p, n as f64 * (x * p - before) / (x * x - 1.0))
}

/// The integral of `f` over `[a, b]` by a given rule on [−1, 1].
pub fn integrate(rule: &[(f64, f64)], a: f64, b: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let (mid, half) = (0.5 * (a + b), 0.5 * (b - a));
    half * rule
        .iter()
        .map(|&(x, w)| w * f(mid + half * x))
        .sum::<f64>()
}
