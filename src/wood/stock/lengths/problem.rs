//! What is cut from what, and what came of it.

use serde::Serialize;

/// Stock of one length. Lengths are whole units of the caller's choosing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Stock {
    /// Usable length; a saw's kerf belongs to it once, see [`Problem`].
    pub length: u32,
    /// Cost of using one.
    pub cost: u64,
    /// How many there are; `None` for as many as one likes.
    pub count: Option<u32>,
}

/// Pieces of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct PieceLength {
    /// Length, kerf included.
    pub length: u32,
    /// How many are wanted.
    pub count: u32,
}

/// A cutting problem. For a kerf of `k`, add `k` to every piece and once to every stock length.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// Kinds of stock.
    pub stock: Vec<Stock>,
    /// Kinds of pieces; two kinds may share a length.
    pub pieces: Vec<PieceLength>,
}

/// One length of stock used.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Used {
    /// Index of its kind.
    pub stock: usize,
    /// `(kind of piece, how many)`, in rising kind, none with zero.
    pub pieces: Vec<(usize, u32)>,
}

/// What a search found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// The plan: every piece exactly as often as wanted. `None` if none was found.
    pub plan: Option<Vec<Used>>,
    /// Cost of the plan; 0 without one.
    pub cost: u64,
    /// No plan costs less. With `optimal` and no plan: the stock is proven too little.
    pub bound: u64,
    /// Whether the plan is proven best, or the lack of one proven.
    pub optimal: bool,
    /// Branches of the search looked into.
    pub nodes: u64,
    /// What it took, in the measure of [`Problem::solve`], the quick fillings included.
    pub effort: u64,
}

impl Outcome {
    /// `(cost − bound)/cost`: 0 when proven best, and the most that could still be saved otherwise.
    pub fn gap(&self) -> f64 {
        if self.plan.is_none() || self.cost == 0 {
            0.0
        } else {
            (self.cost - self.bound) as f64 / self.cost as f64
        }
    }
}

/// Why a cutting problem is none.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LengthsError {
    /// A length of zero.
    #[error("{what} {index} has no length; give it one, or leave it out")]
    Zero {
        /// Stock or piece.
        what: &'static str,
        /// Which one.
        index: usize,
    },
    /// A piece longer than all stock.
    #[error("piece {index} is {length} long, longer than any stock; scarf it, or get longer stock")]
    TooLong {
        /// Which one.
        index: usize,
        /// Its length.
        length: u32,
    },
    /// More than the tables can hold.
    #[error(
        "{pieces} kinds of pieces on stock {length} long is too large a table; use a coarser unit"
    )]
    TooLarge {
        /// Kinds of pieces.
        pieces: usize,
        /// Longest stock.
        length: u32,
    },
}

/// Most cells of a knapsack table.
const CELLS: usize = 50_000_000;

impl Problem {
    pub(super) fn check(&self) -> Result<(), LengthsError> {
        let longest = self.stock.iter().map(|s| s.length).max().unwrap_or(0);
        if let Some(index) = self.stock.iter().position(|s| s.length == 0) {
            return Err(LengthsError::Zero {
                what: "stock",
                index,
            });
        }
        for (index, piece) in self.pieces.iter().enumerate() {
            if piece.length == 0 {
                return Err(LengthsError::Zero {
                    what: "piece",
                    index,
                });
            }
            if piece.count > 0 && piece.length > longest {
                return Err(LengthsError::TooLong {
                    index,
                    length: piece.length,
                });
            }
        }
        let pieces = self.pieces.len();
        if (pieces + 1).saturating_mul(longest as usize + 1) > CELLS {
            return Err(LengthsError::TooLarge {
                pieces,
                length: longest,
            });
        }
        Ok(())
    }
}
