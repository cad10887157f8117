//! Clamped non-uniform B-spline curves and the numerics under them.
//!
//! Notation and algorithm numbers follow Piegl & Tiller, *The NURBS Book*, 2nd ed. (1997).

mod banded;
mod constrained;
mod error;
mod fair;
mod interpolate;
mod knots;
mod quadrature;
mod spline;

pub use error::CurveError;
pub use fair::{Condition, FairCurve, Term};
pub use interpolate::{Collocation, Ends, Parameters, collocate, interpolate, parameters};
pub use knots::{Basis, KnotVector, MAX_DEGREE};
pub use quadrature::{gauss_legendre, integrate};
pub use spline::BSpline;

/// A point or vector in `D` dimensions, mm.
pub type Vector<const D: usize> = nalgebra::SVector<f64, D>;
