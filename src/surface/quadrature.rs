//! Gauss–Legendre quadrature.

/// Nodes and weights of the `N`-point Gauss–Legendre rule on [-1, 1]; exact for polynomials of degree 2N - 1.
///
/// Newton's method on the Legendre polynomial from Tricomi's starting values (Abramowitz & Stegun 25.4.29).
pub fn gauss_legendre<const N: usize>() -> [(f64, f64); N] {
    std::array::from_fn(|i| {
        let n = N as f64;
        let mut x = -(std::f64::consts::PI * (i as f64 + 0.75) / (n + 0.5)).cos();
        let mut slope = 1.0;
        for _ in 0..20 {
            let (mut p, mut before) = (1.0, 0.0);
            for k in 0..N {
                let k = k as f64;
                (p, before) = (((2.0 * k + 1.0) * x * p - k * before) / (k + 1.0), p);
            }
            slope = n * (x * p - before) / (x * x - 1.0);
            let step = p / slope;
            x -= step;
            if step.abs() < 1e-16 {
                break;
            }
        }
        (x, 2.0 / ((1.0 - x * x) * slope * slope))
    })
}
