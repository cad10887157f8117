//! Pictures of the templates.

use crate::views::document::{Block, Image, Picture, Prose, Section, Width};
use crate::views::sheets::Sheet;

/// Long parts first, each across the page, then ribs and cradles.
pub(super) fn templates(sheets: &[Sheet]) -> Section {
    let is_small = |sheet: &&Sheet| {
        ["rib-", "cradle-"]
            .iter()
            .any(|part| sheet.name.starts_with(part))
    };
    let (small, long): (Vec<&Sheet>, Vec<&Sheet>) = sheets.iter().partition(is_small);
    let pictures = |group: Vec<&Sheet>, width: Width| {
        Block::Pictures(
            group
                .into_iter()
                .map(|sheet| picture(sheet, width))
                .collect(),
        )
    };
    Section::new(
        "Templates",
        vec![
            Block::small(
                "Full size when printed at 100 %: measure the rule on the sheet before you cut.",
            ),
            pictures(long, Width::Full),
            pictures(small, Width::Third),
        ],
    )
}

fn picture(sheet: &Sheet, width: Width) -> Picture {
    let name = &sheet.name;
    Picture {
        image: Image::Lines(sheet.drawing.clone()),
        width,
        caption: Prose::from(format!("{} ", sheet.what))
            .link("SVG", format!("svg/{name}.svg"))
            .and(" ")
            .link("DXF", format!("dxf/{name}.dxf")),
    }
}
