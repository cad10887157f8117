//! Strain of a skin along the board and across it.

use super::Flattening;
use crate::curve::Vector;

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

/// The strains of greatest size on a skin.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Greatest {
    /// Along the board.
    pub along: Strain,
    /// Across it.
    pub across: Strain,
    /// In any direction.
    pub worst: Strain,
}

impl super::Skin {
    /// The strains within the finished outline.
    fn finished(&self) -> impl Iterator<Item = &Strain> {
        let all = self.strains.iter().zip(&self.covered);
        all.filter_map(|(strain, covered)| covered.then_some(strain))
    }

    /// Share of the finished panel whose strain, by `value`, is greater than `limit` either way.
    pub fn share_over(&self, value: impl Fn(&Strain) -> f64, limit: f64) -> f64 {
        let (mut over, mut all) = (0.0, 0.0);
        for s in self.finished() {
            all += s.size;
            over += if value(s).abs() > limit { s.size } else { 0.0 };
        }
        over / all
    }

    /// The greatest strains within the finished outline, with their places; `None` if no triangle lies there.
    pub fn greatest(&self) -> Option<Greatest> {
        let pick = |f: fn(&Strain) -> f64| {
            self.finished()
                .max_by(|a, b| f(a).abs().total_cmp(&f(b).abs()))
                .copied()
        };
        Some(Greatest {
            along: pick(|s| s.along)?,
            across: pick(|s| s.across)?,
            worst: pick(|s| s.worst)?,
        })
    }
}
