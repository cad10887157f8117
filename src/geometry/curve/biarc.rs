//! Chains of lines and circular arcs, and the pair of arcs between two points with tangents.

use super::Vector;

/// A line or arc that starts where the piece before it ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArcPiece {
    /// End point, mm.
    pub to: Vector<2>,
    /// tan of a quarter of the included angle, positive counter-clockwise; 0 is a line.
    pub bulge: f64,
}

/// A chain of lines and arcs.
#[derive(Debug, Clone, PartialEq)]
pub struct ArcPath {
    /// First point, mm.
    pub start: Vector<2>,
    /// The pieces, in order.
    pub pieces: Vec<ArcPiece>,
}

impl ArcPath {
    /// Every piece with its start.
    pub fn steps(&self) -> impl Iterator<Item = (Vector<2>, ArcPiece)> + '_ {
        let starts = std::iter::once(self.start).chain(self.pieces.iter().map(|p| p.to));
        starts.zip(self.pieces.iter().copied())
    }

    /// The last point.
    pub fn end(&self) -> Vector<2> {
        self.pieces.last().map_or(self.start, |p| p.to)
    }

    /// The length, mm.
    pub fn length(&self) -> f64 {
        self.steps().map(|(from, piece)| piece.length(from)).sum()
    }

    /// The distance of a point from the nearest piece, mm; infinite for an empty chain.
    pub fn distance(&self, point: Vector<2>) -> f64 {
        self.steps()
            .map(|(from, piece)| piece.distance(from, point))
            .fold(f64::INFINITY, f64::min)
    }

    /// The chain run through backwards.
    pub fn reversed(&self) -> Self {
        let mut pieces: Vec<ArcPiece> = self
            .steps()
            .map(|(from, piece)| ArcPiece {
                to: from,
                bulge: -piece.bulge,
            })
            .collect();
        pieces.reverse();
        Self {
            start: self.end(),
            pieces,
        }
    }
}

impl ArcPiece {
    /// The arc from `from` along unit `tangent` to `to`.
    pub(super) fn along(from: Vector<2>, tangent: Vector<2>, to: Vector<2>) -> Self {
        let chord = to - from;
        // The chord turns by half the included angle from the tangent.
        let half = tangent.perp(&chord).atan2(tangent.dot(&chord));
        Self {
            to,
            bulge: (0.5 * half).tan(),
        }
    }

    /// A line instead of an arc that rises less than `sagitta` mm above its chord.
    pub(super) fn straightened(self, from: Vector<2>, sagitta: f64) -> Self {
        let flat = (self.bulge * 0.5 * (self.to - from).norm()).abs() <= sagitta;
        Self {
            bulge: if flat { 0.0 } else { self.bulge },
            ..self
        }
    }

    /// Centre and radius, unless it is a line.
    pub fn circle(&self, from: Vector<2>) -> Option<(Vector<2>, f64)> {
        let chord = self.to - from;
        let b = self.bulge;
        if b == 0.0 || chord.norm_squared() == 0.0 {
            return None;
        }
        // The centre lies (1 - b²)/(4b) chords to the left of the middle.
        let left = Vector::from([-chord[1], chord[0]]);
        let centre = (from + self.to) * 0.5 + left * ((1.0 - b * b) / (4.0 * b));
        Some((centre, chord.norm() * (1.0 + b * b) / (4.0 * b.abs())))
    }

    /// Length, mm.
    pub fn length(&self, from: Vector<2>) -> f64 {
        let chord = (self.to - from).norm();
        // Radius times angle, with a series where that would divide 0 by 0.
        let b = self.bulge.abs();
        let stretch = if b < 1e-4 {
            1.0 + b * b * (2.0 / 3.0)
        } else {
            (1.0 + b * b) / b * b.atan()
        };
        chord * stretch
    }

    /// The point at a share (0 to 1) of its length.
    pub fn point(&self, from: Vector<2>, share: f64) -> Vector<2> {
        let chord = self.to - from;
        let half = 2.0 * self.bulge.atan();
        if half.sin().abs() < 1e-12 {
            return from + chord * share;
        }
        // The chord to the point is sin(share·half)/sin(half) long, turned back by (1 - share)·half.
        let (sin, cos) = ((share - 1.0) * half).sin_cos();
        let turned = Vector::from([
            cos * chord[0] - sin * chord[1],
            sin * chord[0] + cos * chord[1],
        ]);
        turned * ((share * half).sin() / half.sin()) + from
    }

    /// Distance of a point, mm.
    pub fn distance(&self, from: Vector<2>, point: Vector<2>) -> f64 {
        Placed::new(from, *self).distance(point)
    }
}

/// A piece with its start and its circle, for the distances of many points.
pub(super) struct Placed {
    from: Vector<2>,
    to: Vector<2>,
    bulge: f64,
    circle: Option<(Vector<2>, f64)>,
}

impl Placed {
    pub fn new(from: Vector<2>, piece: ArcPiece) -> Self {
        Self {
            from,
            to: piece.to,
            bulge: piece.bulge,
            circle: piece.circle(from),
        }
    }

    /// Distance of a point, mm.
    pub fn distance(&self, point: Vector<2>) -> f64 {
        let (start, chord) = (point - self.from, self.to - self.from);
        match self.circle {
            None => {
                let square = chord.norm_squared();
                let t = if square == 0.0 {
                    0.0
                } else {
                    start.dot(&chord) / square
                };
                (start - chord * t.clamp(0.0, 1.0)).norm()
            }
            Some((centre, radius)) => {
                // Inside the wedge when the foot on the circle sees the chord under the arc's angle, on its side.
                let ray = point - centre;
                let reach = ray.norm();
                let foot = centre + ray * (radius / reach.max(f64::MIN_POSITIVE));
                if chord.perp(&(foot - self.from)) * self.bulge <= 0.0 {
                    (reach - radius).abs()
                } else {
                    start.norm().min((point - self.to).norm())
                }
            }
        }
    }
}

/// The two arcs from `p` along unit `s` to `q` along unit `t`, joined with a common tangent, the first tangent length `ratio`
/// times the second; `None` when the points coincide or an arc would turn by more than half a circle.
///
/// Bolton, *Biarc curves*, 1975.
pub(super) fn biarc(
    (p, s): (Vector<2>, Vector<2>),
    (q, t): (Vector<2>, Vector<2>),
    ratio: f64,
) -> Option<[ArcPiece; 2]> {
    let v = q - p;
    let square = v.norm_squared();
    let along = v.dot(&(s * ratio + t));
    let spread = 2.0 * ratio * (1.0 - s.dot(&t)).max(0.0);
    // d solves spread·d² + 2·along·d − v² = 0; this form of the root has no cancellation for along > 0.
    let root = (along * along + spread * square).sqrt();
    let d = if along > 0.0 {
        square / (along + root)
    } else if spread > 1e-12 {
        (root - along) / spread
    } else {
        return None;
    };
    if !(d.is_finite() && d > 0.0) {
        return None;
    }
    let joint = ((p + s * (ratio * d)) + (q - t * d) * ratio) / (1.0 + ratio);
    let first = ArcPiece::along(p, s, joint);
    // The second arc seen from its end, where the tangent is known.
    let second = ArcPiece {
        to: q,
        bulge: -ArcPiece::along(q, -t, joint).bulge,
    };
    let fine = first.bulge.abs() <= 1.0 && second.bulge.abs() <= 1.0;
    fine.then_some([first, second])
}
