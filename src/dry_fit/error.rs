//! What keeps parts from being put together.

use crate::mesh::MeshError;
use crate::shell::ShellError;

/// Why a board cannot be put together.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FitError {
    /// A plate or a strip does not make a solid.
    #[error("a part does not make a solid: {0}")]
    Mesh(#[from] MeshError),
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
