//! Why a board's files could not be made.

use crate::frame::FrameError;
use crate::geometry::mesh::MeshError;
use crate::output::export::ExportError;

/// Why a board's files could not be made.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum OutputError {
    /// A template could not be drawn.
    #[error(transparent)]
    Frame(#[from] FrameError),
    /// A part could not be meshed.
    #[error("a part could not be meshed: {0}")]
    Mesh(#[from] MeshError),
    /// A file could not be encoded.
    #[error(transparent)]
    Export(#[from] ExportError),
    /// A page or report says what is no number.
    #[error(
        "{path}: a number in it is not finite (\"{word}\"), so nothing was written; please report this design as a fault of the program"
    )]
    NotFinite {
        /// The file.
        path: String,
        /// How the number is printed.
        word: &'static str,
    },
    /// The report could not be encoded.
    #[error("the report could not be encoded: {0}")]
    Json(#[from] serde_json::Error),
}
