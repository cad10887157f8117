//! Pads that take the same room.

use super::clash::{TOUCH, up};
use super::{PadPiece, PlacedFitting};
use crate::design::finding::{Change, Code, Fact, Finding, Part, Place};
use crate::geometry::curve::Vector;

/// Notes every pair of pads that overlap, with the smallest move apart.
pub(super) fn each_other(fittings: &[PlacedFitting], findings: &mut Vec<Finding>) {
    for (i, a) in fittings.iter().enumerate() {
        for b in fittings.iter().skip(i + 1) {
            let (Some(p), Some(q)) = (&a.pad, &b.pad) else {
                continue;
            };
            let overlaps = p
                .pieces
                .iter()
                .flat_map(|p| q.pieces.iter().map(move |q| overlap(p, q)));
            let Some([along, aside]) = overlaps
                .flatten()
                .max_by(|a, b| a[0].min(a[1]).total_cmp(&b[0].min(b[1])))
            else {
                continue;
            };
            let by = along.min(aside);
            findings.push(
                Finding::new(Code::PadsOverlap, Part::Fitting(a.name.clone()))
                    .against(Part::Fitting(b.name.clone()))
                    .at(Place::at(a.from_tail))
                    .measured(by, 0.0)
                    .fact(Fact::Shared {
                        along,
                        across: aside,
                    })
                    .remedies([
                        Change::MoveApart {
                            by: up(by),
                            along: along <= aside,
                        },
                        Change::SmallerMargins(up(by)),
                    ]),
            );
        }
    }
}

/// Lengths along and across the board in which two pieces take the same room.
fn overlap(a: &PadPiece, b: &PadPiece) -> Option<[f64; 2]> {
    let mut along: Option<[f64; 2]> = None;
    let mut aside = 0.0_f64;
    let stops = a.body.slices.iter().chain(&b.body.slices).map(|s| s.x);
    for x in stops {
        let (Some(p), Some(q)) = (cut(a, x), cut(b, x)) else {
            continue;
        };
        let y = p[1].min(q[1]) - p[0].max(q[0]);
        let z = p[3].min(q[3]) - p[2].max(q[2]);
        if y > TOUCH && z > TOUCH {
            aside = aside.max(y);
            along = Some(along.map_or([x, x], |[low, high]| [low.min(x), high.max(x)]));
        }
    }
    let [low, high] = along?;
    (high - low > TOUCH).then_some([high - low, aside])
}

/// Least and greatest y and z of a piece in a plane.
fn cut(piece: &PadPiece, x: f64) -> Option<[f64; 4]> {
    let slices = &piece.body.slices;
    let next = slices.partition_point(|s| s.x <= x).max(1);
    let before = slices.get(next - 1).filter(|s| s.x <= x)?;
    let after = slices.get(next).unwrap_or(before);
    if x > after.x {
        return None;
    }
    let t = if after.x > before.x {
        (x - before.x) / (after.x - before.x)
    } else {
        0.0
    };
    let points = before.ring.iter().zip(&after.ring);
    let points = points.map(|(p, q)| -> Vector<2> { p + (q - p) * t });
    Some(points.fold(
        [
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::INFINITY,
            f64::NEG_INFINITY,
        ],
        |m, p| [m[0].min(p.x), m[1].max(p.x), m[2].min(p.y), m[3].max(p.y)],
    ))
}
