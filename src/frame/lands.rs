//! Where parts of the frame are glued, as areas.

use crate::geometry::curve::Vector;
use crate::geometry::path::Path;

/// Glued areas of a rib or the spine, mm².
///
/// Edges count with the part's full thickness, as if planed to their bevels; a face's area grows by less than 1 % for bevels up to
/// 8°, which is left out.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize)]
pub struct Lands {
    /// On the bottom skin.
    pub bottom: f64,
    /// On the deck skin.
    pub deck: f64,
    /// A rib's ends on the rail; the spine's on the end blocks.
    pub ends: f64,
    /// In the half-laps: the faces of this part inside its partners' slots.
    pub laps: f64,
}

impl Lands {
    /// All of them, mm².
    pub fn total(&self) -> f64 {
        self.bottom + self.deck + self.ends + self.laps
    }
}

/// Lengths, mm, of a half rib's chain on bottom, deck and rail, the rail being where it follows one of `rails`.
pub(super) fn chain_lengths(chain: &[Vector<2>], rails: &[&[Vector<2>]]) -> [f64; 3] {
    /// Clipping rounds to far less than this, mm.
    const ON: f64 = 1e-3;
    let pieces: Vec<(f64, bool)> = chain
        .windows(2)
        .map(|w| {
            let middle = (w[0] + w[1]) / 2.0;
            let on_rail = rails.iter().any(|rail| distance(rail, middle) < ON);
            ((w[1] - w[0]).norm(), on_rail)
        })
        .collect();
    let first = pieces.iter().position(|p| p.1).unwrap_or(pieces.len());
    let last = pieces.iter().rposition(|p| p.1).unwrap_or(pieces.len());
    let sum = |range: &mut dyn Iterator<Item = usize>| range.map(|i| pieces[i].0).sum::<f64>();
    let end = (last + 1).min(pieces.len());
    [
        sum(&mut (0..first)),
        sum(&mut (end..pieces.len())),
        sum(&mut (first..end)),
    ]
}

/// Distance of a point from a polyline, mm.
pub(super) fn distance(line: &[Vector<2>], p: Vector<2>) -> f64 {
    line.windows(2)
        .map(|w| {
            let d = w[1] - w[0];
            let t = ((p - w[0]).dot(&d) / d.norm_squared().max(1e-300)).clamp(0.0, 1.0);
            (p - w[0] - d * t).norm()
        })
        .fold(f64::INFINITY, f64::min)
}

/// Area of an outline without its holes, mm².
pub(super) fn net_area(outline: &Path, holes: &[Path]) -> f64 {
    outline.area().abs() - holes.iter().map(|h| h.area().abs()).sum::<f64>()
}
