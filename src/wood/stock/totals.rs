//! What a plan comes to: wood to buy, yield, waste, price, mass.

use super::cutting::{CuttingPlan, StripNeed};
use super::{Plank, Profiles, Shop, StockError};
use crate::design::timber::Species;
use serde::Serialize;

/// Cubic millimetres in a cubic inch.
const CUBIC_INCH: f64 = 25.4 * 25.4 * 25.4;
/// Cubic inches in a board foot, of nominal size (ASTM D9 and PS 20, from memory).
const BOARD_FOOT: f64 = 144.0;

/// Totals of a cutting plan.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Totals {
    /// Planks to buy or take.
    pub planks: u32,
    /// Board feet, on nominal thickness and width where a plank is sold so, else on its size as bought.
    pub board_feet: f64,
    /// Volume of the planks as bought, m³.
    pub volume: f64,
    /// Price of the planks, the maker's money.
    pub price: f64,
    /// Volume of the strips wanted, as finished, over that of the planks.
    pub yielded: f64,
    /// Volume of the spare strips, as finished, over that of the planks.
    pub spare: f64,
    /// Volume of offcuts and whole leaves worth keeping, over that of the planks.
    pub kept: f64,
    /// The rest: dust, shavings, short offcuts, over the planks' volume.
    pub waste: f64,
    /// Mass of the finished strips in the board, both rails, kg, at the shop's moisture content; without glue.
    pub strip_mass: f64,
}

/// Board feet in one plank: nominal inches where given.
///
/// ```
/// # use boardwright::wood::stock::{board_feet, Plank};
/// let one_by_six = Plank { name: "1 × 6".into(), length: 12.0 * 304.8, width: 139.7, thickness: 19.05, count: None, price: 0.0, nominal: Some([1.0, 6.0]) };
/// assert!((board_feet(&one_by_six) - 6.0).abs() < 1e-9); // 12 ft × 1 in × 6 in / 12
/// ```
pub fn board_feet(plank: &Plank) -> f64 {
    let [thickness, width] = plank
        .nominal
        .unwrap_or([plank.thickness / 25.4, plank.width / 25.4]);
    plank.length / 25.4 * thickness * width / BOARD_FOOT
}

/// One board foot, m³: 144 cubic inches.
pub fn board_foot_volume() -> f64 {
    BOARD_FOOT * CUBIC_INCH * 1e-9
}

/// Adds a plan up.
///
/// # Errors
///
/// [`StockError::Timber`] if the shop's moisture content is outside what density is known for.
pub fn totals(
    plan: &CuttingPlan,
    needs: &[StripNeed],
    profiles: &Profiles,
    shop: &Shop,
    species: &Species,
) -> Result<Totals, StockError> {
    let density = species.density(shop.moisture)?;
    let sizes = || plan.planks.iter().filter_map(|p| shop.planks.get(p.size));
    let volume: f64 = sizes().map(|p| p.length * p.width * p.thickness).sum();
    let finished: f64 = needs
        .iter()
        .map(|n| profiles.area(n.kind) * n.finished * f64::from(n.count))
        .sum();
    // One spare is counted by its tail piece, whatever the joints.
    let spare: f64 = plan
        .pieces()
        .filter(|(_, p)| p.blank.spare && p.piece == 0)
        .filter_map(|(_, p)| needs.get(p.blank.need))
        .map(|n| profiles.area(n.kind) * n.finished)
        .sum();
    let kept: f64 = plan.planks.iter().map(kept_volume).sum();
    let share = |v: f64| if volume > 0.0 { v / volume } else { 0.0 };
    Ok(Totals {
        planks: plan.expense.planks,
        board_feet: sizes().map(board_feet).sum(),
        volume: volume * 1e-9,
        price: plan.expense.price,
        yielded: share(finished),
        spare: share(spare),
        kept: share(kept),
        waste: 1.0 - share(finished + spare + kept),
        strip_mass: finished * 1e-9 * density,
    })
}

/// Volume, mm³, of offcuts kept and of lanes never cut.
fn kept_volume(plank: &super::cutting::PlankCut) -> f64 {
    plank
        .leaves
        .iter()
        .map(|leaf| {
            let whole = f64::from(leaf.room) - leaf.lanes.len() as f64;
            let ends: f64 = leaf.lanes.iter().filter(|l| l.keep).map(|l| l.offcut).sum();
            (whole * plank.length + ends) * leaf.thickness * leaf.lane_width
        })
        .sum()
}
