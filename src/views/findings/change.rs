//! Remedies in words.

use super::change_strips::strip_words;
use super::numbers::{at_least, at_most, tenths};
use crate::design::finding::{BoardEnd, Change, Remedy};
use crate::design::units::{self, Unit, fine_size};

/// What to do, and what it leaves of the limit where that was tried: `make the strips 5.4 mm thick (0.98 of the limit)`.
pub fn remedy(remedy: &Remedy, unit: Unit) -> String {
    let words = words(&remedy.change, unit);
    match (remedy.ratio, &remedy.change) {
        (None, _) | (_, Change::GentlerBend { .. } | Change::GentlerTwist { .. }) => words,
        (Some(share), _) => format!("{words} ({share:.2} of the limit)"),
    }
}

fn words(change: &Change, unit: Unit) -> String {
    plain_words(change).map_or_else(
        || {
            strip_words(change, unit)
                .or_else(|| measured_words(change, unit))
                .unwrap_or_default()
        },
        str::to_owned,
    )
}

/// Changes without a number.
fn plain_words(change: &Change) -> Option<&'static str> {
    Some(match change {
        Change::LessEndWidths => "make `nose_width` or `tail_width` smaller",
        Change::OutlinePoints => "draw the outline with `points`",
        Change::MoveWidePoint => "move `wide_point`",
        Change::LessRocker => "give less rocker",
        Change::MoreFoilPoints => "give foil `points` with more thicknesses along the board",
        Change::FartherFoilPoints => "set the foil's `points` farther apart",
        Change::RockerPoints => {
            "give rocker `points` between which the bottom does not dip below the base plane"
        }
        Change::ThickerBoard => "make the board thicker there",
        Change::MoveRib => "move the rib",
        Change::SawSlots => "saw these slots and square them with chisel and file",
        Change::SquareCorners => "square their corners by hand",
        Change::SmallerCutter(None) => "use a smaller cutter (`diameter` in [construction.cutter])",
        Change::WiderRibSpacing => "set the ribs farther apart",
        Change::ScarfSpine => "scarf it (`joint = \"scarf\"` in [construction.sheet])",
        Change::LongerSheet => "use a longer sheet (`length` in [construction.sheet])",
        Change::RibToThickerPlace => "move the rib there to where the board is thicker",
        Change::FileGroove => "file a groove across the rib's edge before gluing",
        Change::ThickerStrips => "use thicker strips",
        Change::NarrowerStrips => "use narrower strips",
        Change::LessCover => "ask for less wood behind the rail (`cover`)",
        Change::LessProud => "ask for less planing allowance (`proud`)",
        Change::BevelJoints => {
            "bevel these joints with a plane: no narrower strip of this thickness serves"
        }
        Change::LargerBend => "draw the rail's section rounder there",
        Change::StartersAbreast => "lay the starters side by side",
        Change::MoreTuckAngle => {
            "give the section more `tuck_angle`, so that the rail stands steeper there"
        }
        Change::LessTuck => "give the section less `tuck`",
        Change::PlaneStarterBase => "plane the starters' base to the skin there",
        Change::FewerStarters => "take one starter less (`count`)",
        Change::LessSkinTurn => "let the skin go on straight sooner (less `skin_turn`)",
        Change::FillCorner => "fill the corner with a tapered strip",
        Change::GentlerOutline => "give the outline a gentler bend there",
        Change::TryOffcut => "bend or twist an offcut as far before you mill",
        Change::WoodFigures => "give the wood's figures in [[timber.species]]",
        Change::ShearStrength => {
            "give a shear strength (`shear`) in a [[timber.species]] of your own"
        }
        Change::LargerPlank => "add a thicker or wider plank",
        Change::SmallerAllowances => "take smaller allowances",
        Change::LongerPlanks => "get longer planks",
        Change::MoreScarfRoom => "give the scarfs more room (`scarf_strain`, `stagger`)",
        Change::MorePlanks => "add planks, or let one size be bought without a `count`",
        Change::FewerPlankSizes => "leave out sizes of planks that are not needed",
        Change::NamePlank => "name at least one plank in [[shop.plank]]",
        Change::FigureInRange => "give a value inside",
        Change::TryPanelDry => {
            "try the panel dry first: so small a patch may yield to clamps and plane"
        }
        Change::SplitPanel => "split the panel there into strakes with tapered edges",
        Change::LessDoubleCurvature => {
            "draw less curvature both ways at once: a flatter contour, or a gentler rocker"
        }
        Change::RelieveSkin => "saw or plane relief into its inner face there",
        Change::GentlerSurface => "draw the surface gentler there",
        Change::NarrowPlanks => "build it of narrow planks laid one by one",
        Change::LongerSkinPlanks => "find longer planks for `plank_length`",
        Change::ShorterPieces => "make `stagger` or `shortest_piece` of [shop] smaller",
        Change::ThinnerSkins => "make the skins thinner",
        Change::ToRoomierPlace => "move it to where the board is thicker or wider",
        Change::LowerLoad => "move the load towards the middle, or lower",
        Change::StripWidth(_)
        | Change::Strip { .. }
        | Change::SpeciesAndStrip { .. }
        | Change::Starter(_)
        | Change::Laminations { .. }
        | Change::Species(_)
        | Change::Soften(_)
        | Change::GentlerBend { .. }
        | Change::GentlerTwist { .. }
        | Change::ScarfStrain { .. }
        | Change::Stagger { .. }
        | Change::PlankLength { .. }
        | Change::PlankCount { .. }
        | Change::LongerBlock(_)
        | Change::SmallerCutter(Some(_))
        | Change::ThickerStock(_)
        | Change::SmallerBreather(_)
        | Change::LaminateSkin { .. }
        | Change::ThinnerSkin(_)
        | Change::FurtherFromEnd { .. }
        | Change::MoveAlong { .. }
        | Change::MoveRibTo { .. }
        | Change::NotchRib { .. }
        | Change::MoveOutboard { .. }
        | Change::MoveInboard { .. }
        | Change::NarrowerCut(_)
        | Change::CutDepth(_)
        | Change::ToThickerPlace(_)
        | Change::MoveApart { .. }
        | Change::SmallerMargins(_)
        | Change::LessMass(_)
        | Change::MoreVolume(_) => return None,
    })
}

/// Changes of frame, skins, fittings and load with a number.
fn measured_words(change: &Change, unit: Unit) -> Option<String> {
    let most = |mm: f64| at_most(mm, unit);
    let least = |mm: f64| at_least(mm, unit);
    Some(match change {
        Change::LongerBlock(end) => format!("lengthen the {0} block (`{0}_block`)", end.name()),
        Change::SmallerCutter(Some(mm)) => format!(
            "use a cutter of {} or less (`diameter` in [construction.cutter])",
            fine_size(*mm, unit)
        ),
        Change::ThickerStock(keys) => {
            let keys: Vec<String> = keys.iter().map(|key| format!("`{key}`")).collect();
            format!(
                "take thicker stock ({} in [construction])",
                keys.join(" and ")
            )
        }
        Change::SmallerBreather(mm) => format!(
            "make the air holes smaller than {} (`breather` in [construction.holes])",
            tenths(*mm, unit)
        ),
        Change::LaminateSkin { count, thickness } => {
            format!(
                "glue it up of {count} laminations of {} there",
                most(*thickness)
            )
        }
        Change::ThinnerSkin(mm) => format!("make the skin {} thick", most(*mm)),
        Change::FurtherFromEnd { by, now } => format!(
            "place it at least {} further from there (`from_tail`, now {}); it has no pad until then",
            least(*by),
            tenths(*now, unit)
        ),
        Change::MoveAlong {
            by,
            towards,
            from_tail,
        } => {
            let to = match towards {
                BoardEnd::Tail => most(*from_tail),
                BoardEnd::Nose => least(*from_tail),
            };
            format!(
                "move it {} towards the {} (`from_tail` = {to})",
                least(*by),
                towards.name()
            )
        }
        Change::MoveRibTo { rib, to } => format!(
            "move rib {rib} to {} or {} from the tail",
            most(to[0]),
            least(to[1])
        ),
        Change::NotchRib {
            width,
            height,
            remaining,
            of,
        } => format!(
            "notch the rib {} wide and {} high so that the pad goes through, which leaves {} of its {}",
            tenths(*width, unit),
            tenths(*height, unit),
            tenths(*remaining, unit),
            tenths(*of, unit)
        ),
        Change::MoveOutboard { by, from_centre } => format!(
            "move it {} outboard (`from_centre` = {})",
            least(*by),
            least(*from_centre)
        ),
        Change::MoveInboard { by, from_centre } => format!(
            "move it {} inboard (`from_centre` = {})",
            least(*by),
            most(*from_centre)
        ),
        Change::NarrowerCut(mm) => format!("make its cut-out {} narrower", least(*mm)),
        Change::CutDepth(mm) => format!("make it {} deep", most(*mm)),
        Change::ToThickerPlace(mm) => {
            format!("move it to where the board is {} thicker", least(*mm))
        }
        Change::MoveApart { by, along } => {
            let way = if *along {
                "along the board"
            } else {
                "across it"
            };
            format!("move one of them {} {way}", least(*by))
        }
        Change::SmallerMargins(mm) => {
            format!(
                "make their `margin`s smaller by {} between them",
                least(*mm)
            )
        }
        Change::LessMass(kg) => format!("take off {}", units::mass(*kg, unit)),
        Change::MoreVolume(litres) => format!("add {litres:.2} L of volume"),
        _ => return None,
    })
}
