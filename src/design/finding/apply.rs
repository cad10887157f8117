//! Changes made in a design.

use super::Change;
use crate::design::timber::find;
use crate::design::{Design, Plank};

impl Change {
    /// Makes the change in `design`; false where it is none that a design file can say in one way, or what it names is unknown.
    pub fn apply(&self, design: &mut Design) -> bool {
        let plank = |design: &mut Design, index: usize, change: &dyn Fn(&mut Plank)| {
            design.shop.planks.get_mut(index).map(change).is_some()
        };
        match self {
            Self::Strip { to, .. } => design.construction.strip = *to,
            Self::StripWidth(width) => design.construction.strip.width = *width,
            Self::Starter(starter) => design.construction.starter = *starter,
            Self::Species(names) => return names.first().is_some_and(|n| change_wood(n, design)),
            Self::SpeciesAndStrip { wood, to, .. } => {
                design.construction.strip = *to;
                return change_wood(wood, design);
            }
            Self::ScarfStrain { to, .. } => design.timber.scarf_strain = *to,
            Self::Stagger { to, .. } => design.shop.stagger = *to,
            Self::PlankLength { plank: i, to, .. } => {
                return plank(design, *i, &|p| p.length = *to);
            }
            Self::PlankCount { plank: i, to, .. } => {
                return plank(design, *i, &|p| p.count = Some(*to));
            }
            Self::Laminations { count, laid, .. } => {
                let starter = &mut design.construction.starter;
                (starter.laminations, starter.laid) = (*count, *laid);
            }
            Self::Soften(softened) => design.timber.softened = *softened,
            _ => return false,
        }
        true
    }
}

fn change_wood(name: &str, design: &mut Design) -> bool {
    let Ok(wood) = find(name) else {
        return false;
    };
    design.timber.rail = wood.clone();
    design.shop.species = wood.name.clone();
    true
}
