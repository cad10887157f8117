//! What a plank's cross-section yields.

use super::needs::StripNeed;
use crate::wood::stock::{CourseKind, Profiles, Shop, StockError, rough};
use serde::Serialize;

/// The two sections that blanks are sawn to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BlankSection {
    /// Bead-only and bead-and-cove strips.
    Strip,
    /// Square starters.
    Square,
}

impl BlankSection {
    /// Both, with their index in pairs.
    pub(super) const BOTH: [Self; 2] = [Self::Strip, Self::Square];

    /// The section a profile is sawn to.
    pub fn of(kind: CourseKind) -> Self {
        match kind {
            CourseKind::Starter => Self::Square,
            _ => Self::Strip,
        }
    }
}

/// What one plank of a size yields across its section.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SectionYield {
    /// Usable length of every lane, whole mm.
    pub length: u32,
    /// Lanes in a leaf for strips and a leaf for squares.
    pub lanes: [u32; 2],
    /// By number of leaves for squares, from none up: the most leaves for strips beside them.
    pub leaves: Vec<u32>,
}

impl SectionYield {
    /// Most leaves of `section` from one plank.
    pub fn most(&self, section: BlankSection) -> u32 {
        match section {
            BlankSection::Strip => self.leaves.first().copied().unwrap_or(0),
            BlankSection::Square => self.leaves.len() as u32 - 1,
        }
    }

    /// Whether a plank yields any lane of `section`.
    pub fn gives(&self, section: BlankSection) -> bool {
        self.most(section) * self.lanes[section as usize] > 0
    }
}

/// Room for one more kerf than cuts: `n` pieces of `size` and `n − 1` kerfs fit in `room`.
fn count(room: f64, size: f64, kerf: f64) -> u32 {
    ((room + kerf) / (size + kerf) + 1e-9).floor().max(0.0) as u32
}

/// Yields of every plank size of the shop, in its order.
pub(super) fn yields(
    needs: &[StripNeed],
    profiles: &Profiles,
    shop: &Shop,
) -> Result<Vec<SectionYield>, StockError> {
    let strip = rough(profiles, shop, CourseKind::BeadAndCove);
    let square = rough(profiles, shop, CourseKind::Starter);
    let k = &shop.kerfs;
    let all: Vec<SectionYield> = shop
        .planks
        .iter()
        .map(|plank| {
            let thickness = plank.thickness - shop.allowances.dress_face;
            let width = plank.width - shop.allowances.dress_edge;
            let squares = count(thickness, square[0], k.resaw);
            let leaves = (0..=squares)
                .map(|b| {
                    count(
                        thickness - f64::from(b) * (square[0] + k.resaw),
                        strip[0],
                        k.resaw,
                    )
                })
                .collect();
            SectionYield {
                length: (plank.length - shop.allowances.ends + 1e-6)
                    .floor()
                    .max(0.0) as u32,
                lanes: [
                    count(width, strip[1], k.rip),
                    count(width, square[1], k.rip),
                ],
                leaves,
            }
        })
        .collect();
    for need in needs.iter().filter(|n| n.count > 0) {
        if !all
            .iter()
            .any(|y| y.gives(BlankSection::of(need.kind)) && y.length > 0)
        {
            let [thickness, width] = rough(profiles, shop, need.kind);
            return Err(StockError::TooSmall {
                profile: need.kind.name(),
                thickness,
                width,
            });
        }
    }
    Ok(all)
}

/// Lengths that scarfed pieces may be held to, longest first: the usable lengths of the planks.
pub(super) fn piece_lengths(yields: &[SectionYield], shop: &Shop) -> Vec<u32> {
    let mut lengths: Vec<u32> = yields
        .iter()
        .zip(&shop.planks)
        .filter(|(y, p)| y.length > 0 && p.count != Some(0))
        .map(|(y, _)| y.length)
        .collect();
    lengths.sort_unstable_by(|a, b| b.cmp(a));
    lengths.dedup();
    lengths
}
