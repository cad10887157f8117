//! Parts and places in words.

use crate::design::finding::{Part, Place};
use crate::design::units::{self, Unit, list};

/// A part: `rib 3`, `deck skin`, `strips 1 to 4`.
pub fn part_name(part: &Part) -> String {
    match part {
        Part::Shape => "shape".into(),
        Part::Rib(number) => format!("rib {number}"),
        Part::Spine => "spine".into(),
        Part::Slots => "slots".into(),
        Part::Bays => "bays".into(),
        Part::Rail => "rail".into(),
        Part::Starters(numbers) | Part::Strips(numbers) => numbered("strip", numbers),
        Part::Planks => "planks".into(),
        Part::Skin(face) => format!("{} skin", face.name()),
        Part::Skins => "skins".into(),
        Part::Fitting(name) => name.clone(),
        Part::Block(end) => format!("{} block", end.name()),
        Part::Outline => "outline".into(),
        Part::Hollow => "hollow".into(),
        Part::Board => "board".into(),
    }
}

/// Parts by number: `rib 3`, `ribs 1 to 4 and 6`.
pub(super) fn numbered(name: &str, numbers: &[usize]) -> String {
    let plural = if numbers.len() == 1 { "" } else { "s" };
    format!("{name}{plural} {}", list(numbers))
}

/// A place: `1394 mm from the tail, 202 mm off the centreline, over the nose block`.
pub fn place_name(place: &Place, unit: Unit) -> String {
    let mut words: Vec<String> = Vec::new();
    if let Some(x) = place.x {
        words.push(format!("{} from the tail", units::place(x, unit)));
    }
    match (place.y, place.side) {
        (Some(y), _) if y.abs() < 1.0 => {
            if let Some(last) = words.last_mut() {
                last.push_str(" on the centreline");
            }
        }
        (Some(y), side) => {
            let y = units::place(y, unit);
            let side = side.map_or(String::new(), |s| format!(" to {}", s.name()));
            words.push(format!("{y} off the centreline{side}"));
        }
        (None, _) => {}
    }
    if let Some(end) = place.block {
        words.push(format!("over the {} block", end.name()));
    }
    words.extend(place.between.map(between_ribs));
    words.join(", ")
}

/// Where something is by its ribs: `between ribs 3 and 4`.
pub fn between_ribs(between: [Option<usize>; 2]) -> String {
    match between {
        [None, None] => "between the blocks".to_owned(),
        [None, Some(rib)] => format!("between the tail block and rib {rib}"),
        [Some(rib), None] => format!("between rib {rib} and the nose block"),
        [Some(a), Some(b)] => format!("between ribs {a} and {b}"),
    }
}
