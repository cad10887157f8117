//! Length and signed area of paths.

use super::{Path, Point, Primitive, Segment, arc};

/// Nodes and weights of the five-point Gauss-Legendre rule on [-1, 1], the mirrored ones left out.
const GAUSS: [(f64, f64); 3] = [
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// Twice-halved pieces at most; 2^20 pieces are beyond any accuracy that can be asked for.
const MAX_DEPTH: u32 = 20;

impl Segment {
    /// Length from `from`, mm. Lines and arcs are exact; a cubic is integrated until two estimates of
    /// every piece agree within its share of `accuracy`: lyon's own length takes a tolerance of the shape, not of the length.
    pub fn length(&self, from: Point, accuracy: f64) -> f64 {
        match self.primitive(from) {
            Primitive::Line(line) => line.length(),
            Primitive::Arc(_) => arc::length(from, self.to(), self.bulge()),
            Primitive::Cubic(cubic) => {
                let speed = |t: f64| cubic.derivative(t).length();
                refine(&speed, 0.0, 1.0, gauss(&speed, 0.0, 1.0), accuracy, 0)
            }
        }
    }

    /// Area swept by the ray from `origin` along the segment; summed round a closed path it is the
    /// signed area. Exact for all three kinds.
    fn swept_area(&self, from: Point, origin: Point) -> f64 {
        let cross = |a: Point, b: Point| {
            ((a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y)) / 2.0
        };
        match *self {
            Self::Line { to } => cross(from, to),
            Self::Arc { to, bulge } => cross(from, to) + arc_cap(from, to, bulge),
            // Half the integral of x dy − y dx of a cubic, as a sum over pairs of control points.
            Self::Cubic { c1, c2, to } => {
                (6.0 * cross(from, c1)
                    + 3.0 * cross(from, c2)
                    + cross(from, to)
                    + 3.0 * cross(c1, c2)
                    + 3.0 * cross(c1, to)
                    + 6.0 * cross(c2, to))
                    / 10.0
            }
        }
    }
}

/// Signed area between an arc and its chord: c² (θ − sin θ) / (8 sin²(θ/2)).
fn arc_cap(from: Point, to: Point, bulge: f64) -> f64 {
    let chord2 = (to - from).norm_squared();
    let sweep = 4.0 * bulge.atan();
    if sweep.abs() < 1e-3 {
        return chord2 * sweep / 12.0;
    }
    let sin_half = (sweep / 2.0).sin();
    chord2 * (sweep - sweep.sin()) / (8.0 * sin_half * sin_half)
}

fn gauss(speed: &impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
    let (mid, half) = ((a + b) / 2.0, (b - a) / 2.0);
    let sum: f64 = GAUSS
        .iter()
        .map(|&(node, weight)| {
            if node == 0.0 {
                weight * speed(mid)
            } else {
                weight * (speed(mid - half * node) + speed(mid + half * node))
            }
        })
        .sum();
    sum * half
}

fn refine(
    speed: &impl Fn(f64) -> f64,
    a: f64,
    b: f64,
    whole: f64,
    accuracy: f64,
    depth: u32,
) -> f64 {
    let mid = (a + b) / 2.0;
    let (left, right) = (gauss(speed, a, mid), gauss(speed, mid, b));
    let gap = (left + right - whole).abs();
    if gap <= accuracy || depth >= MAX_DEPTH || !gap.is_finite() {
        return left + right;
    }
    refine(speed, a, mid, left, accuracy / 2.0, depth + 1)
        + refine(speed, mid, b, right, accuracy / 2.0, depth + 1)
}

impl Path {
    /// Length, mm, each cubic within `accuracy`; see [`Segment::length`].
    pub fn length(&self, accuracy: f64) -> f64 {
        self.pieces()
            .map(|(from, segment)| segment.length(from, accuracy))
            .sum()
    }

    /// Signed area, mm², positive counter-clockwise, exact for lines, arcs and cubics. An open path is
    /// closed by its chord.
    pub fn area(&self) -> f64 {
        self.pieces()
            .map(|(from, segment)| segment.swept_area(from, self.start))
            .sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn a_circle_has_its_closed_form_area_and_length() {
        let circle = Path::circle(Point::new(500.0, -300.0), 12.5);
        assert!((circle.area() - PI * 12.5 * 12.5).abs() < 1e-9);
        assert!((circle.length(1e-9) - 25.0 * PI).abs() < 1e-9);
        assert!((circle.reversed().area() + circle.area()).abs() < 1e-9);
    }

    #[test]
    fn cubic_area_and_length_agree_with_fine_chords() {
        let path = Path {
            start: Point::new(100.0, 100.0),
            segments: vec![
                Segment::Cubic {
                    c1: Point::new(130.0, 90.0),
                    c2: Point::new(180.0, 160.0),
                    to: Point::new(200.0, 110.0),
                },
                Segment::Arc {
                    to: Point::new(150.0, 180.0),
                    bulge: 0.7,
                },
                Segment::Line {
                    to: Point::new(100.0, 100.0),
                },
            ],
            closed: true,
        };
        let points = path.flatten(1e-6);
        let shoelace: f64 = points
            .windows(2)
            .map(|w| {
                ((w[0].x - 100.0) * (w[1].y - 100.0) - (w[1].x - 100.0) * (w[0].y - 100.0)) / 2.0
            })
            .sum();
        let chords: f64 = points.windows(2).map(|w| (w[1] - w[0]).norm()).sum();
        assert!(
            (path.area() - shoelace).abs() < 1e-3,
            "{} {shoelace}",
            path.area()
        );
        assert!((path.length(1e-8) - chords).abs() < 1e-4);
    }

    #[test]
    fn a_shallow_arc_keeps_its_precision() {
        let (chord, sweep) = (100.0f64, 1.1e-3f64);
        let exact = |sweep: f64| {
            // Series of c² (θ − sin θ) / (8 sin²(θ/2)).
            chord * chord * sweep / 12.0 * (1.0 + sweep * sweep / 30.0)
        };
        for sweep in [sweep, sweep / 2.0] {
            let cap = arc_cap(Point::zeros(), Point::new(chord, 0.0), (sweep / 4.0).tan());
            assert!((cap / exact(sweep) - 1.0).abs() < 1e-6);
        }
    }
}
