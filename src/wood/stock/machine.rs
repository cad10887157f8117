//! The machines.

use serde::Serialize;

/// What is done at a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Machine {
    /// Plane one face and one edge of the plank true.
    Dress,
    /// Saw the plank into leaves, its dressed face to the fence.
    Resaw,
    /// Sand leaves to the strip's thickness.
    SandLeaf,
    /// Rip leaves into strips, the dressed edge to the fence.
    Rip,
    /// Sand squares to size, both ways.
    SandSquare,
    /// Round the upper edge.
    MouldBead,
    /// Hollow the lower edge.
    MouldCove,
    /// Soak or steam the strip.
    Soften,
}

impl Machine {
    /// What is done there, in two or three words.
    pub fn name(self) -> &'static str {
        match self {
            Self::Dress => "dress",
            Self::Resaw => "resaw",
            Self::SandLeaf => "sand resawn boards",
            Self::Rip => "rip",
            Self::SandSquare => "sand starters",
            Self::MouldBead => "mould the bead",
            Self::MouldCove => "mould the cove",
            Self::Soften => "soak or steam",
        }
    }
}
