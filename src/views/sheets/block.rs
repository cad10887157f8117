//! The end blocks' layers.

use super::Sheet;
use super::label::{LETTER, arrow, block as label, path, polyline, text};
use crate::board::Board;
use crate::design::units;
use crate::frame::blocks::{Block, BlockLayer, BoardEnd};
use crate::geometry::path::{Placement, Point};
use crate::views::drawing::{Align, Drawing, Item, Layer, text_width};

/// Distance of the ticks on every layer's centreline, counted from the block's face, mm.
const TICKS: f64 = 25.0;
/// Gap between layers on the sheet, mm.
const GAP: f64 = 15.0;

/// Every layer of a block, from the bottom of the sheet up as they are glued.
pub(super) fn sheet(board: &Board, block: &Block) -> Sheet {
    let part = block.which.block();
    let mut items = Vec::new();
    let mut base = 0.0;
    for layer in &block.layers {
        let bounds = layer.outlines.iter().map(|p| p.bounds());
        let Some(bounds) = bounds.reduce(|a, b| a.union(b)) else {
            continue;
        };
        let shift = Placement::shift(0.0, base - bounds.min.y);
        let drawing = Drawing {
            title: String::new(),
            items: layer_items(board, block, layer),
        };
        items.extend(drawing.transform(&shift).items);
        base += bounds.height() + GAP;
    }
    let left = block
        .layers
        .iter()
        .map(|l| l.ends[0])
        .fold(f64::INFINITY, f64::min);
    let left = if left.is_finite() { left } else { block.face };
    items.extend(label(part, Point::new(left, -10.0), &words(board, block)));
    let what = match block.which {
        BoardEnd::Tail => "layers of the tail block",
        BoardEnd::Nose => "layers of the nose block",
    };
    Sheet {
        name: part.into(),
        what: what.into(),
        drawing: Drawing {
            title: format!("{}: {what}", board.design.name),
            items,
        },
    }
}

/// One layer where it lies on the board, seen from above.
fn layer_items(board: &Board, block: &Block, layer: &BlockLayer) -> Vec<Item> {
    let part = format!("{}-layer-{}", block.which.block(), layer.number);
    let mut items: Vec<Item> = layer
        .outlines
        .iter()
        .map(|p| path(&part, Layer::OutsideCut, p.clone()))
        .collect();
    let [from, to] = layer.ends;
    let cleft = match block.which {
        BoardEnd::Tail => board.family.plan().cleft_depth(),
        BoardEnd::Nose => None,
    };
    let start = cleft.map_or(from, |depth| from.max(depth));
    if start < to {
        items.push(polyline(
            &part,
            Layer::Mark,
            &[Point::new(start, 0.0), Point::new(to, 0.0)],
        ));
    }
    // Ticks at the same places on every layer, to lay them up by.
    for k in 0..40 {
        let x = match block.which {
            BoardEnd::Tail => block.face - TICKS * f64::from(k),
            BoardEnd::Nose => block.face + TICKS * f64::from(k),
        };
        if k > 0 && x > start + 1.0 && x < to - 1.0 {
            let tick = [Point::new(x, -3.0), Point::new(x, 3.0)];
            items.push(polyline(&part, Layer::Mark, &tick));
        }
    }
    let apart = layer.outlines.len() > 1;
    for (i, outline) in layer.outlines.iter().enumerate() {
        let bounds = outline.bounds();
        let mut name = format!("{}", layer.number);
        if apart {
            name.push_str(if i == 0 { " STARBOARD" } else { " PORT" });
        } else {
            name = format!("LAYER {name}");
        }
        // Beside the widest end, clear of the centreline.
        let length = bounds.width();
        let letter = LETTER
            .min(LETTER * 0.55 * length / text_width(&name, LETTER))
            .min(bounds.height() / 5.0);
        let middle = (bounds.min.y + bounds.max.y) / 2.0;
        let y = if apart { middle } else { middle + 2.0 * letter };
        let x = match block.which {
            BoardEnd::Tail if !apart => (start.max(bounds.min.x) + bounds.max.x) / 2.0,
            BoardEnd::Tail => bounds.max.x - 0.3 * length,
            BoardEnd::Nose => bounds.min.x + 0.3 * length,
        };
        items.push(text(&part, Point::new(x, y), letter, Align::Middle, name));
        if !apart && bounds.height() > 30.0 {
            let reach = (length * 0.2).min(20.0);
            let y = middle - 8.0;
            items.extend(arrow(
                &part,
                Point::new(x - reach / 2.0, y),
                Point::new(x + reach / 2.0, y),
            ));
        }
    }
    items
}

fn words(board: &Board, block: &Block) -> Vec<String> {
    let unit = board.design.report;
    let blocks = board.design.blocks;
    let (name, where_to) = match block.which {
        BoardEnd::Tail => ("Tail block", "tail to the left, nose to the right"),
        BoardEnd::Nose => ("Nose block", "nose to the right"),
    };
    let [low, high] = block.heights();
    let stack = blocks.layer * block.layers.len() as f64;
    let mut words = vec![
        board.design.name.clone(),
        format!(
            "{name}: {} layers of {}, from its face {} from the tail",
            block.layers.len(),
            units::fine_size(blocks.layer, board.design.report),
            units::size(block.face, unit)
        ),
        format!("Seen from above, {where_to} as the arrows point. Cut 1 of each."),
        format!(
            "Glue up from layer 1 at the bottom, by centrelines and ticks, which count every {} from the face.",
            units::fine_size(TICKS, board.design.report)
        ),
        format!(
            "Each contour is the widest over the layer's height, {} oversize except at the face.",
            units::fine_size(blocks.oversize, board.design.report)
        ),
        format!(
            "The stack is {} high, the block {}; its foot lies {} over the base plane at the lowest.",
            units::fine_size(stack, board.design.report),
            units::fine_size(high - low, board.design.report),
            units::fine_size(low, board.design.report)
        ),
        "Shape it to the skins' inner faces above and below; the sides with the rail.".into(),
    ];
    words.extend(block.layers.iter().map(|layer| {
        let from_face = layer.ends.map(|x| (x - block.face).abs());
        let (near, far) = (
            from_face[0].min(from_face[1]),
            from_face[0].max(from_face[1]),
        );
        format!(
            "BlockLayer {}: from {} to {} from the face",
            layer.number,
            units::fine_size(near, board.design.report),
            units::fine_size(far, board.design.report)
        )
    }));
    words
}
