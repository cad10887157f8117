//! Clamped non-uniform B-spline curves and the numerics under them.
