//! Half a section of a block.

use crate::geometry::curve::Vector;

/// A half section and its plane.
pub(super) type Half = (f64, Vec<Vector<2>>);
