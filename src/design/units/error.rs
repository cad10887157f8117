//! What a length as makers write it may fail at.

/// Why a text is not a length.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("expected {expected} at byte {offset}")]
pub struct LengthError {
    /// Byte offset of the offending character; the text's length when it ends too soon.
    pub offset: usize,
    /// What was expected there.
    pub expected: &'static str,
}
