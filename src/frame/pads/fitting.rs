//! Fittings and the pads that hold them.

use crate::design::Through;
use crate::geometry::curve::Vector;
use crate::geometry::lofted::Lofted;
use crate::geometry::path::Path;

/// What a fitting is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum FittingKind {
    /// A fin.
    Fin,
    /// The leash plug.
    Plug,
    /// The vent.
    Vent,
}

/// A fitting let into a skin.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedFitting {
    /// Its name in files and messages, such as `fin-1-starboard`.
    pub name: String,
    /// What it is.
    pub kind: FittingKind,
    /// The skin it is let into.
    pub through: Through,
    /// Middle of its base, mm from the tail and to starboard.
    pub middle: [f64; 2],
    /// Trailing end of a fin's base, or the middle of a round fitting, mm from the tail.
    pub from_tail: f64,
    /// Angle by which a fin's leading end points to the centreline, radians.
    pub toe: f64,
    /// Angle by which a fin leans outward, radians.
    pub cant: f64,
    /// Length of a fin's base, or the diameter of a round fitting's hole, mm.
    pub base: f64,
    /// Cut-outs in the skin, seen from above.
    pub cuts: Vec<Path>,
    /// What lies over or under the cut-outs down to their full depth, seen from above, mm.
    pub shadow: [Vector<2>; 4],
    /// Depth from the finished surface, mm.
    pub depth: f64,
    /// How far it stands further in than asked, to keep clear of the rail's strips, mm.
    pub moved: f64,
    /// The pad that holds it; `None` where a block does.
    pub pad: Option<Pad>,
}

/// A pad of solid wood on a skin's inner face.
///
/// It is glued between what it meets: spine, ribs, blocks and strips go through, and the pad is in pieces where they do.
#[derive(Debug, Clone, PartialEq)]
pub struct Pad {
    /// The whole rectangle before it is fitted, seen from above, mm.
    pub rectangle: [Vector<2>; 4],
    /// Length and width of it, mm.
    pub size: [f64; 2],
    /// Least thickness, mm.
    pub thickness: f64,
    /// Thickness of the board it is made from, whose other face stays flat, mm.
    pub stock: f64,
    /// Its pieces.
    pub pieces: Vec<PadPiece>,
}

/// A piece of a pad.
#[derive(Debug, Clone, PartialEq)]
pub struct PadPiece {
    /// Its contour seen from above, mm.
    pub outline: Path,
    /// It in place, one face on the skin.
    pub body: Lofted,
}

impl Pad {
    /// Volume before any cut-out, mm³.
    pub fn volume(&self) -> f64 {
        self.pieces.iter().map(|p| p.body.volume()).sum()
    }
}
