//! Strip profiles in the plane square to the strip.

use super::Kind;
use crate::design::{Starter, Strip};
use crate::geometry::curve::Vector;

/// One piece of a profile's boundary, from the end of the piece before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
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

impl Piece {
    /// The piece's end.
    pub fn end(&self) -> Vector<2> {
        match *self {
            Piece::Line(end) | Piece::Arc { end, .. } => end,
        }
    }
}

/// A closed counter-clockwise profile in coordinates (out, up), mm, with the foot at the origin: the middle of the flat
/// base, or for a coved strip the centre of the bead below.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// First point.
    pub start: Vector<2>,
    /// The pieces; the last ends at `start`.
    pub pieces: Vec<Piece>,
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

/// The profile of a course whose bead centre (for a starter: top) lies `rise` above its foot.
///
/// `base_slope` is the tangent of the angle to which a flat base is planed, positive where the outer side is the longer; a course's bevel is
/// bounded so that both sides stay.
pub(super) fn profile(
    kind: Kind,
    strip: &Strip,
    starter: &Starter,
    rise: f64,
    base_slope: f64,
) -> Profile {
    let p = Vector::<2>::new;
    if kind == Kind::Starter {
        let half = starter.size / 2.0;
        let start = p(-half, half * base_slope);
        return Profile {
            start,
            pieces: vec![
                Piece::Line(p(half, -half * base_slope)),
                Piece::Line(p(half, rise)),
                Piece::Line(p(-half, rise)),
                Piece::Line(start),
            ],
        };
    }
    let half = strip.thickness / 2.0;
    let spring = rise + strip.springing();
    let (mut pieces, start) = if kind == Kind::BeadOnly {
        (
            vec![Piece::Line(p(half, -half * base_slope))],
            p(-half, half * base_slope),
        )
    } else {
        let (lip, chord) = (strip.lip_height(), strip.cove_half_chord());
        let centre = p(0.0, lip + strip.cove_depth - strip.cove_radius);
        let mut base = Vec::new();
        if chord < half {
            base.push(Piece::Line(p(-chord, lip)));
        }
        base.push(Piece::Arc {
            end: p(chord, lip),
            centre,
            ccw: false,
        });
        if chord < half {
            base.push(Piece::Line(p(half, lip)));
        }
        (base, p(-half, lip))
    };
    pieces.push(Piece::Line(p(half, spring)));
    pieces.push(Piece::Arc {
        end: p(-half, spring),
        centre: p(0.0, rise),
        ccw: true,
    });
    pieces.push(Piece::Line(start));
    Profile { start, pieces }
}

impl Profile {
    /// Points along the boundary within `tolerance` mm of it, the start not repeated.
    pub fn flatten(&self, tolerance: f64) -> Vec<Vector<2>> {
        let mut out = vec![self.start];
        let mut here = self.start;
        for piece in &self.pieces {
            if let Piece::Arc { end, centre, ccw } = *piece {
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
            here = piece.end();
            out.push(here);
        }
        out.pop();
        out
    }
}
