//! What can be wrong with a curve's data.

/// Highest degree supported; basis functions live on the stack.
pub const MAX_DEGREE: usize = 9;

/// Why a curve could not be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CurveError {
    /// The degree is zero or above [`MAX_DEGREE`](MAX_DEGREE).
    #[error("degree {0} is not between 1 and {max}", max = MAX_DEGREE)]
    Degree(usize),
    /// Knots fall, are not finite, or are not clamped.
    #[error("knot {index} breaks the clamped, non-decreasing order: {reason}")]
    Knots {
        /// Index of the first faulty knot.
        index: usize,
        /// What is wrong there.
        reason: &'static str,
    },
    /// The number of control points does not fit the knots.
    #[error("{knots} knots of degree {degree} take {} control points, got {points}", knots - degree - 1)]
    Count {
        /// Number of knots.
        knots: usize,
        /// Degree.
        degree: usize,
        /// Number of control points given.
        points: usize,
    },
    /// Too few points to interpolate.
    #[error("{got} points are too few, at least {need} are needed")]
    TooFew {
        /// Points given.
        got: usize,
        /// Least number.
        need: usize,
    },
    /// A coordinate or parameter is not finite.
    #[error("point {0} has a coordinate that is not finite")]
    NotFinite(usize),
    /// Parameters do not rise strictly, or two neighbouring points coincide.
    #[error("point {0} does not lie after the point before it; remove one of two equal points")]
    Coincident(usize),
    /// The interpolation conditions do not determine the curve (Schoenberg–Whitney).
    #[error("the conditions do not determine the curve near parameter {0}")]
    Singular(f64),
    /// Linear conditions contradict each other, or ask more of a span than it can do.
    #[error("the condition at parameter {0} contradicts the others; drop it, or add knots near it")]
    Inconsistent(f64),
    /// Curves of zero energy stay free.
    #[error("the conditions leave the curve free to move without bending; hold more points")]
    Undetermined,
    /// No energy is asked for, or a weight is negative or not finite.
    #[error("energy weight {0} will not do; at least one must be positive and none negative")]
    Energy(f64),
    /// The order of a derivative is out of range.
    #[error("derivatives of order {0} are not supported here")]
    Order(usize),
    /// A parameter lies outside the domain.
    #[error("parameter {parameter} lies outside the domain {start} to {end}")]
    Outside {
        /// The parameter.
        parameter: f64,
        /// Start of the domain.
        start: f64,
        /// End of the domain.
        end: f64,
    },
    /// A curve bends too tightly for its offset.
    #[error(
        "at parameter {parameter} the curve bends with a radius of {radius} mm, too tight for an offset of {distance} mm"
    )]
    TooTight {
        /// Where.
        parameter: f64,
        /// Radius of curvature there, mm.
        radius: f64,
        /// Distance of the offset, mm.
        distance: f64,
    },
    /// A curve has no single tangent where one is needed.
    #[error("the curve has a crease or stands still at parameter {0}; split it there")]
    Crease(f64),
    /// A tolerance is not finite and positive.
    #[error("tolerance {0} mm is not finite and positive")]
    Tolerance(f64),
    /// A tolerance could not be reached.
    #[error("tolerance {tolerance} mm was not reached, {reached} mm was")]
    NotReached {
        /// What was asked.
        tolerance: f64,
        /// What was reached.
        reached: f64,
    },
}
