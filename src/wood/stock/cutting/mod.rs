//! Cutting plans: which plank yields which leaves, and which strips each leaf.
//!
//! Two stages meet here. Across a plank, its dressed thickness is sawn into leaves for strips and leaves for square starters, and each
//! leaf is ripped into lanes as long as the plank. Along a lane, strips are cut to length, which is one-dimensional cutting stock
//! ([`crate::wood::stock::lengths`]). Strips longer than the planks are scarfed first, only as often as they must be.
//!
//! Numbers of planks are tried from the cheapest up, with a bound from the length still to be cut; each is refused only when it is
//! proven that the lanes do not hold the pieces, so the first that is accepted is the best. The bound, and whether it was met, are
//! kept in the plan. Lengths are taken up, and lanes down, to whole millimetres.

mod budget;
mod candidates;
mod layout;
mod needs;
mod plan;
mod scarf;
mod search;
mod section;

pub use budget::Budget;
pub use needs::{Blank, StripNeed};
pub use plan::{CuttingPlan, Expense, LaneCut, LeafCut, PieceCut, PlankCut};
pub use scarf::{ScarfJoint, ScarfedBlanks};
pub use section::{BlankSection, SectionYield};

use super::{CourseKind, Profiles, Scarfing, Shop, StockError};

/// The cutting plan for `needs` from the planks of `shop`: fewest planks, or least price, then least length of lane cut into.
///
/// A strip is scarfed only if no plank is long enough for it, with as few joints as can be; or, with [`Scarfing::WhenLess`], if that
/// takes less. The proof of [`CuttingPlan::optimal`] is
/// for the scarf places chosen; [`CuttingPlan::least_any_scarf`] holds for all.
///
/// # Errors
///
/// [`StockError`] for values that cannot be meant, planks too small or too few, or strips that cannot be scarfed as asked.
///
/// ```
/// use boardwright::design::{LaminationPlane, Arrangement, Starter, Strip};
/// use boardwright::wood::stock::cutting::{StripNeed, cutting_plan};
/// use boardwright::wood::stock::{Plank, CourseKind, Profiles, Shop};
///
/// let profiles = Profiles {
///     strip: Strip { thickness: 6.0, width: 12.7, bead_radius: 3.0, cove_radius: 3.0, cove_depth: 2.5 },
///     starter: Starter { size: 8.0, count: 2, laminations: 1, lamination_plane: LaminationPlane::Vertical, arrangement: Arrangement::SideBySide },
/// };
/// let shop = Shop {
///     planks: vec![Plank { name: "50 × 150".into(), length: 3000.0, width: 150.0, thickness: 50.0, count: None, price: 40.0, nominal: None }],
///     ..Shop::default()
/// };
/// let needs: Vec<StripNeed> = (0..6)
///     .map(|course| StripNeed::new(course + 1, CourseKind::BeadAndCove, 2000.0 + 10.0 * course as f64, 2, course))
///     .collect();
/// let plan = cutting_plan(&needs, &profiles, &shop)?;
/// assert_eq!(plan.planks.len(), 1);
/// assert!(plan.optimal && plan.gap() == 0.0);
/// # Ok::<(), boardwright::wood::stock::StockError>(())
/// ```
pub fn cutting_plan(
    needs: &[StripNeed],
    profiles: &Profiles,
    shop: &Shop,
) -> Result<CuttingPlan, StockError> {
    cutting_plan_within(needs, profiles, shop, &Budget::default())
}

/// The same with what is left of a budget: the best plan found when it is spent.
///
/// # Errors
///
/// As [`cutting_plan`].
pub fn cutting_plan_within(
    needs: &[StripNeed],
    profiles: &Profiles,
    shop: &Shop,
    budget: &Budget,
) -> Result<CuttingPlan, StockError> {
    profiles.check()?;
    shop.check()?;
    for need in needs {
        need.check()?;
    }
    if shop.planks.is_empty() {
        return Err(StockError::NoPlanks);
    }
    let yields = section::yields(needs, profiles, shop)?;
    let overlap = overlaps(profiles, shop);
    let any_scarf = search::least_by_length(needs, shop, &yields, overlap, budget);
    let mut best: Option<CuttingPlan> = None;
    // The first failure is that of the longest pieces, and the one to tell.
    let mut failure: Option<StockError> = None;
    for longest in section::piece_lengths(&yields, shop) {
        for unequal in [true, false] {
            if budget.is_spent() && failure.is_some() {
                break;
            }
            let scarfed = scarf::scarf_all(needs, shop, &yields, overlap, longest, unequal, budget);
            let scarfed = match scarfed {
                Ok(scarfed) => scarfed,
                Err(error) => {
                    failure.get_or_insert(error);
                    continue;
                }
            };
            let jointed = scarfed.iter().any(|s| !s.joints.is_empty());
            match search::least_planks(needs, &scarfed, shop, &yields, budget) {
                Ok(found) => {
                    let plan = plan::assemble(&scarfed, shop, profiles, &yields, found, any_scarf);
                    if best.as_ref().is_none_or(|b| plan.better_than(b, shop.aim)) {
                        best = Some(plan);
                    }
                }
                Err(error) => {
                    failure.get_or_insert(error);
                }
            }
            if !jointed {
                break;
            }
        }
        if best.is_some() && (shop.scarfing == Scarfing::WhenShort || budget.is_spent()) {
            break;
        }
    }
    // Where not every length was tried, that of the first says nothing of the others.
    best.ok_or(match failure {
        Some(failure) if !budget.is_spent() => failure,
        _ => StockError::Unfinished,
    })
}

/// Whether the strips of `needs` can be scarfed together from the planks of `shop` at all, however many planks that takes; takes from
/// the budget.
///
/// # Errors
///
/// As [`cutting_plan`], but for [`StockError::NotEnough`] and [`StockError::Unfinished`].
pub fn scarfs_fit(
    needs: &[StripNeed],
    profiles: &Profiles,
    shop: &Shop,
    budget: &Budget,
) -> Result<(), StockError> {
    profiles.check()?;
    shop.check()?;
    for need in needs {
        need.check()?;
    }
    let yields = section::yields(needs, profiles, shop)?;
    let overlap = overlaps(profiles, shop);
    let mut failure = StockError::NoPlanks;
    for longest in section::piece_lengths(&yields, shop) {
        for unequal in [true, false] {
            if budget.is_spent() {
                return Err(failure);
            }
            match scarf::scarf_all(needs, shop, &yields, overlap, longest, unequal, budget) {
                Ok(_) => return Ok(()),
                Err(error) => failure = error,
            }
        }
    }
    Err(failure)
}

/// Length of a scarf, mm, by section.
fn overlaps(profiles: &Profiles, shop: &Shop) -> [f64; 2] {
    [CourseKind::BeadAndCove, CourseKind::Starter]
        .map(|kind| shop.scarf_ratio * profiles.finished(kind)[0])
}
