//! A board as the files a maker works from, in memory: the same board gives the same bytes.
//!
//! In: a [`Board`] and its [`Report`]. Out: a list of files, each with what it is for: pages, drawings, meshes, tables, and a manifest. File formats
//! are in [`export`], one a file, and know nothing of boards.
//!
//! Start with [`files`]; what it writes is listed in `products`, one line each.

mod error;
pub mod export;
mod file;
mod gate;
mod manifest;
mod products;

pub use crate::views::pages::INDEX;
pub use error::OutputError;
pub use file::{OutFile, OutputOptions};
pub use manifest::{MANIFEST, Manifest, ManifestEntry};

use crate::board::Board;
use crate::views::report::Report;
use products::{Context, PRODUCTS};

/// Every file of `board`, whose report is given: drawings, meshes, tables, the report, the index and, last, the manifest.
///
/// # Errors
///
/// The first part that cannot be drawn or written; then nothing is given.
///
/// ```
/// use boardwright::{board::Board, design, output, views::report::report};
///
/// let board = Board::new(design::parse(design::starter(), "board.toml")?)?;
/// let files = output::files(&board, &report(&board), &output::OutputOptions::default())?;
/// assert!(files.iter().any(|file| file.path == "dxf/spine.dxf"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn files(
    board: &Board,
    report: &Report,
    options: &OutputOptions,
) -> Result<Vec<OutFile>, OutputError> {
    let mut context = Context::new(board, report, options)?;
    let mut files = Vec::new();
    for product in &PRODUCTS {
        let more = (product.make)(&context)?;
        context.list(product, &more);
        files.extend(more);
    }
    gate::check(&board.design, &files)?;
    files.push(Manifest::new(&board.design.name, &files).file()?);
    Ok(files)
}
