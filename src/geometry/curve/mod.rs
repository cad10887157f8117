//! Clamped non-uniform B-spline curves and the numerics under them.
//!
//! Notation and algorithm numbers follow Piegl & Tiller, *The NURBS Book*, 2nd ed. (1997).

mod banded;
mod bernstein;
mod closest;
mod constrained;
mod edit;
mod error;
mod fair;
mod fair_within;
mod fit;
mod interpolate;
mod knots;
mod length;
mod measure;
mod offset;
pub mod polyline;
mod quadrature;
mod roots;
mod spline;

pub use closest::Closest;
pub use edit::Bezier;
pub use error::{CurveError, MAX_DEGREE};
pub use fair::{Condition, FairCurve, Term};
pub use fit::{approximate, fit, least_squares};
pub use interpolate::{Collocation, Ends, Parameters, collocate, graph, interpolate, parameters};
pub use knots::{BasisValues, KnotVector};
pub use length::ArcLength;
pub use quadrature::{gauss_legendre, integrate};
pub use spline::BSpline;

/// A point or vector in `D` dimensions, mm.
pub type Vector<const D: usize> = nalgebra::SVector<f64, D>;
