//! Clamped non-uniform B-spline curves and the numerics under them.
//!
//! Notation and algorithm numbers follow Piegl & Tiller, *The NURBS Book*, 2nd ed. (1997).

mod banded;
mod error;
mod interpolate;
mod knots;
mod spline;

pub use error::CurveError;
pub use interpolate::{Collocation, Ends, Parameters, collocate, interpolate, parameters};
pub use knots::{Basis, KnotVector, MAX_DEGREE};
pub use spline::BSpline;

/// A point or vector in `D` dimensions, mm.
pub type Vector<const D: usize> = nalgebra::SVector<f64, D>;
