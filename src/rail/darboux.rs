//! How a strip bends and twists: its Darboux frame.

use serde::Serialize;

use crate::geometry::curve::Vector;

/// Curvatures of a strip's mid-line with respect to its own cross-section, 1/mm.
///
/// For a strip laid on a surface these are the normal curvature, the geodesic curvature and the geodesic torsion of its path
/// (do Carmo, *Differential Geometry of Curves and Surfaces*, section 3-2 and exercises 3-2.19, 4-4.14).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Default)]
pub struct Darboux {
    /// Bend the easy way, through the thickness; positive where the outer face is the convex one.
    pub easy: f64,
    /// Bend the hard way, edge-set in the strip's own plane; positive where the path turns upward.
    pub hard: f64,
    /// Turn of the cross-section about the path, radians per mm.
    pub twist: f64,
}

/// The curvatures of a path with derivatives `p` (point, first, second by any parameter) whose cross-section's thickness
/// points along `out` (value and first derivative by the same parameter; any length, not along the path).
pub fn darboux(p: &[Vector<3>; 3], out: &[Vector<3>; 2]) -> Darboux {
    let speed = p[1].norm();
    let t = p[1] / speed;
    let curvature = (p[2] - t * t.dot(&p[2])) / (speed * speed);
    let across = out[0] - t * out[0].dot(&t);
    let length = across.norm();
    let normal = across / length;
    let up = t.cross(&normal);
    // Derivative of the unit normal along `up`: what normalising and projecting add lies along the normal and the path,
    // but for the path's own turn.
    let turned = out[1].dot(&up) / speed - curvature.dot(&up) * out[0].dot(&t);
    Darboux {
        easy: -curvature.dot(&normal),
        hard: curvature.dot(&up),
        twist: turned / length,
    }
}
