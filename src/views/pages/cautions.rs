//! Cautions for the whole of the work; those of one machine stand beside its step.

use crate::views::document::{Block, Definition, Section};

/// Operation and caution, in the order of work.
pub const CAUTIONS: [(&str, &str); 6] = [
    (
        "Saw and router",
        "Thin strips climb and shatter. Use featherboards and push sticks, keep the guard on, feed against the cutter, and \
         never rip or mould stock shorter than the maker of the machine allows.",
    ),
    (
        "Dust",
        "Wood dust harms the lungs; western red cedar's is a respiratory sensitiser. Extract at the source and wear a \
         fitted mask.",
    ),
    (
        "Noise",
        "Wear hearing protection at saw, router and thicknesser, and eye protection at every cutter.",
    ),
    (
        "Epoxy",
        "Epoxy sensitises the skin, for good. Wear gloves, keep it off the skin, and air the room as its maker says.",
    ),
    (
        "In the water",
        "A board is not a life-saving device. Fins and pointed noses injure. A sealed hollow board swells in the sun: fit a vent.",
    ),
    (
        "Disclaimer",
        "These drawings are aids. Machine and material manuals, local rules and trained people come first; ask a trained person \
         before you use a machine that is new to you.",
    ),
];

/// The section of a page.
pub(super) fn section() -> Section {
    let all = CAUTIONS.map(|(operation, caution)| Definition::new(operation, caution));
    Section::new("Work safely", vec![Block::Definitions(all.into())])
}
