//! Texts as both versions write them.

use super::writer::Writer;
use crate::views::drawing::{Align, Text};

/// Place, height, words and direction.
pub(super) fn text_body(w: &mut Writer, text: &Text, content: &str) {
    w.point(10, text.at.x, text.at.y, true);
    w.length(40, text.height);
    w.word(1, content);
    w.length(50, text.angle.to_degrees().rem_euclid(360.0));
}

/// Alignment on the base line; the anchor is repeated where it is not the start.
pub(super) fn alignment(w: &mut Writer, text: &Text) {
    let code = match text.align {
        Align::Start => return,
        Align::Middle => "1",
        Align::End => "2",
    };
    w.word(72, code);
    w.point(11, text.at.x, text.at.y, true);
}
