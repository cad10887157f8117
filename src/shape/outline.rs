//! The plan shape.

use super::{End, ShellError};
use crate::design::{Design, Nose, Outline, OutlineBody, Tail};
use crate::geometry::curve::{
    BSpline, CurveError, FairCurve, KnotVector, Vector, gauss_legendre, integrate,
};
use crate::geometry::solve::bisect;

/// Where the trade measures widths and thicknesses near the ends: 12 in from the tip, mm.
pub const TWELVE_INCHES: f64 = 304.8;

/// The starboard outline from tail to nose, and the cleft of a swallow tail.
///
/// The outline is the plane curve of least variation of curvature through the given points and end directions: a quintic
/// spline that minimises ∫|C‴|² ds (Moreton & Séquin, *Functional optimization for fair surface design*, SIGGRAPH 1992,
/// linearised about an arc-length parameter that is improved a few times). Widths are stretched to the length first, so
/// that the fairest outline is an ellipse rather than a circle; unstretched, a full nose makes the sides bulge.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanShape {
    curve: BSpline<2>,
    ends: [End; 2],
    /// Whether tail and nose close at an angle rather than square.
    pointed: [bool; 2],
    /// Half the tip-to-tip width and the depth of a cleft, mm.
    cleft: Option<[f64; 2]>,
}

/// A point the outline passes, and the normal of its direction there if that is fixed.
struct Station {
    point: Vector<2>,
    normal: Option<Vector<2>>,
    /// Whether curvature may jump here, as where the round of a corner ends.
    corner: bool,
}

impl PlanShape {
    /// Draws the outline of `design`.
    pub fn new(design: &Design) -> Result<Self, ShellError> {
        let stations = stations(design);
        let widest = stations.iter().map(|s| s.point.y).fold(0.0, f64::max);
        let stretch = design.length / (2.0 * widest);
        let curve = fair_through(&stations, stretch).map_err(ShellError::curve("outline"))?;
        let outline = &design.outline;
        let (tail_pointed, cleft) = match outline.tail {
            Tail::Pin { .. } => (true, None),
            Tail::Round | Tail::Square { .. } | Tail::Squash { .. } => (false, None),
            Tail::Swallow { width, depth } => (true, Some([width / 2.0, depth])),
        };
        let shape = Self {
            curve,
            ends: Self::closed(outline),
            pointed: [tail_pointed, matches!(outline.nose, Nose::Pointed { .. })],
            cleft,
        };
        shape.check(design.length)?;
        Ok(shape)
    }

    /// How tail and nose of an outline end.
    pub(super) fn closed(outline: &Outline) -> [End; 2] {
        let tail = match outline.tail {
            Tail::Square { .. } | Tail::Squash { .. } => End::Face,
            Tail::Pin { .. } | Tail::Round | Tail::Swallow { .. } => End::Closed,
        };
        [tail, End::Closed]
    }

    fn check(&self, length: f64) -> Result<(), ShellError> {
        const STEPS: usize = 500;
        for i in 1..STEPS {
            let [p, d] = self.curve.derivatives::<2>(i as f64 / STEPS as f64);
            if p.x <= 0.0 || p.x >= length {
                return Err(ShellError::Outline {
                    fault: "passes beyond the board's end",
                    x: p.x,
                });
            }
            if d.x <= 0.0 {
                return Err(ShellError::Outline {
                    fault: "turns back",
                    x: p.x,
                });
            }
            if p.y <= self.inner(p.x) {
                return Err(ShellError::Outline {
                    fault: "crosses the centreline or the cleft",
                    x: p.x,
                });
            }
        }
        Ok(())
    }

    /// The outline as a curve (x, y) from tail to nose.
    pub fn curve(&self) -> &BSpline<2> {
        &self.curve
    }

    /// How tail and nose end.
    pub fn ends(&self) -> [End; 2] {
        self.ends
    }

    /// Depth of the cleft, mm.
    pub fn cleft_depth(&self) -> Option<f64> {
        self.cleft.map(|c| c[1])
    }

    /// Half-width of the cleft at `x`, mm; 0 where there is none.
    pub fn inner(&self, x: f64) -> f64 {
        self.cleft
            .map_or(0.0, |[half, depth]| half * (1.0 - x / depth).max(0.0))
    }

    /// The outline's parameter at loft parameter `u` in [0, 1].
    ///
    /// Where an end closes at an angle x must leave it with the square of u, so that thickness, which grows with the
    /// square root of the distance, is smooth in u.
    pub fn parameter(&self, u: f64) -> f64 {
        use std::f64::consts::{FRAC_PI_2, PI};
        match self.pointed {
            [false, false] => u,
            [false, true] => (FRAC_PI_2 * u).sin(),
            [true, false] => 1.0 - (FRAC_PI_2 * u).cos(),
            [true, true] => (1.0 - (PI * u).cos()) / 2.0,
        }
    }

    /// The point (x, y) at loft parameter `u`.
    pub fn point(&self, u: f64) -> Vector<2> {
        self.curve.point(self.parameter(u))
    }

    /// The loft parameter at `x`, by bisection to rounding.
    pub fn locate(&self, x: f64) -> f64 {
        let [low, high] = bisect(0.0, 1.0, 60, |u| self.point(u).x <= x);
        (low + high) / 2.0
    }

    /// Half-width at `x`, mm.
    pub fn half_width(&self, x: f64) -> f64 {
        self.point(self.locate(x)).y
    }
}

/// The points and directions the outline passes, from tail to nose.
fn stations(design: &Design) -> Vec<Station> {
    let (length, outline) = (design.length, &design.outline);
    let free = |x: f64, y: f64| Station {
        point: Vector::<2>::new(x, y),
        normal: None,
        corner: false,
    };
    let fixed = |x: f64, y: f64, normal: [f64; 2]| Station {
        point: Vector::<2>::new(x, y),
        normal: Some(Vector::from(normal)),
        corner: false,
    };
    let body: Vec<Station> = match &outline.body {
        OutlineBody::Points(points) => points.iter().map(|p| free(p[0], p[1])).collect(),
        &OutlineBody::Measures {
            width,
            wide_point,
            nose_width,
            tail_width,
        } => vec![
            free(TWELVE_INCHES, tail_width / 2.0),
            fixed(wide_point, width / 2.0, [0.0, 1.0]),
            free(length - TWELVE_INCHES, nose_width / 2.0),
        ],
    };
    let mut all = match outline.tail {
        Tail::Pin { angle } => vec![fixed(0.0, 0.0, [angle.sin(), -angle.cos()])],
        Tail::Round => vec![fixed(0.0, 0.0, [1.0, 0.0])],
        Tail::Square { width } | Tail::Swallow { width, .. } => vec![free(0.0, width / 2.0)],
        Tail::Squash { width, radius } => {
            // The corner's round, tangent to the cut and to the chord of the side.
            let next = body
                .first()
                .map_or(Vector::<2>::new(length, width / 2.0), |s| s.point);
            let side = (next.y - width / 2.0).atan2(next.x);
            let turn = std::f64::consts::FRAC_PI_2 - side;
            let setback = radius * (turn / 2.0).tan();
            let centre = Vector::<2>::new(radius, width / 2.0 - setback);
            let on = |t: f64| centre + Vector::<2>::new(-t.cos(), t.sin()) * radius;
            let (start, middle, end) = (on(0.0), on(turn / 2.0), on(turn));
            vec![
                fixed(start.x, start.y, [1.0, 0.0]),
                free(middle.x, middle.y),
                Station {
                    corner: true,
                    ..fixed(end.x, end.y, [-side.sin(), side.cos()])
                },
            ]
        }
    };
    all.extend(body);
    all.push(match outline.nose {
        Nose::Pointed { angle } => fixed(length, 0.0, [angle.sin(), angle.cos()]),
        Nose::Round => fixed(length, 0.0, [1.0, 0.0]),
    });
    all
}

/// The least-variation quintic through the stations, over [0, 1], judged with y multiplied by `stretch`.
fn fair_through(stations: &[Station], stretch: f64) -> Result<BSpline<2>, CurveError> {
    const ROUNDS: usize = 5;
    let stretched = |v: Vector<2>| Vector::<2>::new(v.x, v.y * stretch);
    // A direction's normal transforms by the inverse.
    let stations: Vec<Station> = stations
        .iter()
        .map(|s| Station {
            point: stretched(s.point),
            normal: s
                .normal
                .map(|n| Vector::<2>::new(n.x, n.y / stretch).normalize()),
            corner: s.corner,
        })
        .collect();
    let n = stations.len();
    let mut steps: Vec<f64> = stations
        .windows(2)
        .map(|w| (w[1].point - w[0].point).norm())
        .collect();
    for round in 0.. {
        let sum: f64 = steps.iter().sum();
        let mut t = vec![0.0];
        for step in &steps[..n - 2] {
            t.push(t[t.len() - 1] + step / sum);
        }
        t.push(1.0);
        // Knots where the least-energy curve loses smoothness: once at a point, twice where its direction is held too, and
        // often enough to let curvature jump where a corner ends; without that a tight corner rings along the side.
        let times = |s: &Station| {
            if s.corner {
                4
            } else {
                1 + usize::from(s.normal.is_some())
            }
        };
        let inner: Vec<f64> = (1..n - 1)
            .flat_map(|i| std::iter::repeat_n(t[i], times(&stations[i])))
            .collect();
        let mut problem =
            FairCurve::<2>::new(KnotVector::clamped(5, 0.0, &inner, 1.0)?).energy(3, 1.0);
        for (station, &t) in stations.iter().zip(&t) {
            problem = problem.point(t, station.point);
            if let Some(normal) = station.normal {
                problem = problem.across(t, normal);
            }
        }
        let curve = problem.solve()?;
        if round + 1 == ROUNDS {
            let points = curve
                .points()
                .iter()
                .map(|p| Vector::<2>::new(p.x, p.y / stretch));
            return BSpline::new(curve.knots().clone(), points.collect());
        }
        steps = t
            .windows(2)
            .map(|w| arc_length(&curve, w[0], w[1]))
            .collect();
    }
    Err(CurveError::TooFew { got: n, need: 2 })
}

fn arc_length(curve: &BSpline<2>, a: f64, b: f64) -> f64 {
    integrate(&gauss_legendre(16), a, b, |t| {
        curve.derivatives::<2>(t)[1].norm()
    })
}
