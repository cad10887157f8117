//! What a board weighs beside its wood, and who rides it.

use serde::Serialize;

/// What goes on the surface and into the joints.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Finish {
    /// What is on the surface.
    pub kind: FinishKind,
    /// Mass to an area of surface, kg/m².
    pub mass: f64,
    /// Mass of glue to an area glued, kg/m².
    pub glue: f64,
}

/// Kinds of finish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum FinishKind {
    /// Oil or varnish.
    Oil,
    /// Glass cloth and epoxy.
    Sheath,
    /// Bare wood.
    None,
}

impl FinishKind {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Oil => "oil",
            Self::Sheath => "glass and epoxy",
            Self::None => "none",
        }
    }
}

/// Something fitted to the board, such as fins or a plug.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fitting {
    /// What it is.
    pub name: String,
    /// Mass, kg.
    pub mass: f64,
    /// Place of its weight, mm from the tail.
    pub x: f64,
    /// Whether it sits on the deck, or else on the bottom.
    pub on_deck: bool,
}

/// Who rides it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Rider {
    /// Mass, kg.
    pub mass: f64,
    /// Place of the weight, mm from the tail; `None` at the board's centre of volume.
    pub x: Option<f64>,
    /// Height of the centre of gravity over the deck, mm.
    pub height: f64,
}
