//! Changes made in a design.

use super::Change;
use crate::design::timber::find;
use crate::design::{Design, Plank};

impl Change {
    /// Makes the change in `design`; false where it is none that a design file can say, or what it names is unknown.
    pub fn apply(&self, design: &mut Design) -> bool {
        let plank = |design: &mut Design, index: usize, change: &dyn Fn(&mut Plank)| {
            design.shop.planks.get_mut(index).map(change).is_some()
        };
        match self {
            Self::Strip(strip) => design.construction.strip = *strip,
            Self::Starter(starter) => design.construction.starter = *starter,
            Self::Species(name) => return other_wood(name, design),
            Self::Both(name, strip) => {
                design.construction.strip = *strip;
                return other_wood(name, design);
            }
            Self::ScarfStrain(share) => design.timber.scarf_strain = *share,
            Self::Stagger(mm) => design.shop.stagger = *mm,
            Self::PlankLength(index, mm) => return plank(design, *index, &|p| p.length = *mm),
            Self::PlankCount(index, count) => {
                return plank(design, *index, &|p| p.count = Some(*count));
            }
            Self::Laminations { count, laid } => {
                let starter = &mut design.construction.starter;
                (starter.laminations, starter.laid) = (*count, *laid);
            }
            Self::Softened(kind) => {
                design.timber.softened = design.timber.softened.and(*kind);
            }
            Self::Gentler(_) | Self::Shop => return false,
        }
        true
    }
}

fn other_wood(name: &str, design: &mut Design) -> bool {
    let Ok(wood) = find(name) else {
        return false;
    };
    design.timber.rail = wood.clone();
    design.shop.species = wood.name.clone();
    true
}
