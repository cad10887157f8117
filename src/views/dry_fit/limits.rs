//! What parts that go together keep to.

/// Greatest overlap of parts that only bear on each other, mm.
pub const OVERLAP: f64 = 0.05;

/// Greatest gap along what parts bear on, mm: what glue fills.
pub const GAP: f64 = 0.3;

/// Gaps wider than this, mm, are not told apart.
pub(super) const REACH: f64 = 10.0;
