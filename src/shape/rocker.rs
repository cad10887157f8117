//! The bottom's centreline in side view.

use super::ShellError;
use crate::design::Rocker;
use crate::geometry::curve::{BSpline, Ends, Parameters, Vector, interpolate};
use crate::geometry::solve::greatest;

/// Height of the bottom's centreline over the base plane, which touches its lowest point.
#[derive(Debug, Clone, PartialEq)]
pub struct RockerLine {
    shape: Shape,
    lowest: f64,
}

#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Batten(BSpline<1>),
    Flat {
        nose: f64,
        tail: f64,
        flat: [f64; 2],
        length: f64,
    },
}

impl RockerLine {
    /// The rocker of a board of the given length.
    ///
    /// Through points: the natural cubic spline over x, which is a thin batten's small-deflection shape. From measures: a
    /// level flat, then (4ξ³ − ξ⁴)/3 of the lift, whose curvature grows from nothing at the flat's end and levels off at the tip.
    pub fn new(rocker: &Rocker, length: f64) -> Result<Self, ShellError> {
        let shape = match rocker {
            Rocker::Points(points) => {
                let x: Vec<f64> = points.iter().map(|p| p[0]).collect();
                let z: Vec<Vector<1>> = points.iter().map(|p| Vector::<1>::new(p[1])).collect();
                let batten = interpolate(&z, 3, Parameters::Values(&x), Ends::Natural);
                Shape::Batten(batten.map_err(ShellError::curve("rocker"))?)
            }
            &Rocker::Measures { nose, tail, flat } => Shape::Flat {
                nose,
                tail,
                flat,
                length,
            },
        };
        let mut line = Self { shape, lowest: 0.0 };
        line.lowest = line.find_lowest(length);
        Ok(line)
    }

    fn find_lowest(&self, length: f64) -> f64 {
        let height = |x: f64| self.height(x)[0];
        height(greatest(0.0, length, 400, |x| -height(x)))
    }

    /// Height (mm) with its first and second derivatives by x.
    pub fn height(&self, x: f64) -> [f64; 3] {
        let mut h = match &self.shape {
            Shape::Batten(batten) => batten.derivatives::<3>(x).map(|d| d.x),
            &Shape::Flat {
                nose,
                tail,
                flat,
                length,
            } => {
                if x > flat[1] {
                    lift(nose, x - flat[1], length - flat[1])
                } else if x < flat[0] {
                    let [z, s, c] = lift(tail, flat[0] - x, flat[0]);
                    [z, -s, c]
                } else {
                    [0.0; 3]
                }
            }
        };
        h[0] -= self.lowest;
        h
    }
}

fn lift(rise: f64, d: f64, run: f64) -> [f64; 3] {
    let t = d / run;
    [
        rise * (4.0 * t.powi(3) - t.powi(4)) / 3.0,
        rise * (12.0 * t * t - 4.0 * t.powi(3)) / (3.0 * run),
        rise * (24.0 * t - 12.0 * t * t) / (3.0 * run * run),
    ]
}
