//! Strain of a skin along the board and across it.

use super::Flattening;
use crate::geometry::curve::Vector;

/// Strain of one triangle of a skin: what the flat wood takes on in being laid to the surface, at its mid-thickness. Tension is positive.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Strain {
    /// Middle of the triangle in plan, (x, y) mm.
    pub place: [f64; 2],
    /// Along the board (the direction in the surface over the plan's x axis).
    pub along: f64,
    /// Square to that in the surface.
    pub across: f64,
    /// The strain of greatest size in any direction.
    pub worst: f64,
    /// Share of the area gained.
    pub area: f64,
    /// The triangle's area, mm².
    pub size: f64,
}

impl Strain {
    /// The same on the other side of the board.
    pub(super) fn mirrored(self) -> Self {
        let [x, y] = self.place;
        Self {
            place: [x, -y],
            ..self
        }
    }
}

pub(super) fn strains(
    points: &[Vector<3>],
    triangles: &[[u32; 3]],
    laid: &Flattening,
) -> Vec<Strain> {
    let of = |(t, stretch): (&[u32; 3], &super::Stretch)| {
        let [a, b, c] = t.map(|i| points[i as usize]);
        let normal = (b - a).cross(&(c - a));
        // Within the plane of constant y, and square to it in the surface.
        let along = normal.cross(&Vector::<3>::y());
        let across = normal.cross(&along);
        let middle = (a + b + c) / 3.0;
        Strain {
            place: [middle.x, middle.y],
            along: stretch.strain(&along),
            across: stretch.strain(&across),
            worst: stretch.worst(),
            area: stretch.area_strain(),
            size: normal.norm() / 2.0,
        }
    };
    triangles.iter().zip(&laid.stretches).map(of).collect()
}

/// What changes within this, mm, a thin panel takes as if it were spread over as much to each side: a kink, such as a vee's at the centreline,
/// or strain that peaks in a spot (common practice, no published source).
pub(super) const SPREAD: f64 = 15.0;

/// Means, by area, of the strains within [`SPREAD`] of every triangle's middle, starboard of the centreline and within the finished outline.
///
/// Peaks in single triangles depend on the grid: where a land ends at a tip they grow as the grid gets finer. These means do not.
/// `strains` lie in the strips between the grid's `rows`, as many in each.
pub(super) fn spread_out(strains: &[Strain], covered: &[bool], rows: &[f64]) -> Vec<Strain> {
    let strips = rows.len().saturating_sub(1).max(1);
    let width = strains.len() / strips;
    let all = || strains.iter().zip(covered);
    let mut out = Vec::with_capacity(strains.len() / 2);
    for (own, _) in all().filter(|(s, covered)| **covered && s.place[1] >= 0.0) {
        let [x, y] = own.place;
        // Strips that reach into the circle.
        let first = rows.partition_point(|r| *r < x - SPREAD).max(1) - 1;
        let last = rows.partition_point(|r| *r <= x + SPREAD).min(strips);
        let mut mean = Strain {
            along: 0.0,
            across: 0.0,
            worst: 0.0,
            area: 0.0,
            ..*own
        };
        let mut size = 0.0;
        for (s, covered) in all().take(last * width).skip(first * width) {
            let (dx, dy) = (s.place[0] - x, s.place[1] - y);
            if *covered && dx * dx + dy * dy <= SPREAD * SPREAD {
                mean.along += s.along * s.size;
                mean.across += s.across * s.size;
                // The direction may turn from triangle to triangle, and the sign with it.
                mean.worst += s.worst.abs() * s.size;
                mean.area += s.area * s.size;
                size += s.size;
            }
        }
        out.push(Strain {
            along: mean.along / size,
            across: mean.across / size,
            worst: own.worst.signum() * mean.worst / size,
            area: mean.area / size,
            ..mean
        });
    }
    out
}
