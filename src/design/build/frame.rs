//! How ribs and spine are lightened, cut and divided.

use crate::design::{FrameCut, Holes, Pattern, Relief, SheetSize, SpineJoint, read::File};

/// The cutting of ribs and spine.
pub(super) fn frame_cut(file: &File) -> Option<FrameCut> {
    let [holes, cutter, sheet] = [
        "construction.holes",
        "construction.cutter",
        "construction.sheet",
    ]
    .map(|path| file.one(path));
    let (holes, cutter, sheet) = (holes?, cutter?, sheet?);
    let diameter = cutter.number("diameter")?;
    let web = holes.number("web")?;
    let (span, count) = (
        holes.number_if_given("span")?,
        holes.number_if_given("count")?,
    );
    Some(FrameCut {
        holes: Holes {
            pattern: match holes.word("pattern")? {
                "round" => Pattern::Round,
                "none" => Pattern::None,
                _ => Pattern::Contour,
            },
            web,
            rail_web: holes.number("rail_web")?,
            lap_web: holes.number("lap_web")?,
            bridge: holes.number_or("bridge", Some(web))?,
            corner: holes.number("corner")?.max(diameter / 2.0),
            span,
            // A whole number from 1 to 20 by its range.
            count: count.map(|n| n as usize),
            breather: holes.number("breather")?,
        },
        cutter: diameter,
        relief: match cutter.word("relief")? {
            "corner" => Relief::Corner,
            "wall" => Relief::Wall,
            _ => Relief::None,
        },
        sheet: SheetSize {
            length: sheet.number("length")?,
            width: sheet.number("width")?,
            joint: match sheet.word("joint")? {
                "scarf" => SpineJoint::Scarf,
                _ => SpineJoint::Key,
            },
        },
    })
}
