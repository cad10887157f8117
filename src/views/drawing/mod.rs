//! Neutral two-dimensional drawings: paths, text and layers, in mm, y up.

mod bounds;
mod check;
mod glyphs;
mod layer;
mod placement;
mod row;
mod scale;
mod shading;
mod strokes;

pub use check::{Defect, DrawingFault};
pub use row::row;
pub use scale::scale_check;
pub use shading::{Band, Shading, diverging};
pub use strokes::{stroke_text, text_width};

use crate::geometry::path::{Path, Point};

/// What a shape is for, and so which layer it goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Cut on the inside of the line: holes. Comes before outside cuts.
    InsideCut,
    /// Slots to a partner's thickness.
    Slot,
    /// Cut on the outside of the line: the part's contour.
    OutsideCut,
    /// Lines to scribe or engrave.
    Mark,
    /// The rule and square that a print is checked by, beside the part; no tool follows them.
    Scale,
    /// Strips, skins and finished surface shown for reference; never cut.
    Reference,
    /// Labels.
    Text,
}

/// Where a text's anchor point lies along its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// At its start.
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}

/// A line of text; its anchor lies on the base line.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Anchor.
    pub at: Point,
    /// Capital height, mm.
    pub height: f64,
    /// Direction of the base line, radians.
    pub angle: f64,
    /// Alignment on the anchor.
    pub align: Align,
    /// The words.
    pub content: String,
}

/// What an item shows.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A path.
    Path(Path),
    /// A text.
    Text(Text),
}

/// One thing drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The part it belongs to, such as `rib-07`.
    pub part: String,
    /// Its layer.
    pub layer: Layer,
    /// What it shows.
    pub shape: Shape,
}

/// A drawing: a title and its items.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Title, also the document's.
    pub title: String,
    /// The items, in drawing order.
    pub items: Vec<Item>,
}
