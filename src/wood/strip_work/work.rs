//! One strip as work.

use serde::Serialize;

use super::limits::limits;
use crate::design::Design;
use crate::rail::{Bar, CourseKind, Demand, Landing, StrainKind, Strip, StripDemand, demand};
use crate::wood::stock::Profiles;

/// Force with which a rib must hold a strip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Clamp {
    /// Number of the rib from the tail, starting with 1.
    pub rib: usize,
    /// Its place, mm from the tail.
    pub x: f64,
    /// Force, N.
    pub force: f64,
}

/// One strip of the starboard rail as work to be done.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripWork {
    /// Number, from the bottom skin and then from the tail, starting with 1.
    pub number: usize,
    /// Number of its course from the bottom skin, starting with 1.
    pub course: usize,
    /// What it is.
    pub kind: CourseKind,
    /// Where it begins and ends, mm from the tail.
    pub ends: [f64; 2],
    /// What its ends lie on, tail first.
    pub landings: [Landing; 2],
    /// Finished length, mm.
    pub finished: f64,
    /// Length with the allowance at both ends, mm.
    pub blank: f64,
    /// Finished thickness across the rail and width up it, mm, of what is bent at once: of a laminated starter those of one lamination.
    pub section: [f64; 2],
    /// How many laminations it is bent as; 1 where it is solid.
    pub laminations: usize,
    /// How it is strained against what its wood takes; `None` where the wood's figures do not say.
    pub demand: Option<StripDemand>,
    /// Springing back at the ribs, from the tail.
    pub clamps: Vec<Clamp>,
}

impl StripWork {
    /// Strip `number` of `design`.
    pub(super) fn new(design: &Design, strip: &Strip, number: usize) -> Self {
        let c = &design.construction;
        let profiles = Profiles {
            strip: c.strip,
            starter: c.starter,
        };
        let [thickness, width] = profiles.bent(strip.kind);
        let laminations = profiles.laminations(strip.kind);
        let wood = &design.timber.rail;
        let bar = Bar { thickness, width };
        let demand = limits(&design.timber, wood, strip.kind)
            .and_then(|limits| demand(strip, bar, &limits, &c.rib_stations));
        // Second moments of full rectangles that slide on each other: bead and cove take little from them.
        let rigidity = laminations as f64 * wood.true_modulus() * width * thickness.powi(3) / 12.0;
        let number_of = |x: f64| {
            c.rib_stations
                .iter()
                .position(|r| *r == x)
                .map_or(0, |i| i + 1)
        };
        Self {
            number,
            course: strip.course + 1,
            kind: strip.kind,
            ends: strip.ends,
            landings: strip.landings,
            finished: strip.length,
            blank: strip.length + 2.0 * design.timber.end_allowance,
            section: [thickness, width],
            laminations,
            demand: demand.ok(),
            clamps: strip
                .spring_back(&c.rib_stations, rigidity)
                .into_iter()
                .map(|(x, force)| Clamp {
                    rib: number_of(x),
                    x,
                    force,
                })
                .collect(),
        }
    }

    /// The worst of one way of straining.
    pub fn demand_of(&self, strained: StrainKind) -> Option<&Demand> {
        let demands = &self.demand.as_ref()?.demands;
        demands.iter().find(|d| d.strained == strained)
    }

    /// The rib it springs back from hardest.
    pub fn hardest_clamp(&self) -> Option<Clamp> {
        self.clamps
            .iter()
            .copied()
            .reduce(|a, b| if b.force > a.force { b } else { a })
    }
}

impl StrainKind {
    /// All three ways.
    pub const ALL: [Self; 3] = [Self::EasyWay, Self::HardWay, Self::Twist];

    /// Its name in the trade.
    pub fn name(self) -> &'static str {
        match self {
            Self::EasyWay => "bend the easy way",
            Self::HardWay => "bend the hard way",
            Self::Twist => "twist",
        }
    }
}

impl Demand {
    /// Between which of so many ribs it is, tail first; nothing for a block.
    pub fn between_ribs(&self, ribs: usize) -> [Option<usize>; 2] {
        let [a, b] = self.between;
        [(a > 0).then_some(a), (b <= ribs).then_some(b)]
    }
}
