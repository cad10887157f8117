//! Blocks, fins, leash plug, vent and building bed, as the maker decides them.

use serde::Serialize;

/// How the solid blocks at nose and tail are laid up.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Blocks {
    /// Thickness of a layer, mm.
    pub layer: f64,
    /// Wood left outside the finished outline on every layer, mm.
    pub oversize: f64,
}

/// Usual sets of fins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FinSet {
    /// No fins, or fins that need no pad.
    None,
    /// One on the centreline.
    Single,
    /// One each side.
    Twin,
    /// One each side and one on the centreline.
    Three,
    /// Two each side and one on the centreline.
    Five,
}

impl FinSet {
    /// How many fins and pairs of fins it has.
    pub const fn count(self) -> usize {
        match self {
            Self::None => 0,
            Self::Single | Self::Twin => 1,
            Self::Three => 2,
            Self::Five => 3,
        }
    }
}

/// What is cut out of skin and pad for a fin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FinCut {
    /// How many cut-outs in a row: one for a box, more for tabs.
    pub count: usize,
    /// From the middle of one to the middle of the next, mm.
    pub spacing: f64,
    /// Length of each along the fin, mm.
    pub length: f64,
    /// Width of each, mm.
    pub width: f64,
    /// Depth of each from the finished bottom, mm.
    pub depth: f64,
}

/// How far a fin stands from the middle of the board.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FinOffset {
    /// From the centreline to the middle of its base, mm; at 0 there is one, else one each side.
    Centre(f64),
    /// From the outline to the middle of its base, mm, or more where its cut-out would meet the rail's strips; one each side.
    Rail(f64),
}

/// A fin, or a pair of them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Fin {
    /// Trailing end of its base, mm from the tail.
    pub from_tail: f64,
    /// Where it stands across the board.
    pub offset: FinOffset,
    /// Angle by which its leading end points towards the centreline, radians.
    pub toe: f64,
    /// Angle by which it leans outward, radians.
    pub cant: f64,
    /// Length of its base, mm.
    pub base: f64,
    /// What is cut out for it.
    pub cut: FinCut,
}

/// The fins and what holds them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fins {
    /// The set they were placed by.
    pub set: FinSet,
    /// Every fin, those of the set first; pairs count once.
    pub fins: Vec<Fin>,
    /// Width of the pad all round a cut-out, mm.
    pub margin: f64,
    /// Least wood between a cut-out's end and the hollow, mm.
    pub floor: f64,
}

/// The skin a plug or vent is let into.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Through {
    /// The deck.
    Deck,
    /// The bottom.
    Bottom,
}

/// A round fitting: leash plug or vent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Hole {
    /// The skin it is let into.
    pub through: Through,
    /// Its middle, mm from the tail; `None` for a place by rule.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_tail: Option<f64>,
    /// Its middle, mm from the centreline to starboard; `None` for a place by rule.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_centre: Option<f64>,
    /// Diameter, mm.
    pub diameter: f64,
    /// Depth from the finished surface, mm.
    pub depth: f64,
    /// Width of the pad all round, mm.
    pub margin: f64,
    /// Least wood under it, mm; 0 where it opens into the hollow.
    pub floor: f64,
}

/// The building bed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bed {
    /// The cradles' centre planes, mm from the tail; `None` for a place at every rib and under either block.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stations: Option<Vec<f64>>,
    /// Thickness of a cradle, mm.
    pub thickness: f64,
    /// Height of the lowest place of any cradle's upper edge over the table, mm.
    pub base_height: f64,
    /// Greatest width of a cradle, mm; `None` to reach as far as the bottom skin follows the surface.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<f64>,
    /// Width and height of a beam the cradles straddle, mm; `None` on a flat table.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub beam: Option<[f64; 2]>,
    /// Diameter of the hole on the centreline for string or light, mm; 0 for none.
    pub sight_hole: f64,
}
