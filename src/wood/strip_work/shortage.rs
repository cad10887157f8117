//! What to change when strips cannot be scarfed together or planks run out: least changes, each tried.

use super::{StripWork, scarfs};
use crate::design::finding::{Change, Remedy};
use crate::design::units::hundredths;
use crate::design::{Design, Shop};
use crate::rail::Strip;
use crate::wood::stock::cutting::{Budget, StripNeed, cutting_plan_within, scarfs_fit};
use crate::wood::stock::{Profiles, StockError};

/// Steps in which changes are sought: of a share, and of lengths, mm.
const SHARE: f64 = 0.05;
const STAGGER: f64 = 25.0;
const LENGTH: f64 = 50.0;

/// The strips and what is to be cut for them.
pub(super) struct Shortage<'a> {
    pub design: &'a Design,
    pub strips: &'a [Strip],
    pub works: &'a [StripWork],
    pub needs: &'a [StripNeed],
    pub profiles: &'a Profiles,
    /// Effort for all trials together.
    pub budget: Budget,
}

impl Shortage<'_> {
    /// Changes that serve against `fault`, the smallest first; none where the fault's own words have to do.
    pub fn remedies(&self, fault: &StockError) -> Vec<Remedy> {
        let mut found: Vec<Remedy> = match fault {
            StockError::Scarf { .. } => [self.nearer_bends(), self.nearer_joints(), self.longer()]
                .into_iter()
                .flatten()
                .collect(),
            StockError::NotEnough { .. } => self.more().into_iter().collect(),
            _ => Vec::new(),
        };
        found.retain(|remedy| remedy.change.serves(self.design));
        found.sort_by(|a, b| a.effort.total_cmp(&b.effort));
        found
    }

    fn fits(&self, needs: &[StripNeed], shop: &Shop) -> bool {
        scarfs_fit(needs, self.profiles, shop, &self.budget).is_ok()
    }

    /// A greater share of the limits at which scarfs may lie.
    fn nearer_bends(&self) -> Option<Remedy> {
        let now = self.design.timber.scarf_strain;
        let steps = ((1.0 - now) / SHARE + 1e-9).floor() as usize;
        let at = |step: usize| hundredths(now + SHARE * step as f64);
        let step = least(steps, |step| {
            let mut needs = self.needs.to_vec();
            for (strip, work) in self.strips.iter().zip(self.works) {
                let no_scarf_zones =
                    scarfs::no_scarf_zones(strip, work, &self.design.timber, at(step));
                for need in needs.iter_mut().filter(|n| n.strip == work.number) {
                    need.no_scarf_zones.clone_from(&no_scarf_zones);
                }
            }
            self.fits(&needs, &self.design.shop)
        })?;
        Some(Remedy {
            change: Change::ScarfStrain { to: at(step), now },
            ratio: None,
            effort: at(step) - now,
        })
    }

    /// A smaller distance between the scarfs of neighbours.
    fn nearer_joints(&self) -> Option<Remedy> {
        let now = self.design.shop.stagger;
        let steps = (now / STAGGER).ceil() as usize;
        let at = |step: usize| (now - STAGGER * step as f64).max(0.0);
        let step = least(steps, |step| {
            let shop = Shop {
                stagger: at(step),
                ..self.design.shop.clone()
            };
            self.fits(self.needs, &shop)
        })?;
        Some(Remedy {
            change: Change::Stagger { to: at(step), now },
            ratio: None,
            effort: 1.0 - at(step) / now.max(1e-9),
        })
    }

    /// Longer planks in the place of the longest.
    fn longer(&self) -> Option<Remedy> {
        let shop = &self.design.shop;
        let (index, longest) = shop
            .planks
            .iter()
            .enumerate()
            .filter(|(_, p)| p.count != Some(0))
            .max_by(|a, b| a.1.length.total_cmp(&b.1.length).then(b.0.cmp(&a.0)))?;
        let whole = self.needs.iter().map(|n| n.length).fold(0.0, f64::max) + shop.allowances.ends;
        let steps = ((whole - longest.length) / LENGTH).ceil().max(0.0) as usize;
        let at = |step: usize| LENGTH * (longest.length / LENGTH + step as f64).ceil();
        let longer = |step: usize| {
            let mut shop = shop.clone();
            if let Some(plank) = shop.planks.get_mut(index) {
                plank.length = at(step);
            }
            shop
        };
        let step = least(steps, |step| self.fits(self.needs, &longer(step)))?;
        Some(Remedy {
            change: Change::PlankLength {
                plank: index,
                name: longest.name.clone(),
                to: at(step),
                now: longest.length,
            },
            ratio: None,
            effort: 0.3,
        })
    }

    /// More planks of the size that takes the fewest more.
    fn more(&self) -> Option<Remedy> {
        let shop = &self.design.shop;
        let limited = shop.planks.iter().enumerate().filter_map(|(i, plank)| {
            let mut free = shop.clone();
            free.planks.get_mut(i)?.count = None;
            let plan = cutting_plan_within(self.needs, self.profiles, &free, &self.budget).ok()?;
            let taken = plan.planks.iter().filter(|p| p.size == i).count();
            let taken = u32::try_from(taken).ok()?;
            Some((taken.saturating_sub(plank.count?), taken, i))
        });
        let (more, count, index) = limited.min()?;
        let plank = shop.planks.get(index)?;
        Some(Remedy {
            change: Change::PlankCount {
                plank: index,
                name: plank.name.clone(),
                more,
                to: count,
            },
            ratio: None,
            effort: 0.3,
        })
    }
}

/// The least of 1 to `most` that serves, if `most` does, taking it that more serves better.
fn least(most: usize, serves: impl Fn(usize) -> bool) -> Option<usize> {
    if most == 0 || !serves(most) {
        return None;
    }
    let (mut low, mut high) = (0, most);
    while high - low > 1 {
        let middle = (low + high) / 2;
        if serves(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(high)
}
