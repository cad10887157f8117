//! Names, order and colours of the layers.

use super::Layer;

impl Layer {
    /// Every layer in the order of work: inside cuts before slots before outside cuts, so that a part is
    /// still held while its holes are cut; marks, the scale check, reference and text after them.
    pub const ALL: [Self; 7] = [
        Self::InsideCut,
        Self::Slot,
        Self::OutsideCut,
        Self::Mark,
        Self::Scale,
        Self::Reference,
        Self::Text,
    ];

    /// Its name in every file.
    pub fn name(self) -> &'static str {
        match self {
            Self::InsideCut => "inside-cut",
            Self::Slot => "slot",
            Self::OutsideCut => "outside-cut",
            Self::Mark => "mark",
            Self::Scale => "scale",
            Self::Reference => "reference",
            Self::Text => "text",
        }
    }

    /// Its place in [`Layer::ALL`].
    pub fn order(self) -> usize {
        self as usize
    }

    /// Its colour, red, green and blue.
    pub fn colour(self) -> [u8; 3] {
        match self {
            Self::InsideCut => [0xc2, 0x3b, 0x22],
            Self::Slot => [0xc7, 0x7d, 0x0a],
            Self::OutsideCut => [0x12, 0x4e, 0x96],
            Self::Mark => [0x1d, 0x7f, 0x4f],
            Self::Scale => [0x6b, 0x4f, 0x9a],
            Self::Reference => [0x9a, 0x9a, 0x9a],
            Self::Text => [0x33, 0x33, 0x33],
        }
    }

    /// The nearest clear colour of the 255-colour index that DXF uses.
    pub fn colour_index(self) -> u8 {
        match self {
            Self::InsideCut => 1,
            Self::Slot => 30,
            Self::OutsideCut => 5,
            Self::Mark => 3,
            Self::Scale => 6,
            Self::Reference => 8,
            Self::Text => 7,
        }
    }

    /// Whether a tool follows its lines.
    pub fn is_worked(self) -> bool {
        !matches!(self, Self::Scale | Self::Reference | Self::Text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn order_is_the_place_in_the_list() {
        for (place, layer) in Layer::ALL.into_iter().enumerate() {
            assert_eq!(layer.order(), place);
        }
    }
}
