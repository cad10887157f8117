//! The rail's strips as work: what they ask of their wood, and how that wood is milled and cut.
//!
//! Everything here follows from the strips and the maker's shop. What cannot be had is a [`Finding`] with remedies, never an
//! error of the board: one that is short of planks is still a board.

mod findings;
mod limits;
mod remedy;
mod scarfs;
mod section;
mod shortage;
mod work;

pub use findings::unjudged;
pub use limits::limits;
pub use section::ReSolve;
pub use work::{Clamp, StripWork};

use crate::design::Design;
use crate::design::finding::Finding;
use crate::rail::{CourseKind, Strip};
use crate::wood::stock::cutting::{Budget, CuttingPlan, ScarfedBlanks, StripNeed, cutting_plan};
use crate::wood::stock::{MillingPlan, Profiles, Step, StockError, Totals, milling_plan, totals};

/// The rail's strips as work to be done, and the wood for them.
#[derive(Debug, Clone, PartialEq)]
pub struct RailWood {
    /// Finished profiles.
    pub profiles: Profiles,
    /// The starboard rail's strips, in the order of the board's; port's are alike.
    pub strips: Vec<StripWork>,
    /// What is cut, for both rails: every strip in the order of `strips`, a laminated one lamination by lamination.
    pub needs: Vec<StripNeed>,
    /// How each kind in use is milled, from the bottom of the rail up.
    pub milling: Vec<MillingPlan>,
    /// Which plank gives which strips, or why none will do.
    pub cutting: Result<CuttingPlan, StockError>,
    /// What it comes to, if there is a plan.
    pub totals: Option<Totals>,
    /// What cannot be milled or cut.
    pub faults: Vec<StockError>,
}

impl RailWood {
    /// Works out `strips` of `design`.
    pub fn new(design: &Design, strips: &[Strip]) -> Self {
        let c = &design.construction;
        let profiles = Profiles {
            strip: c.strip,
            starter: c.starter,
        };
        let works: Vec<StripWork> = strips
            .iter()
            .enumerate()
            .map(|(i, strip)| StripWork::new(design, strip, i + 1))
            .collect();
        let needs: Vec<StripNeed> = works
            .iter()
            .zip(strips)
            .flat_map(|(work, strip)| {
                let no_scarf_zones =
                    scarfs::no_scarf_zones(strip, work, &design.timber, design.timber.scarf_strain);
                (1..=work.laminations).map(move |n| StripNeed {
                    strip: work.number,
                    lamination: (work.laminations > 1).then_some(n),
                    kind: work.kind,
                    length: work.blank,
                    finished: work.finished,
                    count: 2,
                    course: work.course,
                    start: strip.ends[0] - design.timber.end_allowance,
                    no_scarf_zones: no_scarf_zones.clone(),
                })
            })
            .collect();
        let mut faults: Vec<StockError> = Vec::new();
        let mut milling = Vec::new();
        for kind in CourseKind::ALL {
            if works.iter().any(|w| w.kind == kind) {
                match milling_plan(&profiles, &design.shop, kind) {
                    Ok(mut plan) => {
                        if design.timber.softening.takes(kind) {
                            plan.steps.push(Step::softening());
                        }
                        milling.push(plan);
                    }
                    Err(fault) => faults.push(fault),
                }
            }
        }
        let cutting = cutting_plan(&needs, &profiles, &design.shop);
        let totals = match &cutting {
            Ok(plan) => match totals(plan, &needs, &profiles, &design.shop, &design.timber.rail) {
                Ok(totals) => Some(totals),
                Err(fault) => {
                    faults.push(fault);
                    None
                }
            },
            Err(fault) => {
                if !faults.contains(fault) {
                    faults.push(fault.clone());
                }
                None
            }
        };
        Self {
            profiles,
            strips: works,
            needs,
            milling,
            cutting,
            totals,
            faults,
        }
    }

    /// What passes a limit or cannot be had, and what to change, for the `design` and the `strips` this was made of; `re_solve` lays the rail
    /// of a changed design, to try what is offered.
    pub fn findings(
        &self,
        design: &Design,
        strips: &[Strip],
        re_solve: ReSolve<'_>,
    ) -> Vec<Finding> {
        let shortage = shortage::Shortage {
            design,
            strips,
            works: &self.strips,
            needs: &self.needs,
            profiles: &self.profiles,
            budget: Budget::default(),
        };
        findings::strip_findings(&shortage, &self.faults, re_solve)
    }

    /// How strip `number` is scarfed, lamination by lamination; nothing where there is no plan.
    pub fn scarfs_of(&self, number: usize) -> Vec<&ScarfedBlanks> {
        let Ok(plan) = &self.cutting else {
            return Vec::new();
        };
        let all = self.needs.iter().zip(&plan.scarfs);
        all.filter(|(need, _)| need.strip == number)
            .map(|(_, scarfed)| scarfed)
            .collect()
    }

    /// The strip with the greatest share of the limit in one way of straining.
    pub fn worst(
        &self,
        strained: crate::rail::StrainKind,
    ) -> Option<(&StripWork, &crate::rail::Demand)> {
        let of = |w| StripWork::demand_of(w, strained).map(|d| (w, d));
        self.strips.iter().filter_map(of).reduce(|a, b| {
            if b.1.utilisation.ratio > a.1.utilisation.ratio {
                b
            } else {
                a
            }
        })
    }
}
