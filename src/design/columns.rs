//! Columns of places in a text, counted in characters.

/// Bytes from one counted place to the next: no column needs more than these to be counted afresh.
const STRIDE: usize = 256;

/// How many characters stand before every `STRIDE`th byte of a text.
///
/// Counted once: a line of a megabyte with a fault at every key would be counted through for each of them.
pub(super) struct Columns<'s> {
    bytes: &'s [u8],
    before: Vec<usize>,
}

impl<'s> Columns<'s> {
    pub(super) fn new(text: &'s str) -> Self {
        let bytes = text.as_bytes();
        let mut before = vec![0];
        let mut sum = 0;
        for stride in bytes.chunks(STRIDE) {
            sum += characters(stride);
            before.push(sum);
        }
        Self { bytes, before }
    }

    /// How many characters stand between two places, of which the first comes first.
    pub(super) fn between(&self, from: usize, to: usize) -> usize {
        self.before(to).saturating_sub(self.before(from))
    }

    fn before(&self, at: usize) -> usize {
        let stride = self.uncounted(at);
        let counted = self.before.get(at / STRIDE).copied().unwrap_or(0);
        counted + characters(stride)
    }

    /// The bytes between the last counted place and `at`.
    fn uncounted(&self, at: usize) -> &'s [u8] {
        self.bytes.get(at / STRIDE * STRIDE..at).unwrap_or(&[])
    }
}

/// Bytes that begin a character.
fn characters(bytes: &[u8]) -> usize {
    let begins = |byte: &&u8| !matches!(byte, 0x80..=0xbf);
    bytes.iter().filter(begins).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn characters_are_counted_like_the_standard_library_does() {
        let text = "x = 6′ ≈ ½ Möwe 🏄 ".repeat(100);
        let columns = Columns::new(&text);
        for (at, _) in text.char_indices() {
            assert_eq!(columns.between(0, at), text[..at].chars().count());
            assert_eq!(columns.between(at, text.len()), text[at..].chars().count());
        }
    }

    /// The work for one column does not grow with the line.
    #[test]
    fn no_column_takes_more_than_a_stride() {
        for length in [0, 1, 255, 256, 257, 1_000_000] {
            let text = "k".repeat(length);
            let columns = Columns::new(&text);
            for at in (0..=length).step_by(101).chain([length]) {
                assert!(columns.uncounted(at).len() < STRIDE);
                assert_eq!(columns.between(0, at), at);
            }
        }
    }
}
