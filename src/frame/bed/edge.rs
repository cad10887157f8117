//! The bottom skin's outer face over a cradle's thickness.

use crate::design::Construction;
use crate::geometry::curve::{Vector, polyline};
use crate::shape::{Shell, SkinFace, at_depth};

/// How closely, mm, the section is followed by its cubic pieces.
const FOLLOWED: f64 = 1e-4;
/// Chord error, mm, of the polyline drawn through them.
const CHORD: f64 = 0.001;

/// The finished bottom's half section in a plane of constant x, as far as the skin follows it.
pub(super) struct Face {
    /// Points (y, z) from the centre out, mm.
    points: Vec<Vector<2>>,
}

impl Face {
    /// The face in the plane at `x`; `None` where the board has no bottom to speak of.
    pub(super) fn new(shell: &Shell, c: &Construction, x: f64) -> Option<Self> {
        let cut = shell.cut(x).ok()?;
        let face = at_depth(&cut, c, true, 0.0, FOLLOWED)?;
        let points = chords(&face);
        (points.len() > 1).then_some(Self { points })
    }

    /// Half-breadth to which the skin follows the surface, mm.
    pub(super) fn reach(&self) -> f64 {
        self.points.last().map_or(0.0, |p| p.x)
    }

    /// The points' half-breadths.
    pub(super) fn stops(&self) -> impl Iterator<Item = f64> + '_ {
        self.points.iter().map(|p| p.x)
    }

    /// Height at half-breadth `y`, mm; level inboard of the first point and outboard of the last.
    pub(super) fn height(&self, y: f64) -> f64 {
        let ends = (self.points.first(), self.points.last());
        match ends {
            (Some(first), _) if y <= first.x => first.y,
            (_, Some(last)) if y >= last.x => last.y,
            _ => polyline::height(&self.points, y).unwrap_or(0.0),
        }
    }
}

/// Points from the centre to the land, within [`CHORD`] mm of the face.
fn chords(face: &SkinFace) -> Vec<Vector<2>> {
    let mut points = Vec::new();
    for w in face.line.nodes().windows(2) {
        let turn = w[0].tangent.angle(&w[1].tangent);
        let chord = (w[1].point - w[0].point).norm();
        let count = (chord * turn / 8.0 / CHORD).sqrt().ceil().clamp(1.0, 64.0) as usize;
        let step = (w[1].v - w[0].v) / count as f64;
        points.extend((0..count).map(|k| face.line.point(w[0].v + step * k as f64)));
    }
    points.push(face.land);
    points.sort_by(|a, b| a.x.total_cmp(&b.x));
    points.dedup_by(|a, b| (a.x - b.x).abs() < 1e-6);
    points
}
