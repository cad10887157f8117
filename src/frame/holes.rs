//! Lightening holes: where a part has room for them, and how that room is divided.

use super::FrameError;
use super::deepest::deepest;
use super::rounded::{rounded, without_hairs};
use crate::design::{Holes, Pattern};
use crate::geometry::curve::Vector;
use crate::geometry::path::Path;
use crate::geometry::polygon::{
    arc_sagitta, area, difference, offset_outline, stroke_outline, thinned,
};

/// Added to every web, mm: what fitting arcs to contour and hole may take from it.
const SLACK: f64 = 0.018;
/// How closely edges are followed, mm, on top of that.
const THIN: f64 = 0.003;
/// Added to the corners' radius, mm, so that after fitting a disc of that radius still goes into every corner.
const EASE: f64 = 0.03;
/// What is cropped away lies at least this far off, mm: more than the radius of any air hole.
const FAR: f64 = 60.0;
/// Rooms for a hole's centre smaller than this, mm², are left whole.
const LEAST_ROOM: f64 = 1.0;
/// Length of a hole over its height when the design is silent (common practice, no published source).
const SPAN: f64 = 3.0;

/// What holes of a part must keep clear of.
pub(super) struct Room {
    /// The part, as a closed polygon.
    pub contour: Vec<Vector<2>>,
    /// Edges, and the least wood that stays beside each, mm.
    pub edges: Vec<(Vec<Vector<2>>, f64)>,
    /// Ranges of the first coordinate that are kept whole over the part's height, mm.
    pub columns: Vec<[f64; 2]>,
}

impl Room {
    /// Where the centre of a disc of `radius` may lie: polygons.
    pub fn centres(&self, radius: f64) -> Vec<Vec<Vector<2>>> {
        let mut clips = Vec::new();
        for (line, web) in &self.edges {
            let reach = web + radius + SLACK + THIN;
            clips.extend(stroke_outline(
                &thinned(line, THIN),
                reach + arc_sagitta(reach),
            ));
        }
        clips.extend(self.columns.iter().map(|c| self.column(*c, radius + SLACK)));
        let pieces = difference(&self.contour, &clips);
        pieces
            .into_iter()
            .filter(|p| area(p) > LEAST_ROOM)
            .collect()
    }

    /// Leaves away what lies so far beyond a range of the first coordinate that it cannot matter there.
    pub fn crop(&mut self, [from, to]: [f64; 2]) {
        let widest = self.edges.iter().map(|e| e.1).fold(0.0, f64::max);
        let beyond = 2.0 * widest + FAR;
        let near = |p: &Vector<2>| p.x >= from - beyond && p.x <= to + beyond;
        self.contour.retain(near);
        for (line, _) in &mut self.edges {
            line.retain(near);
        }
        self.edges.retain(|(line, _)| line.len() > 1);
        self.columns
            .retain(|c| c[1] >= from - beyond && c[0] <= to + beyond);
    }

    /// A column over the whole part, wider by `more` on each side.
    fn column(&self, [from, to]: [f64; 2], more: f64) -> Vec<Vector<2>> {
        let [_, [low, high]] = extent(&self.contour);
        let corners = [
            (from - more, low - 1.0),
            (to + more, low - 1.0),
            (to + more, high + 1.0),
            (from - more, high + 1.0),
        ];
        corners.map(|(x, y)| Vector::<2>::new(x, y)).into()
    }

    /// Holes by the maker's rule, in rising first coordinate; none where there is no room.
    ///
    /// The room for the centre of a disc with the corners' radius is found first; a hole is all that such discs cover (an opening,
    /// in the words of mathematical morphology), so that no corner is tighter and every web is kept all round.
    pub fn holes(&self, part: &str, rule: &Holes) -> Result<Vec<Path>, FrameError> {
        if rule.pattern == Pattern::None {
            return Ok(Vec::new());
        }
        let radius = rule.corner + EASE;
        let mut holes = Vec::new();
        for centres in self.centres(radius) {
            for cell in self.divided(&centres, rule) {
                holes.extend(match rule.pattern {
                    Pattern::Round => round(&cell, radius),
                    _ => contour_hole(part, &cell, radius)?,
                });
            }
        }
        holes.sort_by(|a, b| a.bounds().min.x.total_cmp(&b.bounds().min.x));
        Ok(holes)
    }

    /// A room for centres cut by bridges into cells of equal length.
    fn divided(&self, centres: &[Vector<2>], rule: &Holes) -> Vec<Vec<Vector<2>>> {
        let radius = rule.corner + EASE;
        let [[from, to], _] = extent(centres);
        let [from, to] = [from - radius, to + radius];
        let opened: f64 = offset_outline(centres, radius)
            .iter()
            .map(|c| area(c))
            .sum();
        let (length, height) = (to - from, opened / (to - from));
        let wanted = match (rule.count, rule.span, rule.pattern) {
            (Some(count), ..) => count as f64,
            (None, Some(span), _) => (length / span).ceil(),
            (None, None, Pattern::Round) => {
                ((length + rule.bridge) / (height + rule.bridge)).floor()
            }
            (None, None, _) => (length / (SPAN * height)).ceil(),
        };
        let most = ((length + rule.bridge) / (2.0 * radius + rule.bridge)).floor();
        let count = wanted.min(most).max(1.0);
        let half = rule.bridge / 2.0;
        let bridges: Vec<_> = (1..count as usize)
            .map(|k| from + length * k as f64 / count)
            .map(|x| self.column([x - half, x + half], radius + SLACK))
            .collect();
        let cells = difference(centres, &bridges);
        cells.into_iter().filter(|c| area(c) > LEAST_ROOM).collect()
    }
}

/// Least and greatest of each coordinate.
fn extent(points: &[Vector<2>]) -> [[f64; 2]; 2] {
    let of = |get: fn(&Vector<2>) -> f64| {
        let fold = |[low, high]: [f64; 2], p| [low.min(get(p)), high.max(get(p))];
        points.iter().fold([f64::INFINITY, f64::NEG_INFINITY], fold)
    };
    [of(|p| p.x), of(|p| p.y)]
}

/// All that discs with their centres in `cell` cover.
fn contour_hole(part: &str, cell: &[Vector<2>], radius: f64) -> Result<Vec<Path>, FrameError> {
    // Clipping leaves corners a hair apart, which would be rounded one by one.
    let cell = without_hairs(cell);
    let covered = offset_outline(&cell, radius);
    let outer = covered
        .into_iter()
        .max_by(|a, b| area(a).abs().total_cmp(&area(b).abs()));
    outer
        .map(|points| rounded(&format!("a hole of {part}"), &points, &cell, radius))
        .into_iter()
        .collect()
}

/// The largest circle with its centre in `cell`, of a whole number of millimetres across as hole saws are.
fn round(cell: &[Vector<2>], radius: f64) -> Vec<Path> {
    let Some((centre, depth)) = deepest(cell) else {
        return Vec::new();
    };
    let across = (2.0 * (radius + depth)).floor().max(2.0 * (radius - EASE));
    vec![Path::circle(centre, across / 2.0)]
}
