//! What happens between two nested strips that roll on one another.

use serde::Serialize;

use crate::design::Strip;
use crate::geometry::curve::Vector;

/// A bead-and-cove joint turned by a roll.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StripJoint {
    /// Turn of the upper strip about the bead's centre, radians, positive when its top leans inboard.
    pub roll: f64,
    /// Greatest depth, mm, that a lip of the upper strip would enter the lower strip; it crushes or is eased off.
    pub dig_in: f64,
    /// Greatest distance, mm, between a lip and the shoulder of the strip below, on the side that opens.
    pub mouth_gap: f64,
}

/// The joint of two strips of one profile at a given roll (radians).
///
/// In the lower strip's axes the bead's centre is the origin and its shoulders are at (±t/2, √(r² − t²/4)). The upper strip's
/// lips, from (±t/2, r − s_c) at rest to where the cove begins, turn about the origin. On the closing side a lip enters the lower strip when
/// it comes below the shoulder; its depth there is the distance to the face or to the shoulder, whichever is less, and greatest at one of its
/// ends, from which the cove leads away along the bead. On the
/// opening side the gap is the distance from outer corner to shoulder. A half-round with a full cove (s_c = r = t/2) gives
/// r(1 − cos φ) and 2 r sin(φ/2).
pub fn joint(strip: &Strip, roll: f64) -> StripJoint {
    let half = strip.thickness / 2.0;
    let shoulder = strip.springing();
    // Turning the top inboard (out is +x) lifts the outer lip and drives the inner one down.
    let turned = |across: f64| {
        let (s, c) = roll.sin_cos();
        let corner = Vector::<2>::new(across, strip.lip_height());
        Vector::<2>::new(corner.x * c - corner.y * s, corner.x * s + corner.y * c)
    };
    let mut dig_in = 0.0_f64;
    let mut mouth_gap = 0.0_f64;
    for side in [-1.0, 1.0] {
        let corner = turned(side * half);
        let inner = turned(side * strip.cove_half_chord());
        let depth = entry(strip, &corner).max(entry(strip, &inner));
        dig_in = dig_in.max(depth);
        if depth == 0.0 {
            mouth_gap = mouth_gap.max((corner - Vector::<2>::new(side * half, shoulder)).norm());
        }
    }
    StripJoint {
        roll,
        dig_in,
        mouth_gap,
    }
}

/// How wide a joint stands open, mm, where the finished surface crosses it `lateral` mm outboard of the strips' middle.
///
/// Under the cove the bead fills the joint whatever the roll; past the cove's edge, which the roll turns inboard, the lip
/// lifts off the bead and leaves a notch. Most of that notch is planed away with the stock that stands proud. A joint that
/// opens inboard shows nothing.
pub fn visible_gap_at(strip: &Strip, roll: f64, lateral: f64) -> f64 {
    let (s, c) = roll.sin_cos();
    let lip = strip.lip_height();
    let root = strip.cove_half_chord() * c - lip * s;
    if roll <= 0.0 || lateral <= root {
        return 0.0;
    }
    // The lip's line at this distance from the middle, over the bead below.
    let along = (lateral + lip * s) / c;
    let bead = (strip.bead_radius.powi(2) - lateral.min(strip.bead_radius).powi(2)).sqrt();
    (lip * c + along * s - bead).max(0.0)
}

/// How deep a point lies inside the top of a strip (bead's centre at the origin), mm; 0 outside.
fn entry(strip: &Strip, p: &Vector<2>) -> f64 {
    let half = strip.thickness / 2.0;
    let shoulder = strip.springing();
    let face = half - p.x.abs();
    if face <= 0.0 {
        return 0.0;
    }
    if p.y >= shoulder {
        return (strip.bead_radius - p.norm()).max(0.0);
    }
    // Nearest way out: through the face, or over the shoulder to the bead.
    let over = (p - Vector::<2>::new(half.copysign(p.x), shoulder)).norm();
    face.min(over)
}
