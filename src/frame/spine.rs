//! The spine.

use super::edges::Edges;
use super::joint::{PieceJoint, plan};
use super::lands::net_area;
use super::pieces::{End, SpinePiece, stretch};
use super::{FrameError, Lands, Rib};
use crate::design::finding::{BoardEnd, Change, Code, Fact, Finding, Part, Place};
use crate::design::{Construction, Design};
use crate::geometry::curve::{Vector, graph, polyline};
use crate::geometry::path::Path;
use crate::geometry::solve::fixed_point;
use crate::shape::{Shell, Side};

/// The spine, seen from starboard: x from the tail, z up, both in the board's coordinates.
#[derive(Debug, Clone, PartialEq)]
pub struct Spine {
    /// Thickness, mm.
    pub thickness: f64,
    /// Where it begins and ends, mm from the tail.
    pub ends: [f64; 2],
    /// The contour, with the slots for the ribs from above.
    pub outline: Path,
    /// What it is cut as, from the tail: more than one piece where it is longer than the sheet.
    pub pieces: Vec<SpinePiece>,
    /// Where its pieces are joined, from the tail.
    pub joints: Vec<PieceJoint>,
    /// Lightening and air holes, from the tail.
    pub holes: Vec<Path>,
    /// Bottom and deck edge without the slots, from the tail, as dense points.
    pub(super) edges: [Vec<Vector<2>>; 2],
    /// Glued areas.
    pub lands: Lands,
    /// Width of the slots, mm.
    pub slot_width: f64,
}

/// Places at which the spine's edges are computed, about one every 8 mm on a short board.
const STEPS: usize = 240;
/// How closely the section parameter at the breadth of its faces is found, about a millionth of a millimetre, and in how many rounds.
const FOUND: f64 = 1e-9;
const ROUNDS: usize = 30;
/// Least height of the spine, mm.
const LEAST: f64 = 4.0;

/// The spine between the end blocks, slotted for `ribs` from above, still without holes. It stops short of a block where the hollow is
/// too low for it, which is then told.
pub fn spine(
    shell: &Shell,
    design: &Design,
    ribs: &[Rib],
) -> Result<(Spine, Vec<Finding>), FrameError> {
    let c = &design.construction;
    let required_ends = [c.tail_block, shell.x_range().1 - c.nose_block];
    let between = |ends: [f64; 2]| -> Vec<Option<[Vector<2>; 2]>> {
        (0..=STEPS)
            .map(|i| edge_points(shell, c, along(ends, i)))
            .collect()
    };
    let all = between(required_ends);
    let ends = high_enough(required_ends, &all)?;
    let mut findings = shortened(required_ends, ends);
    let edges = if ends == required_ends {
        all
    } else {
        between(ends)
    };
    let edges: Option<Vec<[Vector<2>; 2]>> = edges.into_iter().collect();
    let thin = |x: f64, height: f64| FrameError::Spine { x, height };
    let edges = edges.ok_or(thin(ends[0], 0.0))?;
    if let Some(low) = edges.iter().find(|e| e[1].y - e[0].y < LEAST) {
        return Err(thin(low[0].x, low[1].y - low[0].y));
    }
    let failed = |source| FrameError::Contour {
        part: "spine".into(),
        source,
    };
    let x: Vec<f64> = edges.iter().map(|e| e[0].x).collect();
    let bottom = graph(&x, edges.iter().map(|e| e[0]).collect()).map_err(failed)?;
    let deck = graph(&x, edges.iter().map(|e| e[1]).collect()).map_err(failed)?;
    let slot_width = c.rib + c.slot_clearance;
    // A rib beyond the end of a spine that stops short has none to meet.
    let met = |r: &&Rib| r.x - slot_width > ends[0] && r.x + slot_width < ends[1];
    let ribs: Vec<&Rib> = ribs.iter().filter(met).collect();
    let edge = Edges {
        bottom,
        deck,
        ribs,
        c,
    };
    let plan = plan(&edge, ends);
    let outline = edge.piece("spine", [End::Straight(ends[0]), End::Straight(ends[1])])?;
    let pieces = edge.pieces(&plan)?;
    findings.extend(plan.finding);
    let Edges {
        bottom, deck, ribs, ..
    } = edge;
    let edges = [&bottom, &deck].map(|curve| stretch(curve, ends[0], ends[1]));
    let spine = Spine {
        thickness: c.spine,
        ends,
        outline,
        pieces,
        joints: plan.joints,
        holes: Vec::new(),
        lands: lands(&edges, c, &ribs),
        edges,
        slot_width,
    };
    Ok((spine, findings))
}

fn lands([bottom, deck]: &[Vec<Vector<2>>; 2], c: &Construction, ribs: &[&Rib]) -> Lands {
    let length = |line: &[Vector<2>]| line.windows(2).map(|w| (w[1] - w[0]).norm()).sum::<f64>();
    let end = |at: fn(&[Vector<2>]) -> Option<&Vector<2>>| {
        at(bottom).zip(at(deck)).map_or(0.0, |(a, b)| b.y - a.y)
    };
    let slots = (c.rib + c.slot_clearance) * ribs.len() as f64;
    let laps: f64 = ribs.iter().map(|r| r.slot_top - r.heights[0]).sum();
    Lands {
        bottom: length(bottom) * c.spine,
        deck: (length(deck) - slots) * c.spine,
        ends: (end(<[_]>::first) + end(<[_]>::last)) * c.spine,
        laps: 2.0 * laps * c.rib,
    }
}

/// Place `i` of [`STEPS`] along the spine; exact at both ends.
fn along([from, to]: [f64; 2], i: usize) -> f64 {
    let share = i as f64 / STEPS as f64;
    from * (1.0 - share) + to * share
}

/// The longest stretch of `required_ends` in which the hollow is high enough for a spine; `edges` are the edges along it.
fn high_enough(
    required_ends: [f64; 2],
    edges: &[Option<[Vector<2>; 2]>],
) -> Result<[f64; 2], FrameError> {
    let height = |edge: &Option<[Vector<2>; 2]>| edge.map_or(0.0, |[a, b]| b.y - a.y);
    let heights: Vec<f64> = edges.iter().map(height).collect();
    let mut best: Option<[usize; 2]> = None;
    let mut from = None;
    for (i, &height) in heights.iter().enumerate() {
        if height < LEAST {
            from = None;
            continue;
        }
        let start = *from.get_or_insert(i);
        if best.is_none_or(|[a, b]| b - a < i - start) {
            best = Some([start, i]);
        }
    }
    // A rib's worth of length at least.
    match best {
        Some([a, b]) if b >= a + STEPS / 8 => {
            Ok([along(required_ends, a), along(required_ends, b)])
        }
        _ => Err(FrameError::Spine {
            x: (required_ends[0] + required_ends[1]) / 2.0,
            height: heights[STEPS / 2],
        }),
    }
}

/// The findings of a spine that stops short of its blocks: by how much, and where.
fn shortened(wanted: [f64; 2], ends: [f64; 2]) -> Vec<Finding> {
    let finding = |end: BoardEnd, wanted: f64, at: f64| {
        Finding::new(Code::SpineShort, Part::Spine)
            .at(Place::at(at))
            .measured((wanted - at).abs(), 0.0)
            .fact(Fact::End(end))
            .fact(Fact::LeastHeight(LEAST))
            .remedies([Change::LongerBlock(end), Change::ThickerBoard])
    };
    let mut findings = Vec::new();
    if ends[0] > wanted[0] {
        findings.push(finding(BoardEnd::Tail, wanted[0], ends[0]));
    }
    if ends[1] < wanted[1] {
        findings.push(finding(BoardEnd::Nose, wanted[1], ends[1]));
    }
    findings
}

/// The inner faces of bottom and deck over the spine's thickness at `x`: the higher bottom, the lower deck, as (x, z).
///
/// Both faces of the spine and its middle are tried, since a vee or a concave is not level across it.
fn edge_points(shell: &Shell, c: &Construction, x: f64) -> Option<[Vector<2>; 2]> {
    let cut = shell.cut(x).ok()?;
    let height = |end: f64, inward: f64, depth: f64, y: f64| -> Option<f64> {
        let side = if end == 0.0 { Side::Above } else { Side::Below };
        let mut v = end;
        if y > 0.0 {
            // Newton's step: y is nearly linear in v here.
            let step = |v: f64| {
                let p = cut.inset(v, depth, side);
                let next = p.map_or(f64::NAN, |p| v + (y - p.point.x) / p.tangent.x);
                if inward > 0.0 {
                    next.clamp(end, 1.0)
                } else {
                    next.clamp(0.0, end)
                }
            };
            v = fixed_point(end, FOUND, ROUNDS, step).converged()?;
        }
        Some(cut.inset(v, depth, side)?.point.y)
    };
    let half = c.spine / 2.0;
    let bottom = height(0.0, 1.0, c.bottom_skin, 0.0)?.max(height(0.0, 1.0, c.bottom_skin, half)?);
    let deck = height(1.0, -1.0, c.deck_skin, 0.0)?.min(height(1.0, -1.0, c.deck_skin, half)?);
    Some([Vector::<2>::new(x, bottom), Vector::<2>::new(x, deck)])
}

impl Spine {
    /// Area of a face, mm², holes left out.
    pub fn area(&self) -> f64 {
        net_area(&self.outline, &self.holes)
    }

    /// Height of the contour's box, mm.
    pub fn height(&self) -> f64 {
        self.outline.bounds().height()
    }

    /// Heights of bottom and deck edge at `x`, slots left out, mm; `None` beyond its ends.
    pub fn upright(&self, x: f64) -> Option<[f64; 2]> {
        let [bottom, deck] = &self.edges;
        Some([polyline::height(bottom, x)?, polyline::height(deck, x)?])
    }

    /// How far, mm, the spine is free of holes each way from `x`.
    pub fn lap_room(&self, x: f64) -> f64 {
        let nearest = |hole: &Path| {
            let bounds = hole.bounds();
            (bounds.min.x - x).max(x - bounds.max.x)
        };
        let ends = (x - self.ends[0]).min(self.ends[1] - x);
        let joints = self.joints.iter().map(|joint| {
            let [from, to] = joint.range();
            (from - x).max(x - to)
        });
        let near = self.holes.iter().map(nearest).chain(joints);
        near.fold(ends, f64::min)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_spine_is_a_finding_with_its_place_and_end() {
        let findings = shortened([100.0, 1800.0], [100.0, 1770.0]);
        let [finding] = findings.as_slice() else {
            return assert_eq!(findings.len(), 1);
        };
        assert_eq!(finding.value, Some(30.0));
        assert_eq!(finding.place, Some(Place::at(1770.0)));
        assert!(finding.facts.contains(&Fact::End(BoardEnd::Nose)));
        assert_eq!(shortened([100.0, 1800.0], [100.0, 1800.0]), []);
    }
}
