//! Why a file was not written.

use crate::geometry::curve::CurveError;
use crate::geometry::mesh::MeshReport;
use crate::views::drawing::DrawingFault;

/// Why a file was not written.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ExportError {
    /// The drawing fails its check.
    #[error("drawing '{title}' is not fit to cut, {} faults: {}", faults.len(), listed(faults))]
    UnfitDrawing {
        /// The drawing's title.
        title: String,
        /// Every fault.
        faults: Vec<DrawingFault>,
    },
    /// Nothing to draw.
    #[error("drawing '{title}' is empty; add a part to it")]
    EmptyDrawing {
        /// The drawing's title.
        title: String,
    },
    /// A cubic of the drawing could not be replaced by arcs.
    #[error(
        "drawing '{title}', part '{part}': no arcs follow its cubic: {source}; give a tolerance over 0, and a cubic without jumps"
    )]
    NoArcs {
        /// The drawing's title.
        title: String,
        /// The part.
        part: String,
        /// What the fit said.
        source: CurveError,
    },
    /// The mesh is no sound solid once its numbers are rounded to the file's.
    #[error(
        "mesh '{name}' does not bound a solid: {report}; mend it, or mesh with a coarser tolerance"
    )]
    UnfitMesh {
        /// The mesh's name.
        name: String,
        /// What is wrong.
        report: MeshReport,
    },
    /// More triangles than the format can count.
    #[error("{count} triangles are more than the format can count; mesh with a coarser tolerance")]
    TooManyTriangles {
        /// The number of triangles.
        count: usize,
    },
    /// The library that writes the format failed.
    #[error("'{what}' was not written: {reason}; try again with more free memory")]
    NotWritten {
        /// What was to be written.
        what: String,
        /// What the library said.
        reason: String,
    },
    /// A table's row does not fit its columns.
    #[error(
        "table '{title}', row {row}: {cells} cells for {columns} columns; give every row one cell a column"
    )]
    RaggedTable {
        /// The table's title.
        title: String,
        /// Index of the row.
        row: usize,
        /// Its cells.
        cells: usize,
        /// The table's columns.
        columns: usize,
    },
    /// A number of a chart or a map is not finite.
    #[error("picture '{title}': {what} is not finite; leave the point out where there is none")]
    PictureNotFinite {
        /// The picture's title.
        title: String,
        /// Which number.
        what: String,
    },
    /// A table's number is not finite.
    #[error(
        "table '{title}', row {row}, column '{column}': the number is not finite; use an empty cell where there is none"
    )]
    TableNotFinite {
        /// The table's title.
        title: String,
        /// Index of the row.
        row: usize,
        /// Name of the column.
        column: String,
    },
}

/// The first faults, for the message.
fn listed(faults: &[DrawingFault]) -> String {
    const SHOWN: usize = 3;
    let mut text: Vec<String> = faults
        .iter()
        .take(SHOWN)
        .map(DrawingFault::to_string)
        .collect();
    if faults.len() > SHOWN {
        text.push("…".into());
    }
    text.join("; ")
}
