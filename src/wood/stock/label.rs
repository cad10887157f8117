//! What is written on a piece.

use super::cutting::{CuttingPlan, PieceCut, StripNeed};

/// What to write on a piece: its strip's number, with its lamination's after a point, a letter for each of the strip's blanks (`a` and `b` for the two rails) or `s` and a
/// number for spares, and the piece from the tail where the blank is scarfed: `4a`, `4b`, `4s1`, `7a-2`, `1.2a`.
pub fn piece_label(plan: &CuttingPlan, needs: &[StripNeed], piece: &PieceCut) -> String {
    let need = needs.get(piece.blank.need);
    let wanted = need.map_or(0, |n| n.count);
    let copy = piece.blank.copy;
    let blank = if piece.blank.spare {
        format!("s{}", copy.saturating_sub(wanted) + 1)
    } else {
        match u8::try_from(copy) {
            Ok(n) if n < 26 => char::from(b'a' + n).to_string(),
            _ => format!("n{}", copy + 1),
        }
    };
    let pieces = plan
        .scarfs
        .get(piece.blank.need)
        .map_or(1, |s| s.pieces.len());
    let part = if pieces > 1 {
        format!("-{}", piece.piece + 1)
    } else {
        String::new()
    };
    let mark = need.map_or(String::new(), StripNeed::mark);
    format!("{mark}{blank}{part}")
}
