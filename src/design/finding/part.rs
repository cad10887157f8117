//! Parts of a board, by name and number.

use serde::Serialize;

use crate::design::Construction;

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// The finished shape.
    Shape,
    /// The rib of this number from the tail, starting with 1.
    Rib(usize),
    /// The spine.
    Spine,
    /// The slots of ribs and spine.
    Slots,
    /// The spaces between ribs, spine and blocks.
    Bays,
    /// The rail.
    Rail,
    /// Starters, by their numbers among the rail's strips.
    Starters(Vec<usize>),
    /// Moulded strips, by number.
    Strips(Vec<usize>),
    /// The planks the strips are cut from.
    Planks,
    /// A skin.
    Skin(Face),
    /// Both skins.
    Skins,
    /// A fitting, by name.
    Fitting(String),
    /// The solid block at an end.
    Block(BoardEnd),
    /// The outline.
    Outline,
    /// The hollow.
    Hollow,
    /// The whole board.
    Board,
}

/// Which skin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
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

/// Which end of the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BoardEnd {
    /// The tail.
    Tail,
    /// The nose.
    Nose,
}

impl BoardEnd {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Tail => "tail",
            Self::Nose => "nose",
        }
    }

    /// Name of its block in files and messages.
    pub fn block(self) -> &'static str {
        match self {
            Self::Tail => "tail-block",
            Self::Nose => "nose-block",
        }
    }
}

/// A side of the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Half {
    /// To the left, looking to the nose.
    Port,
    /// To the right.
    Starboard,
}

impl Half {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Port => "port",
            Self::Starboard => "starboard",
        }
    }
}
