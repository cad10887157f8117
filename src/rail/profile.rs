//! Strip profiles in the plane square to the strip.

use super::course::Course;
use crate::design::Strip;
use crate::geometry::curve::Vector;

/// One edge of a profile, from the end of the edge before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ProfileEdge {
    /// A straight line to the point.
    Line(Vector<2>),
    /// A circular arc to `end` about `centre`; `ccw` tells its sense.
    Arc {
        /// End point.
        end: Vector<2>,
        /// Centre.
        centre: Vector<2>,
        /// Counter-clockwise.
        ccw: bool,
    },
}

impl ProfileEdge {
    /// The edge's end.
    pub fn end(&self) -> Vector<2> {
        match *self {
            ProfileEdge::Line(end) | ProfileEdge::Arc { end, .. } => end,
        }
    }
}

/// A closed counter-clockwise profile in coordinates (out, up), mm, with the foot at the origin: the middle of the flat
/// base, or for a coved strip the centre of the bead below.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// First point.
    pub start: Vector<2>,
    /// The edges; the last ends at `start`.
    pub edges: Vec<ProfileEdge>,
}

/// What follows from a strip's finished sizes; lengths in mm.
impl Strip {
    /// Sagitta of the bead: r − √(r² − t²/4).
    pub fn bead_sagitta(&self) -> f64 {
        self.bead_radius - self.springing()
    }

    /// Height of the bead's springing over its centre: √(r² − t²/4).
    pub fn springing(&self) -> f64 {
        (self.bead_radius.powi(2) - self.thickness.powi(2) / 4.0)
            .max(0.0)
            .sqrt()
    }

    /// Height a bead-and-cove course gains: W − s_c.
    ///
    /// The cove's deepest point rests on the bead's crown, whatever the two radii, so bead centre to bead centre is
    /// (W − r) − (s_c − r). With equal radii this is the published pitch; a wider cove touches at the crown only.
    pub fn pitch(&self) -> f64 {
        self.width - self.cove_depth
    }

    /// Height of the lip plane over the centre of the bead below: r − s_c.
    pub fn lip_height(&self) -> f64 {
        self.bead_radius - self.cove_depth
    }

    /// Half the chord of the cove: √(r_c² − (r_c − s_c)²), at most half the thickness.
    pub fn cove_half_chord(&self) -> f64 {
        let (r, s) = (self.cove_radius, self.cove_depth);
        (r * r - (r - s).powi(2))
            .max(0.0)
            .sqrt()
            .min(self.thickness / 2.0)
    }
}

/// The profile of a course of `strip`.
///
/// A flat base is planed to its bevel, which is bounded so that both sides stay.
pub(super) fn profile(course: &Course, strip: &Strip) -> Profile {
    let p = Vector::<2>::new;
    let body = course.body();
    let (half, rise) = (body.thickness / 2.0, body.rise);
    let base = |out: f64| p(out, course.base(out));
    let (start, mut edges) = match course {
        Course::Starter { .. } | Course::BeadOnly { .. } => {
            (base(-half), vec![ProfileEdge::Line(base(half))])
        }
        Course::BeadAndCove { lip, .. } => {
            let chord = strip.cove_half_chord();
            let mut edges = Vec::new();
            if chord < half {
                edges.push(ProfileEdge::Line(p(-chord, *lip)));
            }
            edges.push(ProfileEdge::Arc {
                end: p(chord, *lip),
                centre: p(0.0, lip + strip.cove_depth - strip.cove_radius),
                ccw: false,
            });
            if chord < half {
                edges.push(ProfileEdge::Line(p(half, *lip)));
            }
            (p(-half, *lip), edges)
        }
    };
    let top = rise + course.shoulder();
    edges.push(ProfileEdge::Line(p(half, top)));
    edges.push(match course {
        Course::Starter { .. } => ProfileEdge::Line(p(-half, top)),
        Course::BeadOnly { .. } | Course::BeadAndCove { .. } => ProfileEdge::Arc {
            end: p(-half, top),
            centre: p(0.0, rise),
            ccw: true,
        },
    });
    edges.push(ProfileEdge::Line(start));
    Profile { start, edges }
}

impl Profile {
    /// Points along the boundary within `tolerance` mm of it, the start not repeated.
    pub fn flatten(&self, tolerance: f64) -> Vec<Vector<2>> {
        let mut out = vec![self.start];
        let mut here = self.start;
        for edge in &self.edges {
            if let ProfileEdge::Arc { end, centre, ccw } = *edge {
                let (a, b) = (here - centre, end - centre);
                let radius = a.norm();
                let mut sweep = a.perp(&b).atan2(a.dot(&b));
                if ccw && sweep <= 0.0 {
                    sweep += std::f64::consts::TAU;
                } else if !ccw && sweep >= 0.0 {
                    sweep -= std::f64::consts::TAU;
                }
                let step = 2.0 * (1.0 - (tolerance / radius).min(1.0)).acos();
                let count = (sweep.abs() / step).ceil().max(1.0) as usize;
                for k in 1..count {
                    let (s, c) = (sweep * k as f64 / count as f64).sin_cos();
                    out.push(centre + Vector::<2>::new(a.x * c - a.y * s, a.x * s + a.y * c));
                }
            }
            here = edge.end();
            out.push(here);
        }
        out.pop();
        out
    }
}
