//! The deck from its centre to the apex, as a shape of unit width and height.
//!
//! `fullness` gives the handle at the apex, `crown` the fall of the deck half way out. Both together fix the curve:
//!
//! * In the middle of the range it is the cubic (0, 1), (b, 1), (1, a), (1, 0): a from the fullness, b from the crown.
//! * A flatter deck keeps its b below [`TOP`] and lifts its middle instead, as a spline of four spans. At crown 0 the
//!   first span is level and reaches farther than half way out.
//! * A more domed deck keeps its b above [`FLOOR`], so that it gets no ridge, and lowers a instead. Near [`MOST_CROWN`]
//!   b must shrink too, since no convex curve falls half its height half way out.
//!
//! All joints between the three are C². Control polygons are convex, and so is every deck. With less crown b, a and
//! lift only grow, so that no point of the deck falls.

use crate::geometry::curve::Vector;
use crate::geometry::solve::bisect;

/// The greatest crown, as a fraction of the deck's height over the apex. A straight line from the deck's centre to the
/// apex would have a half.
pub(super) const MOST_CROWN: f64 = 0.45;

/// Between these two b follows from the crown alone. Every fullness has its default crown between them.
const FREE: [f64; 2] = [0.3, 0.85];
/// The limit of b for a flat deck: at 1 the curvature at the apex would be nothing.
const TOP: f64 = 0.95;
/// The limit of b for a domed deck, but for the shrinking near the greatest crown.
const FLOOR: f64 = 0.24;
/// Crown from which b shrinks, and the fraction it loses up to the greatest crown.
const SHRINK: (f64, f64) = (0.27, 0.75);

/// What fixes a deck's curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Deck {
    /// Handle at the deck's centre, as a fraction of the half-width (b).
    pub reach: f64,
    /// Handle at the apex, as a fraction of the deck's height above it (a).
    pub rise: f64,
    /// How much of the way from the cubic to the level deck, 0 to 1.
    pub lift: f64,
}

impl Deck {
    /// The deck of a fullness (0 to 1) that falls by `crown`, a fraction of its height, half way out.
    pub(super) fn new(fullness: f64, crown: f64) -> Self {
        let rise = 0.4 + 0.5 * fullness;
        let free = reach_for(rise, crown);
        if free > FREE[1] {
            let reach = eased(free, FREE[1], TOP);
            let lift = 1.0 - crown / fall(half_way(reach), rise);
            return Self {
                reach,
                rise,
                lift: lift.clamp(0.0, 1.0),
            };
        }
        if free >= FREE[0] {
            return Self {
                reach: free,
                rise,
                lift: 0.0,
            };
        }
        let (from, loss) = SHRINK;
        let near = ((crown - from) / (MOST_CROWN - from)).clamp(0.0, 1.0);
        let reach = eased(free, FREE[0], FLOOR) * (1.0 - loss * near.powi(3));
        let t = half_way(reach);
        let rise = 1.0 - (crown - t.powi(3)) / (3.0 * (1.0 - t) * t * t);
        Self {
            reach,
            rise: rise.clamp(0.0, 1.0),
            lift: 0.0,
        }
    }

    /// Bézier points (y, z) from the deck's centre (0, 1) to the apex (1, 0): one segment, or four whose ends are shared.
    pub(super) fn points(&self) -> Vec<Vector<2>> {
        let p = |y: f64, z: f64| Vector::<2>::new(y, z);
        let (b, a) = (self.reach, self.rise);
        if self.lift <= 0.0 {
            return vec![p(0.0, 1.0), p(b, 1.0), p(1.0, a), p(1.0, 0.0)];
        }
        // The cubic as a spline of four equal spans, its third and fourth points from the centre lifted to a level
        // line, and the next one the more, the fuller the rail.
        let third = 0.5 - 0.40625 * a;
        let d = [
            p(0.0, 1.0),
            p(0.25 * b, 1.0),
            p(
                0.125 + 0.5 * b,
                0.875 + 0.125 * a + self.lift * 0.125 * (1.0 - a),
            ),
            p(0.5 + 0.40625 * b, 0.5 + 0.40625 * a + self.lift * third),
            p(
                0.875 + 0.125 * b,
                0.125 + 0.5 * a + self.lift * (a - 0.4) * third,
            ),
            p(1.0, 0.25 * a),
            p(1.0, 0.0),
        ];
        let between = |i: usize, t: f64| d[i] * (1.0 - t) + d[i + 1] * t;
        let (third, half) = (1.0 / 3.0, 0.5);
        let inner = [
            [d[1], between(1, half)],
            [between(2, third), between(2, 2.0 * third)],
            [between(3, third), between(3, 2.0 * third)],
            [between(4, half), d[5]],
        ];
        let mut points = vec![d[0]];
        for (i, [first, second]) in inner.iter().enumerate() {
            points.extend([*first, *second]);
            points.push(match inner.get(i + 1) {
                Some([next, _]) => (second + next) / 2.0,
                None => d[6],
            });
        }
        points
    }
}

/// The cubic's fall from the centre at parameter `t`.
fn fall(t: f64, rise: f64) -> f64 {
    (1.0 - rise) * 3.0 * (1.0 - t) * t * t + t.powi(3)
}

/// The b of the cubic that falls by `crown` half way out: the fall fixes the parameter, half the width then fixes b.
fn reach_for(rise: f64, crown: f64) -> f64 {
    let [low, high] = bisect(0.0, 1.0, 60, |t| fall(t, rise) <= crown);
    let t = (low + high) / 2.0;
    (0.5 - 3.0 * (1.0 - t) * t * t - t.powi(3)) / (3.0 * (1.0 - t).powi(2) * t)
}

/// The cubic's parameter half way out.
fn half_way(reach: f64) -> f64 {
    let across = |t: f64| 3.0 * (1.0 - t) * t * ((1.0 - t) * reach + t) + t.powi(3);
    let [low, high] = bisect(0.0, 1.0, 60, |t| across(t) <= 0.5);
    (low + high) / 2.0
}

/// `value` beyond `from`, so eased that it never reaches `limit`; the joint at `from` is C².
fn eased(value: f64, from: f64, limit: f64) -> f64 {
    let x = (value - from) / (limit - from);
    // x / √(1 + x²), written so that an endless x gives 1.
    from + (limit - from) / (1.0 + x.powi(-2)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::curve::polyline;

    /// The curve of each segment at t.
    fn segment(b: &[Vector<2>], t: f64) -> Vector<2> {
        let s = 1.0 - t;
        b[0] * (s * s * s)
            + b[1] * (3.0 * s * s * t)
            + b[2] * (3.0 * s * t * t)
            + b[3] * (t * t * t)
    }

    /// A fine polyline from the centre to the apex.
    fn line(deck: &Deck) -> Vec<Vector<2>> {
        let points = deck.points();
        let starts = (0..points.len() - 1).step_by(3);
        let mut line: Vec<Vector<2>> = starts
            .flat_map(|k| (0..400).map(move |i| (k, f64::from(i) / 400.0)))
            .map(|(k, t)| segment(&points[k..k + 4], t))
            .collect();
        line.push(Vector::<2>::new(1.0, 0.0));
        line
    }

    fn height(line: &[Vector<2>], y: f64) -> f64 {
        polyline::height(line, y).expect("on the line")
    }

    fn crowns() -> impl Iterator<Item = f64> {
        (0..=450).map(|i| f64::from(i) / 1000.0)
    }

    const FULLNESS: [f64; 6] = [0.0, 0.28, 0.5, 0.65, 0.8, 1.0];

    /// The fall half way out, read off the curve itself, is the crown; the deck is convex; it falls nowhere with less crown.
    #[test]
    fn a_deck_has_its_crown_and_is_convex_and_orderly() {
        for fullness in FULLNESS {
            let mut below: Option<Vec<f64>> = None;
            for crown in crowns().collect::<Vec<_>>().into_iter().rev() {
                let deck = Deck::new(fullness, crown);
                assert!(deck.rise > 0.0 && deck.reach > 0.0, "{crown}: {deck:?}");
                let line = line(&deck);
                let fell = 1.0 - height(&line, 0.5);
                assert!((fell - crown).abs() < 2e-5, "{fullness}, {crown}: {fell}");
                for w in line.windows(3) {
                    let (a, b) = (w[1] - w[0], w[2] - w[1]);
                    let turn = a.x * b.y - a.y * b.x;
                    assert!(
                        turn < 1e-12,
                        "{fullness}, {crown}: turns {turn} at {}",
                        w[1]
                    );
                }
                let heights: Vec<f64> = (1..100)
                    .map(|i| height(&line, f64::from(i) / 100.0))
                    .collect();
                if let Some(below) = &below {
                    for (h, b) in heights.iter().zip(below) {
                        assert!(h - b > -2e-5, "{fullness}, {crown}: {h} under {b}");
                    }
                }
                below = Some(heights);
            }
        }
    }

    /// A deck without crown is level out to more than half its width; one with the default is the plain cubic.
    #[test]
    fn a_flat_deck_is_level_and_the_default_is_a_cubic() {
        for fullness in FULLNESS {
            let flat = line(&Deck::new(fullness, 0.0));
            assert!((1.0 - height(&flat, 0.54)).abs() < 1e-12);
            let usual = Deck::new(fullness, 0.1);
            assert_eq!(usual.rise, 0.4 + 0.5 * fullness);
            assert_eq!(usual.points().len(), 4);
        }
    }

    /// A fuller rail stands higher beside the apex, on flat, usual and domed decks.
    #[test]
    fn a_fuller_rail_stands_higher() {
        for crown in [0.0, 0.1, 0.2, 0.3] {
            let heights: Vec<f64> = FULLNESS
                .iter()
                .map(|f| height(&line(&Deck::new(*f, crown)), 0.99))
                .collect();
            assert!(
                heights.windows(2).all(|w| w[1] > w[0] - 1e-4),
                "{crown}: {heights:?}"
            );
        }
    }

    /// Curvature has no jump inside, and the curve none to speak of as the crown passes from one kind to the next.
    #[test]
    fn decks_are_smooth() {
        for fullness in FULLNESS {
            let points = Deck::new(fullness, 0.0).points();
            for k in (3..points.len() - 1).step_by(3) {
                let (p, q) = (&points[k - 3..=k], &points[k..=k + 3]);
                assert!((p[3] - p[2] - (q[1] - q[0])).norm() < 1e-15);
                let (before, after) = (p[3] - p[2] * 2.0 + p[1], q[2] - q[1] * 2.0 + q[0]);
                assert!((before - after).norm() < 1e-15);
            }
            // Second differences of the heights by crown: a kink would show as 1/step times more.
            let h = 1e-4;
            let at = |crown: f64, y: f64| height(&line(&Deck::new(fullness, crown)), y);
            for i in (20..4400).step_by(7) {
                let c = f64::from(i) * h;
                for y in [0.25, 0.8] {
                    let first = (at(c + h, y) - at(c - h, y)) / (2.0 * h);
                    let later = (at(c + 4.0 * h, y) - at(c + 2.0 * h, y)) / (2.0 * h);
                    assert!(
                        (later - first).abs() < 0.2,
                        "{fullness}, {c}: {first}, {later}"
                    );
                }
            }
        }
    }
}
