//! Lengths, angles and masses as makers write them.

/// A unit of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Millimetre.
    Mm,
    /// Centimetre.
    Cm,
    /// Metre.
    M,
    /// Inch.
    In,
    /// Foot.
    Ft,
}
