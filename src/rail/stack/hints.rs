//! What the whole board says of the courses in one plane.

use crate::geometry::curve::Vector;

/// What is decided of a stack's courses before it is built, from the bottom up.
#[derive(Debug, Clone, Copy, Default)]
pub(in crate::rail) struct StackHints<'a> {
    /// Their directions; else the guide's.
    pub directions: &'a [Option<Vector<3>>],
    /// How they lean (see [`Course::lean`](crate::rail::Course::lean)), radians; else as the guide has it.
    pub leans: &'a [Option<f64>],
    /// How far outboard of the middle of the outermost of starters side by side the first moulded strip stands, mm; else on the guide.
    pub stand: Option<f64>,
    /// The outer face of starters side by side where it leaves the bottom skin, y in mm; else as far out as the finished surface requires
    /// here.
    pub edge: Option<f64>,
}
