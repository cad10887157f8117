//! What stands beside the board's page in its folder.

use super::files::FileGroup;
use crate::views::report::NamedChart;
use crate::views::sheets::{PlankSheet, Sheet, StrainMap};

/// Name of the board's page in its folder.
pub const INDEX: &str = "index.html";
/// Name of the page for the shop.
pub const MILLING: &str = "milling.html";

/// What the board's page shows and links to when it is written into a folder with other files.
#[derive(Debug, Clone, Copy)]
pub struct Attachments<'a> {
    /// The templates.
    pub sheets: &'a [Sheet],
    /// The skins' maps of strain.
    pub maps: &'a [StrainMap],
    /// The planks with their cuts.
    pub planks: &'a [PlankSheet],
    /// The strips' charts.
    pub charts: &'a [NamedChart],
    /// The files, in groups.
    pub groups: &'a [FileGroup],
}
