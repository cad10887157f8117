//! Strips' slices as paths.

use crate::geometry::curve::Vector;
use crate::geometry::path::{Path, Placement, Point, Segment};
use crate::rail::{CourseSlice, ProfileEdge};

/// The slice's contour in its cutting plane: straight lines and, where the strip runs square to the plane, true arcs;
/// arcs of ellipses otherwise, as cubics of at most an eighth of a turn.
pub(super) fn path(slice: &CourseSlice) -> Path {
    let place = |p: Vector<2>| slice.frame.plane(p);
    // Square within rounding: an arc stretched by less than 1e-9 of its radius stays one.
    let square = slice.frame.along.x > 1.0 - 1e-9;
    let mut here = slice.profile.start;
    let mut segments = Vec::new();
    for edge in &slice.profile.edges {
        match *edge {
            ProfileEdge::Line(end) => segments.push(Segment::Line { to: place(end) }),
            ProfileEdge::Arc { end, centre, ccw } => {
                let (a, b) = (here - centre, end - centre);
                let mut sweep = a.perp(&b).atan2(a.dot(&b));
                if ccw && sweep <= 0.0 {
                    sweep += std::f64::consts::TAU;
                } else if !ccw && sweep >= 0.0 {
                    sweep -= std::f64::consts::TAU;
                }
                if square {
                    segments.push(Segment::Arc {
                        to: place(end),
                        bulge: (sweep / 4.0).tan(),
                    });
                } else {
                    segments.extend(ellipse(a, sweep, |d| place(centre + d)));
                }
            }
        }
        here = edge.end();
    }
    Path {
        start: place(slice.profile.start),
        segments,
        closed: true,
    }
    .without_empty_segments()
}

/// An arc from radius vector `a` through `sweep`, carried by an affine map.
fn ellipse(a: Vector<2>, sweep: f64, place: impl Fn(Vector<2>) -> Point) -> Vec<Segment> {
    let count = (sweep.abs() / std::f64::consts::FRAC_PI_4).ceil().max(1.0);
    let step = sweep / count;
    let handle = 4.0 / 3.0 * (step / 4.0).tan();
    let at = |t: f64| {
        let (s, c) = t.sin_cos();
        Vector::<2>::new(a.x * c - a.y * s, a.x * s + a.y * c)
    };
    let turned = |v: Vector<2>| Vector::<2>::new(-v.y, v.x);
    (0..count as usize)
        .map(|k| {
            let (p, q) = (at(step * k as f64), at(step * (k + 1) as f64));
            Segment::Cubic {
                c1: place(p + turned(p) * handle),
                c2: place(q - turned(q) * handle),
                to: place(q),
            }
        })
        .collect()
}

/// The path mirrored to port.
pub(super) fn port(path: &Path) -> Path {
    path.transform(&Placement::mirror(std::f64::consts::FRAC_PI_2))
}
