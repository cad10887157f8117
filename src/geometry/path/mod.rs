//! Paths of lines, arcs and cubics in the plane, in mm, y up.

mod arc;
mod bounds;
mod chain;
mod distance;
mod edit;
mod fit;
mod flatten;
mod measure;
mod placement;
mod segment;

pub use bounds::Bounds;
pub(crate) use chain::{close, line};
pub use fit::{arcs_along, arcs_of_polyline};
pub use placement::Placement;
pub use segment::Primitive;

/// The finest distance that written files keep, mm; points nearer than this are one point.
pub const GRAIN: f64 = 1e-4;

/// A place in the plane, mm: the same type as the points of plane curves, so that nothing is converted between the two.
pub type Point = crate::geometry::curve::Vector<2>;

/// One piece of a path; it starts where the piece before it ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// A straight line.
    Line {
        /// End point.
        to: Point,
    },
    /// A circular arc; `bulge` = tan(θ/4), positive counter-clockwise.
    Arc {
        /// End point.
        to: Point,
        /// tan of a quarter of the included angle.
        bulge: f64,
    },
    /// A cubic Bézier.
    Cubic {
        /// First control point.
        c1: Point,
        /// Second control point.
        c2: Point,
        /// End point.
        to: Point,
    },
}

/// A chain of segments.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// First point.
    pub start: Point,
    /// The pieces, in order.
    pub segments: Vec<Segment>,
    /// Whether the end joins the start.
    pub closed: bool,
}
