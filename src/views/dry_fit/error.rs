//! What keeps parts from being put together.

use crate::geometry::mesh::MeshError;
use crate::shape::ShellError;

/// Why a board cannot be put together.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FitError {
    /// A strip does not make a solid, or a part lies outside the board.
    #[error(transparent)]
    Mesh(#[from] MeshError),
    /// A plate, skin, block or pad does not make a solid.
    #[error(
        "{part} does not make a solid ({error}); draw the sections near it gentler, or move it, and report the design file to boardwright's makers"
    )]
    Part {
        /// The part.
        part: String,
        /// Why.
        error: MeshError,
    },
    /// A skin cannot be drawn.
    #[error(transparent)]
    Shell(#[from] ShellError),
    /// A mesh is not a closed solid, so it has no inside.
    #[error(
        "{part} is not a closed solid ({report}); report the design file to boardwright's makers"
    )]
    Open {
        /// The part.
        part: String,
        /// What is wrong with it.
        report: String,
    },
}
