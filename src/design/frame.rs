//! How ribs and spine are lightened, cut and divided.

use serde::Serialize;

/// How ribs and spine are lightened and cut.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FrameCut {
    /// Lightening holes.
    pub holes: Holes,
    /// Diameter of the cutter, mm.
    pub cutter: f64,
    /// Relief in inside corners.
    pub relief: Relief,
    /// The sheet or machine bed.
    pub sheet: SheetSize,
}

/// Lightening holes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Holes {
    /// Their shape.
    pub pattern: Pattern,
    /// Least wood to the edges under the skins, mm.
    pub web: f64,
    /// Least wood to the ends at rail and blocks, mm.
    pub rail_web: f64,
    /// Least wood each side of a slot, mm.
    pub lap_web: f64,
    /// Least wood between two holes, mm.
    pub bridge: f64,
    /// Least radius of corners, mm, not below the cutter's.
    pub corner: f64,
    /// Longest hole that is not divided, mm; by default three times the height of the room.
    pub span: Option<f64>,
    /// Holes in each half rib and bay, whatever their length.
    pub count: Option<usize>,
    /// Diameter, mm, of the air hole in a part that would seal a bay.
    pub breather: f64,
}

/// Shape of lightening holes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Pattern {
    /// They follow the contour.
    Contour,
    /// Circles.
    Round,
    /// There are none.
    None,
}

/// What is cut away for the cutter in an inside corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Relief {
    /// Nothing: the corner is squared by hand.
    None,
    /// A round bite in the direction of the corner's bisector.
    Corner,
    /// A round bite into the slot's side, so that its end stays clean.
    Wall,
}

/// The sheet that parts are cut from, and how one that is longer is joined.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SheetSize {
    /// Length, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// How the pieces of the spine are joined.
    pub joint: SpineJoint,
}

/// How the spine's pieces are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum SpineJoint {
    /// A key of one piece locks into a socket of the other.
    Key,
    /// A long slope glued face to face.
    Scarf,
}
