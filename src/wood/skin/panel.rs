//! A skin: its mid-surface as a structured grid, and its flat image.

use super::SkinError;
use super::flatten::flatten_half;
use super::grid::Grid;
use super::height::{MidSurface, lifted};
use super::plan::Plan;
use super::strain::{Strain, spread_out, strains};
use crate::design::Construction;
use crate::design::finding::Face;
use crate::geometry::curve::Vector;
use crate::shape::Shell;

/// How skins are developed; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[non_exhaustive]
pub struct SkinOptions {
    /// How far the panel reaches past the finished outline, 0 to 100.
    pub overhang: f64,
    /// Spacing of the grid's rows along the board, 5 to 100.
    pub row_step: f64,
    /// Spacing of the grid's columns at the widest, 5 to 100.
    pub column_step: f64,
}

impl Default for SkinOptions {
    /// 10 mm over (common practice, no published source); a grid of 24 by 20 mm.
    fn default() -> Self {
        Self {
            overhang: 10.0,
            row_step: 24.0,
            column_step: 22.0,
        }
    }
}

impl SkinOptions {
    fn check(&self) -> Result<(), SkinError> {
        for (what, value, least, greatest) in [
            ("overhang", self.overhang, 0.0, 100.0),
            ("row step", self.row_step, 5.0, 100.0),
            ("column step", self.column_step, 5.0, 100.0),
        ] {
            if !(value >= least && value <= greatest) {
                return Err(SkinError::Option {
                    what,
                    value,
                    least,
                    greatest,
                });
            }
        }
        Ok(())
    }
}

/// A skin and its flat image.
///
/// The grid's rows lie in planes of constant x, its columns at equal shares of the panel's width from port to starboard. Its port half is
/// the mirror image of the starboard half, which alone is laid flat. The flat image has the centreline along +x, tail to nose, starboard at +y.
#[derive(Debug, Clone, PartialEq)]
pub struct Skin {
    /// Which skin.
    pub face: Face,
    /// Its thickness, mm.
    pub thickness: f64,
    /// How it was developed.
    pub options: SkinOptions,
    /// Planes of the rows, mm from the tail.
    pub rows: Vec<f64>,
    /// Half-widths of the grid at the rows, mm.
    pub half_widths: Vec<f64>,
    /// Half-breadths of the land line at the rows, mm.
    pub lands: Vec<f64>,
    /// Columns across the whole width; odd, the middle one on the centreline.
    pub columns: usize,
    /// Points of the mid-surface, row by row from port to starboard, mm.
    pub points: Vec<Vector<3>>,
    /// Triangles, counter-clockwise in (x, y).
    pub triangles: Vec<[u32; 3]>,
    /// Their flat image, mm.
    pub flat: Vec<Vector<2>>,
    /// Strain of every triangle.
    pub strains: Vec<Strain>,
    /// Strains as they are judged: those of the finished board's starboard half, spread out.
    pub(super) judged: Vec<Strain>,
    /// Where the skin follows the surface lengthwise, mm from the tail; beyond it goes on along its tangent.
    pub follows: [f64; 2],
    /// The panel's plan.
    pub(super) plan: Plan,
    pub(super) ends: [f64; 2],
}

/// The narrowest half of the grid, mm, so that a pointed end has no slivers.
const NARROWEST: f64 = 6.0;

/// Both skins of a board, bottom first: mid-surface, flat image and strain.
///
/// # Errors
///
/// [`SkinError`] if an option is out of range, the board is too thin for a skin, or a skin folds when laid flat.
pub fn skins(
    shell: &Shell,
    construction: &Construction,
    options: &SkinOptions,
) -> Result<[Skin; 2], SkinError> {
    Ok([
        skin(shell, construction, Face::Bottom, options)?,
        skin(shell, construction, Face::Deck, options)?,
    ])
}

/// One skin of a board. The mid-surface is offset inward by half the skin's thickness between the land lines and continued
/// along its tangent beyond them, across and lengthwise, to the overhang past the finished outline; it spans a cleft.
///
/// # Errors
///
/// As [`skins`].
pub fn skin(
    shell: &Shell,
    construction: &Construction,
    face: Face,
    options: &SkinOptions,
) -> Result<Skin, SkinError> {
    options.check()?;
    let none = || SkinError::NoSurface {
        face: face.name(),
        thickness: face.thickness(construction),
    };
    let surface = MidSurface::new(shell, construction, face)?.ok_or_else(none)?;
    let (tail, nose) = shell.x_range();
    let plan = Plan::new(shell, options.overhang);
    let rows = rows(
        tail - options.overhang,
        nose + options.overhang,
        options.row_step,
    );
    let half_widths: Vec<f64> = rows
        .iter()
        .map(|&x| plan.half_width(x).max(NARROWEST))
        .collect();
    let widest = half_widths.iter().copied().fold(0.0, f64::max);
    let half = (widest / options.column_step).ceil().max(2.0) as usize;
    let grid = Grid {
        rows: rows.len(),
        half,
    };
    let mut starboard = Vec::with_capacity(rows.len() * (half + 1));
    let mut lands = Vec::with_capacity(rows.len());
    for (&x, &w) in rows.iter().zip(&half_widths) {
        let row = surface.row(x)?.ok_or_else(none)?;
        lands.push(row.land());
        starboard.extend((0..=half).map(|j| lifted(&row, x, w * j as f64 / half as f64)));
    }
    let triangles = grid.starboard();
    let laid = flatten_half(&starboard, &triangles, &grid.seam()).map_err(|source| {
        SkinError::Flatten {
            face: face.name(),
            source,
        }
    })?;
    let strains = strains(&starboard, &triangles, &laid);
    let covered: Vec<bool> = strains
        .iter()
        .map(|s| plan.covers(s.place[0], s.place[1]))
        .collect();
    let strains = grid.on_triangles(&strains, Strain::mirrored);
    let covered = grid.on_triangles(&covered, |c| c);
    let judged = spread_out(&strains, &covered, &rows);
    let start = tail - options.overhang;
    let flat: Vec<Vector<2>> = laid
        .flat
        .iter()
        .map(|p| Vector::<2>::new(start + p.x, p.y))
        .collect();
    Ok(Skin {
        face,
        thickness: face.thickness(construction),
        options: *options,
        rows,
        half_widths,
        lands,
        columns: grid.columns(),
        points: grid.at_vertices(&starboard, |p| Vector::<3>::new(p.x, -p.y, p.z)),
        triangles: grid.triangles(),
        flat: grid.at_vertices(&flat, |p| Vector::<2>::new(p.x, -p.y)),
        judged,
        strains,
        follows: surface.follows,
        plan,
        ends: [tail, nose],
    })
}

/// Rows from `start` to `end`, `step` apart in the middle, closer towards the ends where the outline turns across.
fn rows(start: f64, end: f64, step: f64) -> Vec<f64> {
    let half = (end - start) / 2.0;
    let mut gaps = Vec::new();
    let (mut gap, mut reached) = ((step / 8.0).min(half), 0.0);
    while reached < half {
        gaps.push(gap);
        reached += gap;
        gap = (gap * 1.45).min(step);
    }
    let scale = half / reached;
    let mut x = start;
    let mut out = vec![start];
    for g in &gaps {
        x += g * scale;
        out.push(x);
    }
    let mirrored: Vec<f64> = out.iter().rev().skip(1).map(|x| start + end - x).collect();
    out.extend(mirrored);
    out
}

impl Skin {
    /// The flat image of the skin's point over the plan's (x, y), y to starboard, mm: bilinear in the grid's cells.
    ///
    /// `None` outside the grid's rows. Across, places up to the grid's last column are prolonged as their cell has it.
    pub fn flat_of(&self, x: f64, y: f64) -> Option<Vector<2>> {
        self.interpolate(x, y, |k| self.flat[k])
    }

    /// The mid-surface's point over the plan's (x, y), mm; as [`flat_of`](Self::flat_of).
    pub fn point_of(&self, x: f64, y: f64) -> Option<Vector<3>> {
        self.interpolate(x, y, |k| self.points[k])
    }

    fn interpolate<const D: usize>(
        &self,
        x: f64,
        y: f64,
        value: impl Fn(usize) -> Vector<D>,
    ) -> Option<Vector<D>> {
        let (first, last) = (self.rows.first()?, self.rows.last()?);
        if !(x >= *first && x <= *last && y.is_finite()) {
            return None;
        }
        let i = self
            .rows
            .partition_point(|r| *r <= x)
            .clamp(1, self.rows.len() - 1)
            - 1;
        let t = (x - self.rows[i]) / (self.rows[i + 1] - self.rows[i]);
        let width = self.half_widths[i] * (1.0 - t) + self.half_widths[i + 1] * t;
        let share = (y / width + 1.0) / 2.0 * (self.columns - 1) as f64;
        let j = share.floor().clamp(0.0, (self.columns - 2) as f64) as usize;
        let s = share - j as f64;
        let k = i * self.columns + j;
        let near = value(k) * (1.0 - s) + value(k + 1) * s;
        let far = value(k + self.columns) * (1.0 - s) + value(k + self.columns + 1) * s;
        Some(near * (1.0 - t) + far * t)
    }
}
