//! The table of codes.

use serde::{Serialize, Serializer};

use crate::design::hint;

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// The board cannot be built as it is designed.
    Error,
    /// It can be built, but something passes a limit or differs from what was entered.
    Warning,
    /// Worth knowing; not counted.
    Note,
}

/// Which part of the work a finding is about, in the order of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Topic {
    /// The finished shape.
    Shape,
    /// Ribs and spine.
    Frame,
    /// The rail's courses.
    Rail,
    /// Strips and the planks they are cut from.
    Strips,
    /// Bottom and deck skin.
    Skins,
    /// Fins, leash plug, vent and end blocks.
    Fittings,
    /// The board in the water.
    Float,
}

/// What a finding's value and limit are numbers of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimension {
    /// A length, mm.
    Length,
    /// An angle, radians.
    Angle,
    /// A strain, as a fraction.
    Strain,
    /// A radius over a thickness.
    Thicknesses,
    /// A mass, kg.
    Mass,
    /// There is no value, or a bare number.
    None,
}

/// A row of the table.
struct Row {
    name: &'static str,
    topic: Topic,
    severity: Severity,
    dimension: Dimension,
    title: &'static str,
    error_if: Option<&'static str>,
}

macro_rules! codes {
    ($($code:ident $name:literal $topic:ident $severity:ident $dimension:ident $title:literal $($error_if:literal)?;)*) => {
        /// What a finding is. The names are stable: programs may rely on them.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[non_exhaustive]
        pub enum Code {
            $(#[doc = concat!("`", $name, "`: ", $title, ".")] $code,)*
        }

        impl Code {
            /// Every code, in the order of the work.
            pub const ALL: &'static [Self] = &[$(Self::$code),*];

            fn row(self) -> Row {
                match self {
                    $(Self::$code => Row {
                        name: $name,
                        topic: Topic::$topic,
                        severity: Severity::$severity,
                        dimension: Dimension::$dimension,
                        title: $title,
                        error_if: None $(.or(Some($error_if)))?,
                    },)*
                }
            }
        }
    };
}

// Variant, name, topic, severity, what value and limit are, what is wrong, and what raises it to an error.
codes! {
    ShapeWidth "shape-width" Shape Warning Length "the board is not as wide as entered";
    ShapeWidePoint "shape-wide-point" Shape Warning Length "the board is widest elsewhere than entered";
    ShapeThickness "shape-thickness" Shape Warning Length "the board is thicker than any thickness entered";
    ShapeFoilPoint "shape-foil-point" Shape Warning Length "the board is not as thick as entered";
    ShapeRocker "shape-rocker" Shape Warning Length "the bottom is not as high as entered";
    RibLeftOut "rib-left-out" Frame Error None "a rib is left out";
    SlotNarrow "slot-narrow" Frame Warning Length "slots are narrower than the cutter";
    SlotUnrelieved "slot-unrelieved" Frame Warning Length "the cutter has no room to relieve slots, which stay square";
    SpineShort "spine-short" Frame Warning Length "the spine stops short of an end block";
    SpineScarfed "spine-scarfed" Frame Warning Length "the spine is scarfed, for a key has no room";
    SpineUndivided "spine-undivided" Frame Error Length "the spine, longer than the sheet, cannot be divided";
    BaySealed "bay-sealed" Frame Warning None "air is shut in, with no way to the vent";
    WoodBehindRail "wood-behind-rail" Rail Warning Length "too little wood behind the rail" "no wood is left: shaping the rail would open the hollow";
    PlaningAllowance "planing-allowance" Rail Warning Length "too little planing allowance outside the finished rail";
    LipOverlap "lip-overlap" Rail Warning Length "a strip's lip overlaps the strip below";
    JointGap "joint-gap" Rail Warning Length "a joint between strips is open on the finished rail";
    BaseBevel "base-bevel" Rail Warning Angle "a flat base must be planed too steeply";
    OffSkin "off-skin" Rail Warning Length "a starter stands off the bottom skin";
    RailOpen "rail-open" Rail Error Length "the top strip does not reach the deck";
    RailUnsettled "rail-unsettled" Rail Warning Length "the strips' paths could not be worked out exactly";
    BendEasyWay "bend-easy-way" Strips Warning Strain "strips are bent too far the easy way" "the strain passes what breaks the dry wood";
    BendHardWay "bend-hard-way" Strips Warning Strain "strips are bent too far the hard way" "the strain passes what breaks the dry wood";
    Twist "twist" Strips Warning Strain "strips are twisted too far" "the strain passes what breaks the wood";
    PlankTooSmall "plank-too-small" Strips Error Length "no plank is large enough for a strip's blank";
    ScarfNoRoom "scarf-no-room" Strips Error Length "a strip cannot be scarfed together from the planks";
    PlanksTooFew "planks-too-few" Strips Error Length "the planks on hand do not yield all strips";
    PlanksMissing "planks-missing" Strips Error None "the shop has no planks";
    PlanUnfinished "plan-unfinished" Strips Error None "no cutting plan was found";
    ShopFigures "shop-figures" Strips Error None "figures of the shop or the wood do not allow a cutting plan";
    BendUnjudged "bend-unjudged" Strips Note None "bend and twist of strips are not judged";
    TwistUnjudged "twist-unjudged" Strips Note Strain "twist of the strips is not judged";
    SkinStrainAlong "skin-strain-along" Skins Warning Strain "a skin must stretch or shrink too much along the grain";
    SkinStrainAcross "skin-strain-across" Skins Warning Strain "a skin must stretch or shrink too much across the grain";
    SkinBendAlong "skin-bend-along" Skins Warning Thicknesses "a skin bends too tightly along the board";
    SkinBendAcross "skin-bend-across" Skins Warning Thicknesses "a skin bends too tightly across the board";
    SkinNotFlat "skin-not-flat" Skins Error None "a skin cannot be laid flat";
    SkinPlanksShort "skin-planks-short" Skins Error Length "a skin's planks cannot be cut from the stock";
    BlockMissing "block-missing" Fittings Error None "the skins leave no room for an end block";
    FittingOffBoard "fitting-off-board" Fittings Error Length "a fitting reaches past the board's end or into its cleft";
    PadNoRoom "pad-no-room" Fittings Error None "nothing of a fitting's pad fits into the hollow";
    FittingOnRib "fitting-on-rib" Fittings Warning Length "a fitting's cut-out meets a rib";
    FittingInSpine "fitting-in-spine" Fittings Warning Length "a fitting's cut-out cuts into the spine";
    SpineLeftThin "spine-left-thin" Fittings Warning Length "a fitting's cut-out leaves too little of the spine";
    FittingInRail "fitting-in-rail" Fittings Warning Length "a fitting's cut-out reaches into the rail's strips";
    FittingNearOutline "fitting-near-outline" Fittings Warning Length "a fitting's cut-out comes too near to the outline";
    FittingTooDeep "fitting-too-deep" Fittings Warning Length "a fitting's cut-out is too deep" "it comes out of the other side of the board";
    VentBlocked "vent-blocked" Fittings Error Length "the vent ends in a solid block: no air passes";
    PadsOverlap "pads-overlap" Fittings Error Length "two pads take the same room";
    Sinks "sinks" Float Note Mass "the board does not float" "it sinks by itself, without a rider";
    NoWaterline "no-waterline" Float Note None "no waterline can be found" "the board finds none by itself, without a rider";
}

impl Code {
    /// The stable name: `wood-behind-rail`.
    pub fn name(self) -> &'static str {
        self.row().name
    }

    /// Which part of the work it is about.
    pub fn topic(self) -> Topic {
        self.row().topic
    }

    /// How much it weighs, if nothing raises it.
    pub fn severity(self) -> Severity {
        self.row().severity
    }

    /// What value and limit are numbers of.
    pub fn dimension(self) -> Dimension {
        self.row().dimension
    }

    /// What is wrong, in a few words.
    pub fn title(self) -> &'static str {
        self.row().title
    }

    /// What raises it to an error, in words; nothing where its severity never changes.
    pub fn error_if(self) -> Option<&'static str> {
        self.row().error_if
    }

    /// Whether the least value is the worst.
    pub fn less_is_worse(self) -> bool {
        matches!(self, Self::WoodBehindRail | Self::PlaningAllowance)
    }

    /// Whether it says why no cutting plan can be made.
    pub fn is_of_planks(self) -> bool {
        matches!(
            self,
            Self::PlankTooSmall
                | Self::ScarfNoRoom
                | Self::PlanksTooFew
                | Self::PlanksMissing
                | Self::PlanUnfinished
                | Self::ShopFigures
        )
    }

    /// The code of this name.
    pub fn find(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.name() == name)
    }

    /// The codes whose names are most like `word`, at most five: the nearest slip of the pen first, then those that share a part of it.
    pub fn nearest(word: &str) -> Vec<Self> {
        /// Letters that a shared part has at least.
        const PART: usize = 3;
        let word = word.to_lowercase();
        let slip = hint::nearest(&word, Self::ALL.iter().map(|c| c.name())).and_then(Self::find);
        let mut found: Vec<Self> = slip.into_iter().collect();
        let parts: Vec<&str> = word.split(|c: char| !c.is_alphanumeric()).collect();
        for part in parts.into_iter().filter(|p| p.chars().count() >= PART) {
            for code in Self::ALL {
                if code.name().contains(part) && !found.contains(code) {
                    found.push(*code);
                }
            }
        }
        found.truncate(5);
        found
    }
}

impl Serialize for Code {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

impl Severity {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

impl Topic {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Shape => "shape",
            Self::Frame => "frame",
            Self::Rail => "rail",
            Self::Strips => "strips",
            Self::Skins => "skins",
            Self::Fittings => "fittings",
            Self::Float => "float",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_kebab_case_and_each_is_found_by_itself() {
        for code in Code::ALL {
            let name = code.name();
            assert!(
                name.chars().all(|c| c.is_ascii_lowercase() || c == '-'),
                "{name}"
            );
            assert_eq!(Code::find(name), Some(*code), "{name}");
            assert_eq!(Code::nearest(name).first(), Some(code), "{name}");
        }
    }

    #[test]
    fn slips_find_their_code_and_parts_their_family() {
        assert_eq!(Code::nearest("join-gap"), [Code::JointGap]);
        assert_eq!(Code::nearest("wood-behnd-rail")[0], Code::WoodBehindRail);
        let skins = Code::nearest("skin");
        assert!(skins.len() == 5 && skins.iter().all(|c| c.name().contains("skin")));
        assert_eq!(Code::nearest("zzz"), []);
        assert_eq!(Code::nearest(""), []);
    }
}
