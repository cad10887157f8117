//! How ribs and spine are lightened, cut and divided.

use crate::design::{FrameCut, Holes, Pattern, Relief, SheetSize, SpineJoint, read::File};

/// The cutting of ribs and spine.
pub(super) fn frame_cut(file: &File) -> FrameCut {
    let holes = file.one("construction.holes");
    let cutter = file.one("construction.cutter");
    let sheet = file.one("construction.sheet");
    let web = holes.number("web");
    FrameCut {
        holes: Holes {
            pattern: match holes.word("pattern") {
                "round" => Pattern::Round,
                "none" => Pattern::None,
                _ => Pattern::Contour,
            },
            web,
            rail_web: holes.number("rail_web"),
            lap_web: holes.number("lap_web"),
            bridge: holes.number_or("bridge", web),
            corner: holes.number("corner"),
            span: holes.optional("span"),
            count: holes.has("count").then(|| holes.count("count")),
            breather: holes.number("breather"),
        },
        cutter: cutter.number("diameter"),
        relief: match cutter.word("relief") {
            "corner" => Relief::Corner,
            "wall" => Relief::Wall,
            _ => Relief::None,
        },
        sheet: SheetSize {
            length: sheet.number("length"),
            width: sheet.number("width"),
            joint: match sheet.word("joint") {
                "scarf" => SpineJoint::Scarf,
                _ => SpineJoint::Key,
            },
        },
    }
}
