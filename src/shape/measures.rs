//! What the trade asks of a shape: widths, thicknesses, rocker, volume, areas, centre of volume.

use crate::geometry::solve::{greatest, sign_change};
use serde::Serialize;

use super::outline::TWELVE_INCHES;
use super::{Shell, ShellError};
use crate::geometry::curve::{BSpline, gauss_legendre, integrate};
use crate::geometry::surface::{Integrals, integrals};

/// Section area at one place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SectionArea {
    /// Place, mm from the tail.
    pub x: f64,
    /// Area of the whole section, mm².
    pub area: f64,
}

/// Measures of a finished board; lengths in mm, areas mm², volumes mm³.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct Measures {
    /// Length from tail to nose.
    pub length: f64,
    /// Greatest width.
    pub width: f64,
    /// Where it is, from the tail.
    pub wide_point: f64,
    /// Width 12 in from the nose.
    pub nose_width: f64,
    /// Width 12 in from the tail.
    pub tail_width: f64,
    /// Greatest thickness, square to the bottom.
    pub thickness: f64,
    /// Where it is, from the tail.
    pub thick_point: f64,
    /// Thickness at the middle of the length, square to the bottom.
    pub centre_thickness: f64,
    /// Thickness 12 in from the nose.
    pub nose_thickness: f64,
    /// Thickness 12 in from the tail.
    pub tail_thickness: f64,
    /// Height of the bottom at the nose.
    pub nose_rocker: f64,
    /// Height of the bottom at the tail.
    pub tail_rocker: f64,
    /// Height of the bottom's centreline every 12 in from the tail, as (x, height).
    pub rocker: Vec<[f64; 2]>,
    /// Volume.
    pub volume: f64,
    /// Planshape area.
    pub planshape_area: f64,
    /// Area of the whole surface.
    pub surface_area: f64,
    /// Centre of volume (x, z).
    pub centre_of_volume: [f64; 2],
    /// Section areas along the board.
    pub section_areas: Vec<SectionArea>,
    /// The starboard apex line as (x, y, z).
    pub apex_line: Vec<[f64; 3]>,
}

impl Shell {
    /// Integrals of the half shell: outer patches, and the wall of a cleft. Flat faces count in the area.
    pub fn half_integrals(&self) -> Result<Integrals, ShellError> {
        let patches = self.patches.iter().chain(&self.wall).map(integrals);
        let mut sum = patches.reduce(|a, b| a + b).unwrap_or_default();
        for (end, x) in self.ends.iter().zip([self.x_range().0, self.x_range().1]) {
            if *end == super::End::Face {
                let area = half_area(&self.section(x)?);
                sum.area += area;
            }
        }
        Ok(sum)
    }

    /// Area of the whole section in the plane at `x`, mm², exact for the patches.
    pub fn section_area(&self, x: f64) -> Result<f64, ShellError> {
        Ok(2.0 * half_area(&self.section(x)?))
    }

    /// Half-width at the apex line in the plane at `x`, mm.
    pub fn half_width(&self, x: f64) -> f64 {
        let (patch, u) = self.locate(x);
        self.patches[patch].point(u, self.apex).y
    }

    /// Height of bottom and deck on the section's inner end (the centreline, or the cleft's wall) at `x`, mm.
    pub fn centre_heights(&self, x: f64) -> [f64; 2] {
        let (patch, u) = self.locate(x);
        [0.0, 1.0].map(|v| self.patches[patch].point(u, v).z)
    }

    /// Thickness square to the bottom at the bottom's point `x` on the centreline, as calipers read it, mm.
    ///
    /// The bottom's normal is followed to the deck, which it always meets; where a section has no material on the centreline
    /// (a cleft) the section's inner end counts.
    pub fn square_thickness(&self, x: f64) -> f64 {
        let (index, u) = self.locate(x);
        let patch = &self.patches[index];
        let foot = patch.point(u, 0.0);
        let Some(normal) = patch.normal(u, 0.0) else {
            return 0.0;
        };
        let slope = if normal.z != 0.0 {
            normal.x / -normal.z
        } else {
            0.0
        };
        // Along the normal x goes back by slope per mm of height; the deck's height over the foot there is h.
        let (low, high) = self.x_range();
        let short = |h: f64| {
            let at = (foot.x - slope * h).clamp(low, high);
            h - (self.centre_heights(at)[1] - foot.z)
        };
        let upright = -short(0.0);
        // No deck lies over the highest control point, so the height is found below that.
        let highest = self.patches.iter().flat_map(|p| p.net());
        let top = highest.map(|p| p.z).fold(f64::NEG_INFINITY, f64::max) - foot.z;
        let h = sign_change(0.0, top, short).unwrap_or(upright);
        h * slope.hypot(1.0)
    }
}

/// Area between a half section and the centre plane (or, in a cleft, the upright through its ends): ∮ y dz, exact.
fn half_area(section: &BSpline<3>) -> f64 {
    let inner = section.points().first().map_or(0.0, |p| p.y);
    let rule = gauss_legendre(4);
    let piece = |w: &[f64]| {
        integrate(&rule, w[0], w[1], |v| {
            let [p, d] = section.derivatives::<2>(v);
            (p.y - inner) * d.z
        })
    };
    section.knots().breaks().windows(2).map(piece).sum()
}

/// Measures `shell`.
pub fn measures(shell: &Shell) -> Result<Measures, ShellError> {
    let (tail, nose) = shell.x_range();
    let length = nose - tail;
    let half = shell.half_integrals()?;
    let wide_point = greatest(tail, nose, 100, |x| shell.half_width(x));
    let thick_point = greatest(tail, nose, 100, |x| shell.square_thickness(x));
    let bottom = |x: f64| shell.centre_heights(x)[0];
    let stations = |step: f64| {
        let count = (length / step).floor() as usize;
        (0..=count).map(move |i| tail + step * i as f64)
    };
    let mut section_areas = Vec::new();
    for i in 0..=40 {
        let x = tail + length * f64::from(i) / 40.0;
        section_areas.push(SectionArea {
            x,
            area: shell.section_area(x)?,
        });
    }
    let apex = |x: f64| {
        let (patch, u) = shell.locate(x);
        shell.patches[patch].point(u, shell.apex)
    };
    Ok(Measures {
        length,
        width: 2.0 * shell.half_width(wide_point),
        wide_point,
        nose_width: 2.0 * shell.half_width(nose - TWELVE_INCHES),
        tail_width: 2.0 * shell.half_width(tail + TWELVE_INCHES),
        thickness: shell.square_thickness(thick_point),
        thick_point,
        centre_thickness: shell.square_thickness(tail + length / 2.0),
        nose_thickness: shell.square_thickness(nose - TWELVE_INCHES),
        tail_thickness: shell.square_thickness(tail + TWELVE_INCHES),
        nose_rocker: bottom(nose),
        tail_rocker: bottom(tail),
        rocker: stations(TWELVE_INCHES).map(|x| [x, bottom(x)]).collect(),
        volume: 2.0 * half.volume,
        planshape_area: 2.0 * planshape_area(shell)?,
        surface_area: 2.0 * half.area,
        centre_of_volume: [half.moment.x / half.volume, half.moment.z / half.volume],
        section_areas,
        apex_line: stations(25.4)
            .chain([nose])
            .map(|x| apex(x).into())
            .collect(),
    })
}

/// Half the area inside the apex line less the cleft: ∫ (y_apex − y_inner) dx, exact per knot span.
fn planshape_area(shell: &Shell) -> Result<f64, ShellError> {
    let rule = gauss_legendre(4);
    let mut area = 0.0;
    for patch in &shell.patches {
        let lines: Result<Vec<BSpline<3>>, _> =
            [shell.apex, 0.0].iter().map(|&v| patch.along(v)).collect();
        let lines = lines.map_err(ShellError::curve("apex line"))?;
        for w in patch.u().breaks().windows(2) {
            area += integrate(&rule, w[0], w[1], |u| {
                let [outer, inner] = [&lines[0], &lines[1]].map(|l| l.derivatives::<2>(u));
                (outer[0].y - inner[0].y) * outer[1].x
            });
        }
    }
    Ok(area)
}
