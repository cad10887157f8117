//! Changes made in a design.

use super::Change;
use crate::design::timber::find;
use crate::design::{Design, Draft};

impl Change {
    /// The design with the change made and checked; `None` where it is none that a design file can say, what it names is unknown, or
    /// the changed design would break a rule.
    pub fn apply(&self, design: &Design) -> Option<Design> {
        let mut known = true;
        let changed = design.with(|draft| known = self.make(draft)).ok()?;
        known.then_some(changed)
    }

    /// Whether it can be offered: it makes a sound design, or asks for what no design file says.
    pub(super) fn serves(&self, design: &Design) -> bool {
        matches!(self, Self::Gentler(_) | Self::Shop) || self.apply(design).is_some()
    }

    /// Makes the change in a draft; false where a file cannot say it or what it names is unknown.
    fn make(&self, draft: &mut Draft) -> bool {
        match self {
            Self::Strip(strip) => draft.construction.strip = *strip,
            Self::Starter(starter) => draft.construction.starter = *starter,
            Self::Species(name) => return other_wood(name, draft),
            Self::Both(name, strip) => {
                draft.construction.strip = *strip;
                return other_wood(name, draft);
            }
            Self::ScarfStrain(share) => draft.timber.scarf_strain = *share,
            Self::Stagger(mm) => draft.shop.stagger = *mm,
            Self::PlankLength(index, mm) => match draft.shop.planks.get_mut(*index) {
                Some(plank) => plank.length = *mm,
                None => return false,
            },
            Self::PlankCount(index, count) => match draft.shop.planks.get_mut(*index) {
                Some(plank) => plank.count = Some(*count),
                None => return false,
            },
            Self::Laminations { count, plane } => {
                let starter = &mut draft.construction.starter;
                (starter.laminations, starter.lamination_plane) = (*count, *plane);
            }
            Self::Softening(kind) => {
                draft.timber.softening = draft.timber.softening.and(*kind);
            }
            Self::Gentler(_) | Self::Shop => return false,
        }
        true
    }
}

fn other_wood(name: &str, draft: &mut Draft) -> bool {
    let Ok(wood) = find(name) else {
        return false;
    };
    draft.timber.rail = wood.clone();
    true
}
