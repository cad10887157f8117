//! Drawings as DXF for cutters: millimetres, closed polylines with bulges, full circles as such, layers by intent, no splines.
//!
//! Items come in order of work: inside cuts, slots, outside cuts, marks, then reference and text.

mod entities;
mod r12;
mod r2000;
mod text;
mod writer;

use super::ExportError;
use crate::geometry::path::Bounds;
use crate::views::drawing::{Drawing, Item, Layer, Shape, stroke_text};
use std::borrow::Cow;

/// Which version of the format.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum DxfVersion {
    /// AC1015, of the year 2000: light polylines. What nearly every program reads.
    R2000,
    /// AC1009, for old controllers: upper-case names, heavy polylines.
    R12,
}

/// How labels are written. Those on a layer that a tool follows are for the part itself and are written as single strokes in any
/// case, unless left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Labels {
    /// As text, on the text layer.
    Text,
    /// All as single strokes to engrave, on the mark layer.
    Strokes,
    /// Not at all.
    Omit,
}

/// How to write a DXF.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DxfOptions {
    /// Version.
    pub version: DxfVersion,
    /// Labels.
    pub labels: Labels,
    /// Whether reference lines are written.
    pub reference: bool,
    /// Greatest distance, mm, of the arcs from the cubics they stand for.
    pub tolerance: f64,
}

impl Default for DxfOptions {
    fn default() -> Self {
        Self {
            version: DxfVersion::R2000,
            labels: Labels::Text,
            reference: true,
            tolerance: 0.02,
        }
    }
}

/// The drawing as a DXF document. A drawing that fails [`Drawing::check`] is refused.
pub fn write(drawing: &Drawing, options: &DxfOptions) -> Result<String, ExportError> {
    let faults = drawing.check();
    if !faults.is_empty() {
        return Err(ExportError::UnfitDrawing {
            title: drawing.title.clone(),
            faults,
        });
    }
    let items = ordered(drawing, options)?;
    let Some(bounds) = items.iter().map(|item| item.bounds()).reduce(Bounds::union) else {
        return Err(ExportError::EmptyDrawing {
            title: drawing.title.clone(),
        });
    };
    Ok(match options.version {
        DxfVersion::R2000 => r2000::document(&items, bounds),
        DxfVersion::R12 => r12::document(&items, bounds),
    })
}

/// What is to be written, in order of work, arcs in place of cubics.
fn ordered<'a>(
    drawing: &'a Drawing,
    options: &DxfOptions,
) -> Result<Vec<Cow<'a, Item>>, ExportError> {
    let mut items = Vec::with_capacity(drawing.items.len());
    for item in &drawing.items {
        match (&item.shape, options.labels) {
            _ if item.layer == Layer::Reference && !options.reference => {}
            (Shape::Text(_), Labels::Omit) => {}
            (Shape::Text(text), labels) if labels == Labels::Strokes || item.layer.is_worked() => {
                items.extend(stroke_text(text).into_iter().map(|path| {
                    Cow::Owned(Item {
                        part: item.part.clone(),
                        layer: Layer::Mark,
                        shape: Shape::Path(path),
                    })
                }));
            }
            (Shape::Path(path), _) if path.has_cubics() => {
                let arcs = path.with_arcs(options.tolerance);
                let path = arcs.map_err(|source| ExportError::NoArcs {
                    title: drawing.title.clone(),
                    part: item.part.clone(),
                    source,
                })?;
                items.push(Cow::Owned(Item {
                    shape: Shape::Path(path),
                    ..item.clone()
                }));
            }
            _ => items.push(Cow::Borrowed(item)),
        }
    }
    items.sort_by_key(|item| item.layer.order());
    Ok(items)
}
