//! The wood a rail takes: what to buy, what becomes of it, and how it moves with the air.

use serde::Serialize;

use crate::board::Board;
use crate::design::timber::{Air, Grain, movement};
use crate::wood::stock::{Aim, Totals};

/// Where a board is glued up.
pub const SHOP_AIR: Air = Air {
    temperature: 20.0,
    humidity: 0.5,
};
/// Where it comes to lie.
pub const BEACH_AIR: Air = Air {
    temperature: 25.0,
    humidity: 0.85,
};

/// Planks of one size that are needed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlankReport {
    /// What the maker calls it.
    pub name: String,
    /// How many.
    pub count: usize,
}

/// How good the cutting plan is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlanReport {
    /// What it makes least.
    pub aim: Aim,
    /// Whether nothing less will do, strips being scarfed where they are.
    pub proven: bool,
    /// Share of the aim's value that could still be saved at most with these scarfs.
    pub gap: f64,
    /// The same, wherever strips are scarfed.
    pub gap_any_scarf: f64,
    /// Share of the lanes' length that could still be saved at most.
    pub gap_lanes: f64,
    /// Scarf joints in a set of strips for both rails, without spares.
    pub scarfs: usize,
}

/// What the air does to a strip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MovementReport {
    /// Moisture content in the shop, percent of dry mass.
    pub from: f64,
    /// Moisture content on the beach, percent of dry mass.
    pub to: f64,
    /// What a strip's width gains if the rings lie along it, mm.
    pub strip: f64,
    /// What a skin of the same wood gains across each 100 mm of flatsawn plank, mm.
    pub skin: f64,
    /// Whether both contents lie where the coefficients hold; if not, the gains are rough.
    pub in_range: bool,
}

/// The wood.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WoodReport {
    /// Species of the strips.
    pub species: String,
    /// Share of its breaking strain that strips may be bent to.
    pub working: f64,
    /// Moisture content it is weighed at, percent of dry mass.
    pub moisture: f64,
    /// Whether the planks are the program's assumption, the file naming none.
    pub assumed_planks: bool,
    /// Planks to buy or take, by size.
    pub planks: Vec<PlankReport>,
    /// What it comes to; nothing where there is no plan.
    pub totals: Option<Totals>,
    /// How good the plan is.
    pub plan: Option<PlanReport>,
    /// What a change of air does; nothing for a species without shrinkage figures.
    pub movement: Option<MovementReport>,
}

impl WoodReport {
    /// Summarises the wood of `board`.
    pub(super) fn new(board: &Board) -> Self {
        let (rail_wood, timber, shop) =
            (&board.rail_wood, &board.design.timber, &board.design.shop);
        let plan = rail_wood.cutting.as_ref().ok();
        let sizes = shop.planks.iter().enumerate().filter_map(|(i, size)| {
            let count = plan?.planks.iter().filter(|p| p.size == i).count();
            (count > 0).then(|| PlankReport {
                name: size.name.clone(),
                count,
            })
        });
        let width = rail_wood.profiles.strip.width;
        let moves = |size| movement(&timber.rail, size, Grain::Tangential, SHOP_AIR, BEACH_AIR);
        let moved = moves(width).ok().zip(moves(100.0).ok());
        Self {
            species: timber.rail.name.clone(),
            working: timber.working_strain,
            moisture: shop.moisture,
            assumed_planks: timber.assumed_planks,
            planks: sizes.collect(),
            totals: rail_wood.totals,
            plan: plan.map(|plan| PlanReport {
                aim: shop.aim,
                proven: plan.optimal,
                gap: plan.gap(),
                gap_any_scarf: plan.gap_any_scarf(),
                gap_lanes: plan.gap_lanes(),
                scarfs: rail_wood
                    .needs
                    .iter()
                    .zip(&plan.scarfs)
                    .map(|(need, s)| need.count as usize * s.joints.len())
                    .sum(),
            }),
            movement: moved.map(|(strip, skin)| MovementReport {
                from: strip.from,
                to: strip.to,
                strip: strip.change,
                skin: skin.change,
                in_range: strip.in_range,
            }),
        }
    }
}
