//! The strains that a skin is judged by.

use super::Skin;
use super::strain::Strain;

/// The strains of greatest size on a skin, each a mean over 15 mm around its place.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Greatest {
    /// Along the board.
    pub along: Strain,
    /// Across it.
    pub across: Strain,
    /// In any direction.
    pub worst: Strain,
}

impl Skin {
    /// Share of the finished panel whose strain, by `value` and as a mean over 15 mm around, is greater than `limit` either way.
    pub fn share_over(&self, value: impl Fn(&Strain) -> f64, limit: f64) -> f64 {
        let (mut over, mut all) = (0.0, 0.0);
        for s in &self.judged {
            all += s.size;
            over += if value(s).abs() > limit { s.size } else { 0.0 };
        }
        over / all
    }

    /// The greatest strains within the finished outline, with their places on the starboard half; `None` if no triangle lies there.
    pub fn greatest(&self) -> Option<Greatest> {
        let pick = |f: fn(&Strain) -> f64| {
            self.judged
                .iter()
                .max_by(|a, b| f(a).abs().total_cmp(&f(b).abs()))
                .copied()
        };
        Some(Greatest {
            along: pick(|s| s.along)?,
            across: pick(|s| s.across)?,
            worst: pick(|s| s.worst)?,
        })
    }
}
