//! What is written on a piece.

use std::fmt;

use super::cutting::{CuttingPlan, PieceCut, StripNeed};

/// What to write on a piece: its strip's number, with its lamination's after a point, the rail it is for or which spare it is, and the part from
/// the tail where the blank is scarfed. As text `4 port`, `4 starboard`, `4 spare 1`, `7 port part 2`, `1.2 port`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct PieceLabel {
    /// The strip's number, and the lamination's.
    mark: String,
    /// Which of the strip's blanks it is.
    blank: Blank,
    /// The part from the tail, starting with 1, where the blank is scarfed.
    part: Option<usize>,
}

/// One of the blanks that are cut for a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Blank {
    Port,
    Starboard,
    /// One of more than two that are wanted, starting with 1.
    Further(u32),
    /// A spare, starting with 1.
    Spare(u32),
}

/// The label of a piece.
pub fn piece_label(plan: &CuttingPlan, needs: &[StripNeed], piece: &PieceCut) -> PieceLabel {
    let need = needs.get(piece.blank.need);
    let wanted = need.map_or(0, |n| n.count);
    let copy = piece.blank.copy;
    let blank = match copy {
        _ if piece.blank.spare => Blank::Spare(copy.saturating_sub(wanted) + 1),
        0 => Blank::Port,
        1 => Blank::Starboard,
        more => Blank::Further(more + 1),
    };
    let scarfed = plan.scarfs.get(piece.blank.need);
    PieceLabel {
        mark: need.map_or(String::new(), StripNeed::mark),
        blank,
        part: scarfed
            .is_some_and(|s| s.pieces.len() > 1)
            .then_some(piece.piece + 1),
    }
}

impl fmt::Display for PieceLabel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mark = &self.mark;
        match self.blank {
            Blank::Port => write!(f, "{mark} port")?,
            Blank::Starboard => write!(f, "{mark} starboard")?,
            Blank::Further(n) => write!(f, "{mark} number {n}")?,
            Blank::Spare(n) => write!(f, "{mark} spare {n}")?,
        }
        match self.part {
            Some(part) => write!(f, " part {part}"),
            None => Ok(()),
        }
    }
}

impl PieceLabel {
    /// The same for a narrow place: `4P`, `4S`, `4X1`, `7P-2`, `1.2P`.
    pub fn short(&self) -> String {
        let mark = &self.mark;
        let blank = match self.blank {
            Blank::Port => "P".to_owned(),
            Blank::Starboard => "S".to_owned(),
            Blank::Further(n) => format!("N{n}"),
            Blank::Spare(n) => format!("X{n}"),
        };
        let part = self.part.map_or(String::new(), |part| format!("-{part}"));
        format!("{mark}{blank}{part}")
    }
}
