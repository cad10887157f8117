//! Pictures in a page.

use super::lines::lines;
use super::text::{prose, put};
use crate::output::export::{ExportError, svg, svg_shading};
use crate::views::document::{Image, Picture, Width};

/// What an SVG says of itself in a file and need not in a page.
const NAME_SPACE: &str = " xmlns=\"http://www.w3.org/2000/svg\"";

pub(super) fn write(html: &mut String, picture: &Picture) -> Result<(), ExportError> {
    let (kind, image) = match &picture.image {
        Image::Lines(drawing) => ("lines", lines(drawing)),
        Image::Sheet(drawing) => (
            "sheet",
            without_ids(&svg::write(drawing, &svg::SvgOptions::default())?.replace(NAME_SPACE, "")),
        ),
        Image::Map(shading) => ("map", svg_shading::write(shading)?.replace(NAME_SPACE, "")),
    };
    let width = match picture.width {
        Width::Full => "full",
        Width::Third => "third",
    };
    put(
        html,
        format_args!(
            "<figure class=\"{kind} {width}\">{image}<figcaption>{}</figcaption></figure>\n",
            prose(&picture.caption)
        ),
    );
    Ok(())
}

/// A page may hold several drawings whose layers are of the same name, and an id only once.
fn without_ids(svg: &str) -> String {
    const ID: &str = " id=\"";
    let mut out = String::with_capacity(svg.len());
    let mut rest = svg;
    while let Some((before, after)) = rest.split_once(ID) {
        out.push_str(before);
        rest = after.split_once('"').map_or("", |(_, after)| after);
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_go_and_all_else_stays() {
        let svg = "<svg><g id=\"mark\" stroke=\"red\"><path d=\"M0 0\" id=\"a\"/></g></svg>";
        let without = "<svg><g stroke=\"red\"><path d=\"M0 0\"/></g></svg>";
        assert_eq!(without_ids(svg), without);
    }
}
