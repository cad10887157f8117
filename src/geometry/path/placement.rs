//! Moving paths rigidly: turn, shift, mirror.

use super::{Path, Point, Segment};

/// A rigid motion of the plane: mirror first (y changes sign), then turn, then shift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placement {
    /// Turn, radians, counter-clockwise.
    pub angle: f64,
    /// Shift, mm.
    pub shift: nalgebra::Vector2<f64>,
    /// Whether y changes sign before the turn.
    pub mirrored: bool,
}

impl Placement {
    /// Nothing moves.
    pub fn identity() -> Self {
        Self::shift(0.0, 0.0)
    }

    /// A shift.
    pub fn shift(x: f64, y: f64) -> Self {
        Self {
            angle: 0.0,
            shift: nalgebra::Vector2::new(x, y),
            mirrored: false,
        }
    }

    /// A turn about the origin.
    pub fn turn(angle: f64) -> Self {
        Self {
            angle,
            ..Self::identity()
        }
    }

    /// A turn about `centre`.
    pub fn turn_about(centre: Point, angle: f64) -> Self {
        Self::shift(-centre.x, -centre.y)
            .then(Self::turn(angle))
            .then(Self::shift(centre.x, centre.y))
    }

    /// A mirror in the line through the origin at `angle`: 0 is the x axis, π/2 the y axis.
    pub fn mirror(angle: f64) -> Self {
        Self {
            angle: 2.0 * angle,
            mirrored: true,
            ..Self::identity()
        }
    }

    /// This motion followed by `next`.
    pub fn then(self, next: Self) -> Self {
        let shift = next.apply(self.shift);
        Self {
            angle: next.angle
                + if next.mirrored {
                    -self.angle
                } else {
                    self.angle
                },
            shift,
            mirrored: self.mirrored != next.mirrored,
        }
    }

    /// Where `point` goes.
    pub fn apply(&self, point: Point) -> Point {
        let (sin, cos) = quarter_exact(self.angle);
        let y = if self.mirrored { -point.y } else { point.y };
        Point::new(
            cos * point.x - sin * y + self.shift.x,
            sin * point.x + cos * y + self.shift.y,
        )
    }
}

/// Sine and cosine that are exact at whole quarter turns, so that square work stays square.
fn quarter_exact(angle: f64) -> (f64, f64) {
    let (sin, cos) = angle.sin_cos();
    let snap = |v: f64| {
        if v.abs() < 1e-15 {
            0.0
        } else if (v.abs() - 1.0).abs() < 1e-15 {
            v.signum()
        } else {
            v
        }
    };
    (snap(sin), snap(cos))
}

impl Segment {
    /// The segment moved; a mirror changes the sign of a bulge.
    pub fn transform(&self, placement: &Placement) -> Self {
        match *self {
            Self::Line { to } => Self::Line {
                to: placement.apply(to),
            },
            Self::Arc { to, bulge } => Self::Arc {
                to: placement.apply(to),
                bulge: if placement.mirrored { -bulge } else { bulge },
            },
            Self::Cubic { c1, c2, to } => Self::Cubic {
                c1: placement.apply(c1),
                c2: placement.apply(c2),
                to: placement.apply(to),
            },
        }
    }
}

impl Path {
    /// The path moved.
    pub fn transform(&self, placement: &Placement) -> Self {
        Self {
            start: placement.apply(self.start),
            segments: self
                .segments
                .iter()
                .map(|segment| segment.transform(placement))
                .collect(),
            closed: self.closed,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_2;

    fn slot() -> Path {
        Path {
            start: Point::new(1.0, 2.0),
            segments: vec![
                Segment::Line {
                    to: Point::new(11.0, 2.0),
                },
                Segment::Arc {
                    to: Point::new(11.0, 6.0),
                    bulge: 0.6,
                },
                Segment::Cubic {
                    c1: Point::new(9.0, 8.0),
                    c2: Point::new(3.0, 5.0),
                    to: Point::new(1.0, 2.0),
                },
            ],
            closed: true,
        }
    }

    #[test]
    fn area_survives_a_motion_and_changes_sign_in_a_mirror() {
        let path = slot();
        let moved = path.transform(&Placement::turn(0.7).then(Placement::shift(30.0, -9.0)));
        assert!((moved.area() - path.area()).abs() < 1e-9);
        let mirrored = path.transform(&Placement::mirror(0.4));
        assert!((mirrored.area() + path.area()).abs() < 1e-9);
    }

    #[test]
    fn motions_compose_in_order() {
        let a = Placement::mirror(0.3).then(Placement::shift(4.0, 1.0));
        let b = Placement::turn_about(Point::new(2.0, 5.0), 1.1).then(Placement::mirror(FRAC_PI_2));
        let p = Point::new(-3.0, 8.0);
        assert!((b.apply(a.apply(p)) - a.then(b).apply(p)).norm() < 1e-12);
    }
}
