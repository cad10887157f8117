//! Changes made in a design.

use super::Change;
use crate::design::timber::find;
use crate::design::{Design, Draft};

impl Change {
    /// The design with the change made and checked; `None` where it is none that a design file can say in one way, what it names is
    /// unknown, or the changed design would break a rule.
    pub fn apply(&self, design: &Design) -> Option<Design> {
        let mut is_made = false;
        let changed = design.with(|draft| is_made = self.make(draft)).ok()?;
        is_made.then_some(changed)
    }

    /// Whether it can be offered: it makes a sound design, or asks for what a design file cannot say in one way.
    pub fn serves(&self, design: &Design) -> bool {
        !self.is_exact() || self.apply(design).is_some()
    }

    /// Whether it says exactly what a design file then holds.
    fn is_exact(&self) -> bool {
        matches!(
            self,
            Self::Strip { .. }
                | Self::StripWidth(_)
                | Self::Starter(_)
                | Self::Species(_)
                | Self::SpeciesAndStrip { .. }
                | Self::ScarfStrain { .. }
                | Self::Stagger { .. }
                | Self::PlankLength { .. }
                | Self::PlankCount { .. }
                | Self::Laminations { .. }
                | Self::Soften(_)
        )
    }

    /// Makes the change in a draft; false where a file cannot say it or what it names is unknown.
    fn make(&self, draft: &mut Draft) -> bool {
        match self {
            Self::Strip { to, .. } => draft.construction.strip = *to,
            Self::StripWidth(width) => draft.construction.strip.width = *width,
            Self::Starter(starter) => draft.construction.starter = *starter,
            Self::Species(names) => return names.first().is_some_and(|n| change_wood(n, draft)),
            Self::SpeciesAndStrip { wood, to, .. } => {
                draft.construction.strip = *to;
                return change_wood(wood, draft);
            }
            Self::ScarfStrain { to, .. } => draft.timber.scarf_strain = *to,
            Self::Stagger { to, .. } => draft.shop.stagger = *to,
            Self::PlankLength { plank: i, to, .. } => match draft.shop.planks.get_mut(*i) {
                Some(plank) => plank.length = *to,
                None => return false,
            },
            Self::PlankCount { plank: i, to, .. } => match draft.shop.planks.get_mut(*i) {
                Some(plank) => plank.count = Some(*to),
                None => return false,
            },
            Self::Laminations { count, plane, .. } => {
                let starter = &mut draft.construction.starter;
                (starter.laminations, starter.lamination_plane) = (*count, *plane);
            }
            Self::Soften(softening) => draft.timber.softening = *softening,
            _ => return false,
        }
        true
    }
}

fn change_wood(name: &str, draft: &mut Draft) -> bool {
    let Ok(wood) = find(name) else {
        return false;
    };
    draft.timber.rail = wood.clone();
    true
}
