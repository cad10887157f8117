//! Places of the plan that holes keep clear of.

/// An upright box, seen in plan, over which ribs and spine stay whole: where a pad or block is glued against them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeepOut {
    /// From and to along the board, mm from the tail.
    pub x: [f64; 2],
    /// From and to across it, mm to starboard.
    pub y: [f64; 2],
}

impl KeepOut {
    /// What it takes of a part that stands across the board from `x[0]` to `x[1]`, mm to starboard.
    pub(super) fn across(&self, x: [f64; 2]) -> Option<[f64; 2]> {
        overlap(self.x, x).then_some(self.y)
    }

    /// What it takes of a part that stands along the board from `y[0]` to `y[1]`, mm from the tail.
    pub(super) fn along(&self, y: [f64; 2]) -> Option<[f64; 2]> {
        overlap(self.y, y).then_some(self.x)
    }
}

fn overlap(a: [f64; 2], b: [f64; 2]) -> bool {
    a[0] < b[1] && b[0] < a[1]
}
