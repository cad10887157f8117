//! What else was measured, beside a finding's value and limit.

use serde::Serialize;

use super::{BoardEnd, Face};

/// A measured thing that belongs to a finding. Lengths are mm, shares fractions.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case", rename_all_fields = "kebab-case")]
pub enum Fact {
    /// Share of the limit used at worst.
    Used(f64),
    /// The species of wood.
    Wood(String),
    /// The limit is this share of what breaks the wood.
    Working(f64),
    /// The limit is what softened wood takes.
    Softened,
    /// Share of a panel that is over the limit.
    ShareOver(f64),
    /// Radius of a bend.
    Radius(f64),
    /// Width of slots.
    Slots {
        /// In the spine, else in the ribs.
        in_spine: bool,
        /// Their width.
        width: f64,
    },
    /// The end concerned.
    End(BoardEnd),
    /// The least height wanted.
    LeastHeight(f64),
    /// Depth of a cut-out.
    Depth(f64),
    /// Wood there is to cut into.
    WoodDepth(f64),
    /// How far a cut-out goes into the skin on the far side.
    IntoSkin(f64),
    /// Least wood wanted under a cut-out.
    Floor(f64),
    /// A cut-out comes out on this side.
    ComesOut(Face),
    /// How far two pads share their room.
    Shared {
        /// Along the board.
        along: f64,
        /// Across it.
        across: f64,
    },
    /// Least distance wanted.
    LeastDistance(f64),
    /// The cut-out is that of a fin, not a round hole.
    FinCut,
    /// The water the board lies in.
    Water {
        /// Fresh water, else the sea.
        fresh: bool,
        /// With its rider on it.
        ridden: bool,
    },
    /// Where the load's centre of gravity lies: from the tail, and over the base plane.
    Load([f64; 2]),
    /// Length of the longest plank of a skin.
    LongestPlank(f64),
    /// Length of the stock.
    StockLength(f64),
    /// Rough thickness and width of a blank.
    Blank([f64; 2]),
    /// Longest piece that the planks give.
    LongestPiece(f64),
    /// Least distance between the scarfs of neighbours.
    Stagger(f64),
    /// The profile of a strip.
    Profile(&'static str),
    /// A figure by its name, in a text of ours, with its value and the range it must lie in.
    Figure {
        /// Its name.
        name: String,
        /// Its value, mm where `length` says so.
        value: f64,
        /// Least and greatest value.
        range: [f64; 2],
        /// Whether it is a length.
        length: bool,
    },
    /// Why a rib has no place.
    Rib(RibFault),
    /// Why a skin cannot be laid flat.
    Skin(SkinFault),
}

/// Why a rib has no place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "kebab-case")]
pub enum RibFault {
    /// The skins meet.
    #[error("the skins leave no hollow")]
    NoHollow,
    /// The rail's strips fill the hollow.
    #[error("the rail leaves no room for it")]
    RailFills,
    /// What its two faces leave has nothing in common.
    #[error("its faces have nothing in common")]
    FacesApart,
    /// The hollow is too small.
    #[error("the hollow is too small")]
    TooSmall,
}

/// Why a skin cannot be laid flat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SkinFault {
    /// Nowhere does it follow the surface.
    NoSurface,
    /// It folds over when laid flat.
    Folds,
    /// The flat shape does not come to rest.
    Unsettled,
    /// Its surface cannot be divided into triangles that lie flat.
    Triangles,
}
