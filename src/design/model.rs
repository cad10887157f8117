//! The values of a design.

use serde::Serialize;

use super::polyline::between;
use super::{Bed, Blocks, Finish, Fins, Fitting, FrameCut, Hole, Rider, Shop, Skins};
use crate::design::timber::Species;
use crate::design::units::Unit;

/// Distance from either end at which the trade quotes widths and thicknesses: 12 in.
pub(super) const FOOT: f64 = 304.8;

/// A design as anyone may write it: plain fields, nothing checked yet.
///
/// [`Draft::new`] has every default; [`Draft::check`] makes a [`Design`](super::Design) of it. Lengths are millimetres, angles radians.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Draft {
    /// The board's name, printed on every template.
    pub name: String,
    /// Free notes of the maker's.
    pub notes: String,
    /// The unit reports are printed in.
    pub report: Unit,
    /// Board length from tail to nose, mm.
    pub length: f64,
    /// Plan shape.
    pub outline: Outline,
    /// Side view of the bottom.
    pub rocker: Rocker,
    /// Thickness along the length.
    pub foil: Foil,
    /// Section stations, in rising `x`; at least one.
    pub sections: Vec<Section>,
    /// How it is built.
    pub construction: Construction,
    /// Its skins.
    pub skins: Skins,
    /// The wood of its parts.
    pub timber: Timber,
    /// Planks, saws and machines.
    pub shop: Shop,
    /// How the end blocks are laid up.
    pub blocks: Blocks,
    /// The fins and their pads.
    pub fins: Fins,
    /// The leash plug.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plug: Option<Hole>,
    /// The vent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vent: Option<Hole>,
    /// The building bed.
    pub bed: Bed,
    /// What goes on the surface and into the joints.
    pub finish: Finish,
    /// Fins, plugs and the like.
    pub fittings: Vec<Fitting>,
    /// Who rides it.
    pub rider: Option<Rider>,
}

/// The wood of the parts, and how far the rail's is trusted.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Timber {
    /// Species of the strips.
    pub rail: Species,
    /// Species of ribs and spine.
    pub frame: Species,
    /// Species of the skins.
    pub skins: Species,
    /// Species of blocks and pads.
    pub blocks: Species,
    /// Share, 0 to 1, of clear wood's breaking strain to which strips may be bent.
    pub working_strain: f64,
    /// Which of the rail's strips are soaked or steamed before they are bent.
    pub softening: Softening,
    /// Length added to a strip at each end for fitting, mm.
    pub end_allowance: f64,
    /// Share, 0 to 1, of a limit past which no scarf may lie.
    pub scarf_strain: f64,
    /// Whether the shop's planks are the program's assumption, the file naming none.
    pub assumed_planks: bool,
}

/// Which of the rail's strips are softened, by soaking or steaming, before they are bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Softening {
    /// None: all are bent dry and cold.
    None,
    /// The starters.
    Starters,
    /// The moulded strips.
    Strips,
    /// All of them.
    All,
}

/// Plan shape: how its interior is given, and how its ends close.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outline {
    /// The interior.
    pub body: OutlineBody,
    /// How the nose closes.
    pub nose: Nose,
    /// How the tail closes.
    pub tail: Tail,
}

/// The interior of the plan shape, between tail and nose.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum OutlineBody {
    /// `(x, half-width)` points strictly between the ends, in rising `x`.
    Points(Vec<[f64; 2]>),
    /// The trade's measures. Widths are full widths.
    Measures {
        /// Greatest width, mm.
        width: f64,
        /// Place of the wide point, mm from the tail.
        wide_point: f64,
        /// Width 12 in (304.8 mm) from the nose, mm.
        nose_width: f64,
        /// Width 12 in (304.8 mm) from the tail, mm.
        tail_width: f64,
    },
}

impl OutlineBody {
    /// Full width 12 in from the tail, mm, between points on a straight line; `None` without points.
    pub fn width_before_tail(&self) -> Option<f64> {
        match self {
            Self::Measures { tail_width, .. } => Some(*tail_width),
            Self::Points(points) => between(points, FOOT).map(|half| 2.0 * half),
        }
    }
}

/// How the plan shape closes at the nose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Nose {
    /// Two straight-running sides meet; `angle` is between one side and the centreline, radians.
    Pointed {
        /// Radians from the centreline, below π/2.
        angle: f64,
    },
    /// The outline meets the centreline square.
    Round,
}

/// How the plan shape closes at the tail.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Tail {
    /// Pin: sides meet at `angle` to the centreline.
    Pin {
        /// Radians from the centreline, below π/2.
        angle: f64,
    },
    /// The outline meets the centreline square.
    Round,
    /// Cut straight across.
    Square {
        /// Width of the cut, mm.
        width: f64,
    },
    /// Cut across with rounded corners.
    Squash {
        /// Width across the tail where the corners' tangents would meet, mm.
        width: f64,
        /// Corner radius, mm.
        radius: f64,
    },
    /// Two tips with a cleft between.
    Swallow {
        /// From tip to tip, mm.
        width: f64,
        /// Depth of the cleft, mm.
        depth: f64,
    },
}

/// Side view of the bottom's centreline.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Rocker {
    /// `(x, height)` points from `x = 0` to `x = length`.
    Points(Vec<[f64; 2]>),
    /// Lift at both ends with a flat between `flat[0]` and `flat[1]`.
    Measures {
        /// Height of the bottom at the nose, mm.
        nose: f64,
        /// Height of the bottom at the tail, mm.
        tail: f64,
        /// Where the flat starts and ends, mm from the tail.
        flat: [f64; 2],
    },
}

/// Thickness along the length, measured square to the bottom.
///
/// At an end where the outline closes, the thickness is that just before the tip rounds off.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Foil {
    /// `(x, thickness)` points from `x = 0` to `x = length`.
    Points(Vec<[f64; 2]>),
    /// The trade's measures.
    Measures {
        /// Thickness half way along the board, mm.
        centre: f64,
        /// Thickness 12 in (304.8 mm) from the nose, mm.
        nose: f64,
        /// Thickness 12 in from the tail, mm.
        tail: f64,
        /// Thickness at the nose, mm.
        nose_tip: f64,
        /// Thickness at the tail, mm.
        tail_tip: f64,
    },
}

impl Foil {
    /// The `(x, thickness)` points of a board of this length, mm, from tail to nose: for measures five of them.
    pub fn points(&self, length: f64) -> Vec<[f64; 2]> {
        match self {
            Self::Points(points) => points.clone(),
            Self::Measures {
                centre,
                nose,
                tail,
                nose_tip,
                tail_tip,
            } => vec![
                [0.0, *tail_tip],
                [FOOT, *tail],
                [length / 2.0, *centre],
                [length - FOOT, *nose],
                [length, *nose_tip],
            ],
        }
    }
}

/// The section's character at one place along the board.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Section {
    /// Place, mm from the tail.
    pub x: f64,
    /// Bottom contour's kind.
    pub contour: Contour,
    /// Depth of the contour, mm; 0 for a flat.
    pub contour_depth: f64,
    /// Radius of the bottom edge, mm: small is hard, large is soft.
    pub edge_radius: f64,
    /// How far the bottom edge lies inside the apex, mm.
    pub tuck: f64,
    /// Angle at which the tuck leaves the bottom, radians.
    pub tuck_angle: f64,
    /// Height of the apex above the bottom's centre, as a fraction of the thickness there.
    pub apex: f64,
    /// Fullness of the upper rail: 0 thin, 1 boxy.
    pub fullness: f64,
    /// Fall of the deck from the centreline to half way to the apex, mm.
    ///
    /// 0 is a flat deck; a convex deck has less than half its height over the apex. Silent, it is a tenth of that height.
    pub crown: Option<f64>,
}

/// Shapes of the bottom across the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Contour {
    /// Level.
    Flat,
    /// Convex: the edges lie higher than the centre.
    Roll,
    /// The edges lie lower than the centre.
    Concave,
    /// A hollow each side of the centre.
    DoubleConcave,
    /// Two planes rising from the centreline.
    Vee,
}

/// How the board is built.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Construction {
    /// Bottom skin thickness, mm.
    pub bottom_skin: f64,
    /// Deck skin thickness, mm.
    pub deck_skin: f64,
    /// Rib thickness, mm.
    pub rib: f64,
    /// Rib centre planes, mm from the tail, rising.
    pub rib_stations: Vec<f64>,
    /// Spine thickness, mm.
    pub spine: f64,
    /// Clearance in the half-lap slots, mm over the thickness.
    pub slot_clearance: f64,
    /// Length of the solid block at the tail, mm from the tail's end (swallow: from the tips).
    pub tail_block: f64,
    /// Length of the solid block at the nose, mm.
    pub nose_block: f64,
    /// The rail strip.
    pub strip: Strip,
    /// The starter strips.
    pub starter: Starter,
    /// Least wood left behind the finished rail, mm.
    pub cover: f64,
    /// Least stock standing proud of the finished rail, mm.
    pub proud: f64,
    /// A skin follows the surface until its normal has turned this far from the plumb line, radians.
    pub skin_turn: f64,
    /// A skin does not bend tighter than this radius, mm.
    pub skin_bend_radius: f64,
    /// How ribs and spine are lightened and cut.
    pub frame: FrameCut,
}

/// A bead-and-cove strip's finished profile.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Strip {
    /// Across the rail, mm.
    pub thickness: f64,
    /// From lip plane to bead crown, mm.
    pub width: f64,
    /// Bead arc's radius, mm, at least half the thickness.
    pub bead_radius: f64,
    /// Cove arc's radius, mm, at least the bead's.
    pub cove_radius: f64,
    /// Cove depth, mm, at most the bead's sagitta.
    pub cove_depth: f64,
}

impl Strip {
    /// Least wood between the bottom of the cove and the spring of the bead, mm (common practice, no published source).
    pub const BODY: f64 = 2.0;

    /// Depth of the deepest cove of this radius, mm: where its arc meets the strip's faces.
    pub fn deepest_cove(&self) -> f64 {
        sagitta(self.cove_radius, self.thickness)
    }

    /// Least width that leaves [`Strip::BODY`] between cove and bead, mm.
    pub fn least_width(&self) -> f64 {
        self.cove_depth + sagitta(self.bead_radius, self.thickness) + Self::BODY
    }
}

/// Height of an arc of this radius over a chord of this length; its radius where the arc is too small for the chord.
pub(super) fn sagitta(radius: f64, chord: f64) -> f64 {
    let half = chord / 2.0;
    let leg = (radius - half).max(0.0) * (radius + half);
    (radius - leg.sqrt()).max(0.0)
}

/// The square strips a rail starts from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Starter {
    /// Side of the square, mm.
    pub size: f64,
    /// How many to each rail.
    pub count: usize,
    /// How many laminations each is bent as, to be glued together on the frame; 1 for a solid one.
    pub laminations: usize,
    /// How its laminations lie.
    pub lamination_plane: LaminationPlane,
    /// How several are arranged on the bottom skin.
    pub arrangement: Arrangement,
}

impl Starter {
    /// Thinnest lamination, mm: thinner ones are hard to saw and to sand evenly (common practice, no published source).
    pub const THINNEST: f64 = 2.0;

    /// Thickness of one lamination, mm.
    pub fn lamination(&self) -> f64 {
        self.size / self.laminations as f64
    }

    /// Thickness across the rail and width up it of what is bent at once, mm.
    pub fn bent(&self) -> [f64; 2] {
        match self.lamination_plane {
            LaminationPlane::Vertical => [self.lamination(), self.size],
            LaminationPlane::Horizontal => [self.size, self.lamination()],
        }
    }
}

/// How the laminations of a starter lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LaminationPlane {
    /// On edge, side by side: they bend easily round the outline.
    Vertical,
    /// Flat, one on the other: they bend easily up and down.
    Horizontal,
}

impl LaminationPlane {
    /// Where each lies by the next.
    pub fn words(self) -> &'static str {
        match self {
            Self::Vertical => "side by side",
            Self::Horizontal => "one on the other",
        }
    }
}

/// How several starters are arranged on the bottom skin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Arrangement {
    /// Side by side, flat on the skin; the outermost carries the first strip.
    SideBySide,
    /// One on the other.
    Stacked,
}
