//! Parts as full-size drawings.

mod bed;
mod block;
mod cradle;
mod fittings;
mod label;
mod outline;
mod pads;
mod plank;
mod profile;
mod rib;
mod skin;
mod spine;
mod strain_map;
mod strips;

pub use plank::{PlankSheet, plank_sheets};
pub use skin::skin_sheets;
pub use strain_map::{StrainMap, strain_maps};

use crate::board::Board;
use crate::views::drawing::{Drawing, row};

/// A drawing and the name of the file it goes into, without an ending.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// File name stem, such as `rib-03`.
    pub name: String,
    /// What the sheet shows, for an index.
    pub what: String,
    /// The drawing.
    pub drawing: Drawing,
}

/// Gap between parts on the combined sheet, mm.
const GAP: f64 = 30.0;

/// Every template of `board`: ribs from the tail, spine, outline, rocker, skins, end blocks, fittings and their pads, the building bed,
/// and all of them together.
pub fn sheets(board: &Board) -> Result<Vec<Sheet>, crate::frame::FrameError> {
    let mut sheets: Vec<Sheet> = board
        .ribs
        .iter()
        .map(|rib| rib::sheet(board, rib))
        .collect();
    sheets.push(spine::sheet(board));
    sheets.extend(spine::pieces(board));
    sheets.push(outline::sheet(board)?);
    sheets.push(profile::sheet(board)?);
    sheets.extend(skin_sheets(board)?);
    sheets.extend(board.blocks.iter().map(|b| block::sheet(board, b)));
    sheets.extend(fittings::sheet(board));
    sheets.extend(pads::sheet(board));
    sheets.extend(board.bed.cradles.iter().map(|c| cradle::sheet(board, c)));
    sheets.push(bed::sheet(board));
    let drawings: Vec<Drawing> = sheets.iter().map(|s| s.drawing.clone()).collect();
    let mut drawing = row(&drawings, GAP, board.design.length + 2.0 * GAP);
    drawing.title = format!("{}: all templates", board.design.name);
    sheets.push(Sheet {
        name: "all-templates".into(),
        what: "every template on one sheet".into(),
        drawing,
    });
    Ok(sheets)
}
