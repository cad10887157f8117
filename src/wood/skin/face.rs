//! Which skin.

use crate::design::Construction;

/// Which skin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Face {
    /// The bottom.
    Bottom,
    /// The deck.
    Deck,
}

impl Face {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Deck => "deck",
        }
    }

    /// Thickness of this skin, mm.
    pub fn thickness(self, construction: &Construction) -> f64 {
        match self {
            Self::Bottom => construction.bottom_skin,
            Self::Deck => construction.deck_skin,
        }
    }
}
