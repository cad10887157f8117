//! Blending numbers given at stations into smooth functions along the board.

/// Values given at rising stations, joined by C² quintic pieces that never overshoot; constant beyond the ends.
///
/// Slopes at inner stations are harmonic means of the neighbouring slopes, zero at a turning point (Fritsch & Butland,
/// *SIAM J. Sci. Stat. Comput.* 5, 1984); second derivatives are zero at every station, so each piece is the quintic
/// Hermite interpolant, monotone for slopes up to twice the chord's.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StationBlend<const K: usize> {
    x: Vec<f64>,
    values: Vec<[f64; K]>,
    slopes: Vec<[f64; K]>,
}

impl<const K: usize> StationBlend<K> {
    /// Takes `(x, values)` in rising x, at least one.
    pub(super) fn new(stations: &[(f64, [f64; K])]) -> Self {
        let x: Vec<f64> = stations.iter().map(|s| s.0).collect();
        let values: Vec<[f64; K]> = stations.iter().map(|s| s.1).collect();
        let n = x.len();
        let chord = |i: usize, k: usize| (values[i + 1][k] - values[i][k]) / (x[i + 1] - x[i]);
        let slopes = (0..n)
            .map(|i| {
                std::array::from_fn(|k| {
                    if i == 0 || i + 1 == n {
                        return 0.0;
                    }
                    let (a, b) = (chord(i - 1, k), chord(i, k));
                    if a * b > 0.0 {
                        2.0 * a * b / (a + b)
                    } else {
                        0.0
                    }
                })
            })
            .collect();
        Self { x, values, slopes }
    }

    /// The blended values at `x`.
    pub(super) fn at(&self, x: f64) -> [f64; K] {
        let next = self.x.partition_point(|s| *s <= x);
        let (Some(first), Some(last)) = (self.values.first(), self.values.last()) else {
            return [0.0; K];
        };
        if next == 0 {
            return *first;
        }
        if next == self.x.len() {
            return *last;
        }
        let i = next - 1;
        let h = self.x[next] - self.x[i];
        let t = (x - self.x[i]) / h;
        let (t3, t4, t5) = (t.powi(3), t.powi(4), t.powi(5));
        let rise = 10.0 * t3 - 15.0 * t4 + 6.0 * t5;
        let (start, end) = (
            t - 6.0 * t3 + 8.0 * t4 - 3.0 * t5,
            -4.0 * t3 + 7.0 * t4 - 3.0 * t5,
        );
        std::array::from_fn(|k| {
            let (a, b) = (self.values[i][k], self.values[next][k]);
            a + (b - a) * rise + h * (self.slopes[i][k] * start + self.slopes[next][k] * end)
        })
    }
}
