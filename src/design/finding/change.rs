//! What a maker may change.

use serde::Serialize;

use super::BoardEnd;
use crate::design::{LaminationPlane, Softening, Starter, Strip};

/// A change. Lengths are mm, masses kg.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case", rename_all_fields = "kebab-case")]
#[non_exhaustive]
pub enum Change {
    // The shape.
    /// Less width at nose or tail.
    LessEndWidths,
    /// The outline by points.
    OutlinePoints,
    /// The wide point elsewhere.
    MoveWidePoint,
    /// Less rocker.
    LessRocker,
    /// More thicknesses along the board.
    MoreFoilPoints,
    /// Thicknesses farther apart.
    FartherFoilPoints,
    /// Rocker points without a dip between them.
    RockerPoints,
    /// A thicker board there.
    ThickerBoard,

    // The frame.
    /// The rib elsewhere.
    MoveRib,
    /// A longer end block.
    LongerBlock(BoardEnd),
    /// A smaller cutter, of this diameter or less where that is known.
    SmallerCutter(Option<f64>),
    /// These slots sawn, and squared by hand.
    SawSlots,
    /// Corners squared by hand.
    SquareCorners,
    /// Thicker stock for these keys.
    ThickerStock(Vec<&'static str>),
    /// Ribs farther apart.
    WiderRibSpacing,
    /// A scarfed spine.
    ScarfSpine,
    /// A longer sheet.
    LongerSheet,
    /// Air holes smaller than this.
    SmallerBreather(f64),
    /// The rib where the board is thicker.
    RibToThickerPlace,
    /// A groove filed across the rib's edge.
    FileGroove,

    // The rail.
    /// Thicker strips.
    ThickerStrips,
    /// Narrower strips.
    NarrowerStrips,
    /// Strips this wide, with which every joint of the whole rail holds.
    StripWidth(f64),
    /// Less wood wanted behind the rail.
    LessCover,
    /// Less planing allowance wanted.
    LessProud,
    /// Joints bevelled with a plane: no narrower strip of this thickness serves.
    BevelJoints,
    /// A larger bend in the section.
    LargerBend,
    /// Starters side by side.
    StartersAbreast,
    /// A larger tuck angle.
    MoreTuckAngle,
    /// Less tuck.
    LessTuck,
    /// The starters' base planed to the skin.
    PlaneStarterBase,
    /// One starter less.
    FewerStarters,
    /// A skin that goes on straight sooner.
    LessSkinTurn,
    /// The corner filled with a tapered strip.
    FillCorner,
    /// A gentler bend in the outline.
    GentlerOutline,

    // Strips.
    /// Another section of the moulded strips.
    Strip {
        /// The section.
        to: Strip,
        /// The section now.
        now: Strip,
    },
    /// Other starters.
    Starter(Starter),
    /// Every starter bent as laminations and glued together on the frame.
    Laminations {
        /// How many.
        count: usize,
        /// How they lie: horizontal against bends the hard way.
        plane: LaminationPlane,
        /// The starters as they are.
        now: Starter,
    },
    /// One of these species, of the program's.
    Species(Vec<String>),
    /// Another species and another section, where neither serves alone.
    SpeciesAndStrip {
        /// The species, of the program's.
        wood: String,
        /// The section.
        to: Strip,
        /// The section now.
        now: Strip,
    },
    /// Strips softened before they are bent, with the value of the key `softening`.
    Soften(Softening),
    /// A rail with no tighter bend.
    GentlerBend {
        /// Curvature that would pass, 1/m.
        to: f64,
        /// Curvature now.
        now: f64,
    },
    /// A rail with no more twist.
    GentlerTwist {
        /// Twist that would pass, radians/m.
        to: f64,
        /// Twist now.
        now: f64,
    },
    /// An offcut bent or twisted as far first.
    TryOffcut,
    /// The wood's figures given.
    WoodFigures,
    /// The wood's shear strength given.
    ShearStrength,

    // Planks.
    /// Scarfs nearer to the bends.
    ScarfStrain {
        /// Share of the limits.
        to: f64,
        /// Now.
        now: f64,
    },
    /// Scarfs of neighbours nearer to each other.
    Stagger {
        /// Least distance.
        to: f64,
        /// Now.
        now: f64,
    },
    /// Longer planks of one of the shop's sizes.
    PlankLength {
        /// Index of the size.
        plank: usize,
        /// Its name.
        name: String,
        /// Length.
        to: f64,
        /// Now.
        now: f64,
    },
    /// More planks of one of the shop's sizes.
    PlankCount {
        /// Index of the size.
        plank: usize,
        /// Its name.
        name: String,
        /// How many more.
        more: u32,
        /// How many in all.
        to: u32,
    },
    /// A thicker or wider plank.
    LargerPlank,
    /// Smaller allowances.
    SmallerAllowances,
    /// Longer planks.
    LongerPlanks,
    /// More room for the scarfs.
    MoreScarfRoom,
    /// More planks, or some without a count.
    MorePlanks,
    /// Sizes of planks left out that are not needed.
    FewerPlankSizes,
    /// At least one plank.
    NamePlank,
    /// The figure put into its range.
    FigureInRange,

    // Skins.
    /// The panel tried dry: so small a patch may yield to clamps and plane.
    TryPanelDry,
    /// The panel split into strakes with tapered edges.
    SplitPanel,
    /// Less curvature both ways at once.
    LessDoubleCurvature,
    /// Relief sawn or planed into the inner face.
    RelieveSkin,
    /// The skin glued up of laminations there.
    LaminateSkin {
        /// How many.
        count: usize,
        /// Thickness of each.
        thickness: f64,
    },
    /// A thinner skin.
    ThinnerSkin(f64),
    /// A gentler surface.
    GentlerSurface,
    /// Narrow planks laid one by one.
    NarrowPlanks,
    /// Longer planks for the skins.
    LongerSkinPlanks,
    /// A smaller stagger or shortest piece.
    ShorterPieces,
    /// Thinner skins.
    ThinnerSkins,

    // Fittings.
    /// At least so much further from the board's end or cleft.
    FurtherFromEnd {
        /// By how much.
        by: f64,
        /// `from_tail` now.
        now: f64,
    },
    /// The fitting moved along the board.
    MoveAlong {
        /// By how much.
        by: f64,
        /// Towards this end.
        towards: BoardEnd,
        /// `from_tail` then.
        from_tail: f64,
    },
    /// A rib moved to one of two places.
    MoveRibTo {
        /// Its number.
        rib: usize,
        /// Places from the tail: nearer to the tail, nearer to the nose.
        to: [f64; 2],
    },
    /// The rib notched so that the pad goes through.
    NotchRib {
        /// Width of the notch.
        width: f64,
        /// Its height.
        height: f64,
        /// What it leaves of the rib's height.
        remaining: f64,
        /// The rib's height.
        of: f64,
    },
    /// The fitting moved away from the centreline.
    MoveOutboard {
        /// By how much.
        by: f64,
        /// `from_centre` then.
        from_centre: f64,
    },
    /// The fitting moved to the centreline.
    MoveInboard {
        /// By how much.
        by: f64,
        /// `from_centre` then.
        from_centre: f64,
    },
    /// A narrower cut-out, by so much.
    NarrowerCut(f64),
    /// A cut-out of this depth.
    CutDepth(f64),
    /// The fitting where the board is thicker by so much.
    ToThickerPlace(f64),
    /// The fitting where the board is thicker or wider.
    ToRoomierPlace,
    /// Two fittings moved apart.
    MoveApart {
        /// By how much.
        by: f64,
        /// Along the board, else across it.
        along: bool,
    },
    /// Margins of two pads smaller by so much between them.
    SmallerMargins(f64),

    // Float.
    /// So much mass less.
    LessMass(f64),
    /// So many litres more.
    MoreVolume(f64),
    /// The load nearer to the middle, or lower.
    LowerLoad,
}
