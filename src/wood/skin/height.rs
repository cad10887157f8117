//! The mid-surface of a skin as heights over the plan.

use super::Face;
use crate::design::Construction;
use crate::geometry::curve::Vector;
use crate::shape::{Cut, Shell, ShellError, Side, SkinFace, at_depth, land_at_depth};

/// How closely, mm, sections of the mid-surface are followed.
const ACCURACY: f64 = 1e-3;
/// Step, mm, of the search for where the skin leaves the surface lengthwise.
const STEP: f64 = 1.0;
/// How far from an end, mm, the skin is taken to follow the surface without a question.
const NEAR: f64 = 160.0;

/// The skin follows the surface only where the land line lies this share of its greatest half-breadth off the centreline: nearer to a
/// tip the section is too narrow to bend the panel to, and the tip is shaped from the block (common practice, no published source).
const NARROW: f64 = 0.2;

/// A skin's mid-surface.
pub(super) struct MidSurface<'a> {
    shell: &'a Shell,
    construction: &'a Construction,
    face: Face,
    /// Where the skin follows the surface lengthwise; beyond it goes on along its tangent.
    pub follows: [f64; 2],
}

/// One section of a mid-surface, and how it rises towards the nose.
pub(super) struct Row {
    face: SkinFace,
    /// Beyond where the skin follows the surface: how far, as a multiple of the distance to a section farther in, negative outwards, and that
    /// section.
    beyond: Option<(f64, SkinFace)>,
}

impl<'a> MidSurface<'a> {
    /// `None` where the skin finds no surface to follow.
    pub fn new(
        shell: &'a Shell,
        construction: &'a Construction,
        face: Face,
    ) -> Result<Option<Self>, ShellError> {
        let mut surface = Self {
            shell,
            construction,
            face,
            follows: [0.0; 2],
        };
        let (tail, nose) = shell.x_range();
        let mut land = 0.0_f64;
        for k in 1..8 {
            let cut = shell.cut(tail + (nose - tail) * f64::from(k) / 8.0)?;
            land = land.max(surface.land(&cut));
        }
        let reach = NEAR.min((nose - tail) / 4.0);
        for (end, from, to) in [(0, tail + reach, tail), (1, nose - reach, nose)] {
            match surface.last_followed(from, to, NARROW * land)? {
                Some(x) => surface.follows[end] = x,
                None => return Ok(None),
            }
        }
        Ok(Some(surface))
    }

    fn section(&self, x: f64) -> Result<Option<SkinFace>, ShellError> {
        let (cut, c) = (self.shell.cut(x)?, self.construction);
        let face = at_depth(&cut, c, self.face == Face::Bottom, self.depth(), ACCURACY);
        Ok(face.filter(|f| !f.line.is_empty()))
    }

    /// Half-breadth of the land line in a plane, mm; 0 where there is none.
    fn land(&self, cut: &Cut) -> f64 {
        let bottom = self.face == Face::Bottom;
        let land = land_at_depth(cut, self.construction, bottom, self.depth());
        land.map_or(0.0, |l| l.point.x)
    }

    fn depth(&self) -> f64 {
        self.face.thickness(self.construction) / 2.0
    }

    /// The last place from `from` towards `to` where the skin can follow the surface on the centreline: an inset exists, the
    /// land is wide enough and the surface does not bulge tighter lengthwise than the skin bends.
    fn last_followed(&self, from: f64, to: f64, narrow: f64) -> Result<Option<f64>, ShellError> {
        let v = if self.face == Face::Bottom { 0.0 } else { 1.0 };
        let count = ((to - from).abs() / STEP).floor() as usize;
        let place = |i: usize| from + (to - from).signum() * STEP * i as f64;
        let mut followed = 0;
        while followed <= count {
            let cut = self.shell.cut(place(followed))?;
            let jet = cut.jet(v, Side::Above);
            let bent = jet.normal_curvature(&jet.du);
            let holds = bent.is_some_and(|k| k * self.construction.skin_bend_radius <= 1.0);
            if !(holds && self.land(&cut) > narrow) {
                break;
            }
            followed += 1;
        }
        // A land without a line to it is no section.
        for x in (0..followed).rev().map(place) {
            if self.section(x)?.is_some() {
                return Ok(Some(x));
            }
        }
        Ok(None)
    }

    /// The section at `x`, or the continuation along the tangent beyond where the skin follows the surface.
    pub fn row(&self, x: f64) -> Result<Option<Row>, ShellError> {
        let at = x.clamp(self.follows[0], self.follows[1]);
        let Some(face) = self.section(at)? else {
            return Ok(None);
        };
        if x == at {
            return Ok(Some(Row { face, beyond: None }));
        }
        let middle = (self.follows[0] + self.follows[1]) / 2.0;
        // The slope is taken inwards.
        let apart = if at < middle { 2.0 } else { -2.0 };
        let inside = self.section(at + apart)?;
        Ok(inside.map(|inside| Row {
            face,
            beyond: Some(((x - at) / apart, inside)),
        }))
    }
}

impl Row {
    /// Height of the mid-surface at half-breadth `y` ≥ 0, mm.
    pub fn height(&self, y: f64) -> f64 {
        let z = height(&self.face, y);
        match &self.beyond {
            Some((ratio, inside)) => z + (height(inside, y) - z) * ratio,
            None => z,
        }
    }

    /// Half-breadth of the land line, mm.
    pub fn land(&self) -> f64 {
        self.face.land.x
    }
}

/// Height on a section; over a cleft an even parabola that meets the section with its slope.
fn height(face: &SkinFace, y: f64) -> f64 {
    let nodes = face.line.nodes();
    let ends = [nodes.first(), nodes.last()];
    let inner = ends
        .into_iter()
        .flatten()
        .min_by(|a, b| a.point.x.total_cmp(&b.point.x));
    match inner {
        Some(node) if y < node.point.x && node.point.x > 1e-6 => {
            let slope = if node.tangent.x.abs() > 1e-9 {
                node.tangent.y / node.tangent.x
            } else {
                0.0
            };
            let ratio = y / node.point.x;
            node.point.y + slope * node.point.x / 2.0 * (ratio * ratio - 1.0)
        }
        _ => face.height(y),
    }
}

/// A point of the mid-surface.
pub(super) fn lifted(row: &Row, x: f64, y: f64) -> Vector<3> {
    Vector::<3>::new(x, y, row.height(y.abs()))
}
