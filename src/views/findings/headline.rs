//! What is wrong, with its limit.

use super::numbers::{degrees, fine, percent, tenths};
use super::parts::{numbered, part_name};
use crate::design::finding::{Code, Fact, Finding, Part, Topic};
use crate::design::units::{Unit, fine_size, place};

/// What is wrong with its limit, in one line without a full stop.
pub(super) fn headline(f: &Finding, unit: Unit) -> String {
    match f.code.topic() {
        Topic::Frame => frame(f, unit),
        Topic::Rail => rail(f, unit),
        Topic::Strips => strips(f),
        Topic::Skins => skins(f),
        Topic::Fittings => fittings(f, unit),
        _ => None,
    }
    .unwrap_or_else(|| f.code.title().to_owned())
}

fn frame(f: &Finding, unit: Unit) -> Option<String> {
    Some(match f.code {
        Code::RibLeftOut => {
            let fault = f.facts.iter().find_map(|fact| match fact {
                Fact::Rib(fault) => Some(fault),
                _ => None,
            })?;
            format!("{} is left out: {fault}", part_name(&f.part))
        }
        Code::SlotNarrow => format!(
            "slots are narrower than the cutter of {}, which cannot cut them",
            fine_size(f.limit?, unit)
        ),
        Code::SlotUnrelieved => format!(
            "a cutter of {} has no room to relieve slots, which stay square",
            fine_size(f.limit?, unit)
        ),
        Code::SpineShort => {
            let end = f.facts.iter().find_map(|fact| match fact {
                Fact::End(end) => Some(end.name()),
                _ => None,
            })?;
            let short = place(f.value?, unit);
            format!("the spine stops {short} short of the {end} block")
        }
        _ => return None,
    })
}

fn rail(f: &Finding, unit: Unit) -> Option<String> {
    let limit = f.limit?;
    let size = fine(limit, unit);
    Some(match f.code {
        Code::WoodBehindRail => format!("less than {size} of wood behind the rail"),
        Code::PlaningAllowance => {
            format!("planing allowance of less than {size} outside the finished rail")
        }
        Code::LipOverlap => format!("a strip's lip overlaps the strip below by more than {size}"),
        Code::JointGap => {
            format!("a joint between strips is open by more than {size} on the finished rail")
        }
        Code::BaseBevel => format!("a flat base must be planed steeper than {}", degrees(limit)),
        Code::OffSkin => format!("a starter stands more than {size} off the bottom skin"),
        _ => return None,
    })
}

fn strips(f: &Finding) -> Option<String> {
    let how = match f.code {
        Code::BendEasyWay => "bent the easy way",
        Code::BendHardWay => "bent the hard way",
        Code::Twist => "twisted",
        Code::ScarfNoRoom => {
            return Some(format!(
                "{} cannot be scarfed together from the planks",
                part_name(&f.part)
            ));
        }
        _ => return None,
    };
    let kind = match f.part {
        Part::Starters(_) => "starters",
        _ => "strips",
    };
    let wood = f.facts.iter().find_map(|fact| match fact {
        Fact::Wood(name) => Some(name.as_str()),
        _ => None,
    });
    let held = f.facts.iter().find_map(|fact| match fact {
        Fact::Softened => Some("what softened wood takes".to_owned()),
        Fact::Working(share) => Some(format!(
            "{:.0} % of what breaks {}",
            100.0 * share,
            wood.unwrap_or("the wood")
        )),
        _ => None,
    })?;
    let limit = percent(f.limit?);
    Some(format!("{kind} are {how} past {limit} strain, {held}"))
}

fn skins(f: &Finding) -> Option<String> {
    let skin = part_name(&f.part);
    let verb = match f.value {
        Some(value) if value < 0.0 => "shrink",
        _ => "stretch",
    };
    let strained = |way: &str| {
        let limit = percent(f.limit?);
        Some(format!(
            "the {skin} must {verb} more than {limit} {way} the grain"
        ))
    };
    let bent = |way: &str| {
        let limit = f.limit?;
        Some(format!(
            "the {skin} bends {way} the board tighter than {limit:.0} times its thickness"
        ))
    };
    match f.code {
        Code::SkinStrainAlong => strained("along"),
        Code::SkinStrainAcross => strained("across"),
        Code::SkinBendAlong => bent("along"),
        Code::SkinBendAcross => bent("across"),
        Code::SkinNotFlat => Some(format!("the {skin} cannot be laid flat")),
        Code::SkinPlanksShort => Some(format!("the {skin}'s planks cannot be cut from the stock")),
        _ => None,
    }
}

/// A fitting's cut-out: `fin-1's cut-out`, `the hole for vent`.
pub(super) fn cut_out(f: &Finding) -> String {
    let name = part_name(&f.part);
    if f.facts.contains(&Fact::FinCut) {
        format!("{name}'s cut-out")
    } else {
        format!("the hole for {name}")
    }
}

fn fittings(f: &Finding, unit: Unit) -> Option<String> {
    let name = part_name(&f.part);
    let against = f.against.as_ref().map(part_name).unwrap_or_default();
    let value = f.value.map_or(String::new(), |mm| tenths(mm, unit));
    let limit = f.limit.map_or(String::new(), |mm| tenths(mm, unit));
    Some(match f.code {
        Code::BlockMissing => format!("the skins leave no room for the {name}"),
        Code::FittingOffBoard => {
            format!("{name} reaches {value} past the board's end or into its cleft")
        }
        Code::PadNoRoom => format!("nothing of {name}'s pad fits into the hollow"),
        Code::FittingOnRib => {
            format!(
                "{} meets {against}, {value} past its nearer face",
                cut_out(f)
            )
        }
        Code::FittingInSpine => format!("{} cuts {value} into the spine", cut_out(f)),
        Code::SpineLeftThin => format!(
            "{} leaves {value} of the spine, less than {limit}",
            cut_out(f)
        ),
        Code::FittingInRail => format!(
            "{} reaches past its pad into the rail's strips by {value}",
            cut_out(f)
        ),
        Code::FittingNearOutline => f.facts.iter().find_map(|fact| match fact {
            Fact::LeastDistance(mm) => Some(format!(
                "{} comes nearer to the outline than {}, by {value}",
                cut_out(f),
                tenths(*mm, unit)
            )),
            _ => None,
        })?,
        Code::FittingTooDeep => f.facts.iter().find_map(|fact| match fact {
            Fact::ComesOut(face) => {
                Some(format!("{} comes out of the {}", cut_out(f), face.name()))
            }
            Fact::IntoSkin(mm) => Some(format!(
                "{} cuts {} into the {against}",
                cut_out(f),
                tenths(*mm, unit)
            )),
            Fact::Floor(mm) => Some(format!(
                "{} leaves less than {} under it",
                cut_out(f),
                tenths(*mm, unit)
            )),
            _ => None,
        })?,
        Code::PadsOverlap => format!("the pads of {name} and {against} take the same room"),
        _ => return None,
    })
}

/// The ribs of a finding's places, in words; nothing where it names none.
pub(super) fn ribs(f: &Finding) -> Option<String> {
    let mut ribs: Vec<usize> = f.places.iter().filter_map(|s| s.place.rib).collect();
    ribs.dedup();
    (!ribs.is_empty()).then(|| numbered("rib", &ribs))
}
