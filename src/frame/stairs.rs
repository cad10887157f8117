//! Stairs of hundredths in a corner, which the planes of a part's two faces leave where they hand over to each other, made one corner.

use super::corner::{ADDED, Corner};
use crate::geometry::curve::Vector;

/// An edge shorter than this, mm, is the step of a stair; and no point of one is moved farther. A saw's kerf is fifty times as wide.
const STEP: f64 = 0.05;
/// Longest stair along the contour, mm.
const RUN: f64 = 1.0;
/// A corner turns by more than this, radians.
const TURN: f64 = 0.12;

/// An open contour, the part to its left, in which the points of a stair give way to the corner where the edges on either side of it meet.
///
/// A stair that would gain wood by it stays: what it would gain may be another part's.
pub(super) fn without_stairs(line: &[Vector<2>]) -> Vec<Vector<2>> {
    let mut out: Vec<Vector<2>> = line.iter().take(1).copied().collect();
    let mut i = 1;
    while i < line.len() {
        let before = out[out.len() - 1];
        // The longest stair first: a part of one leaves the rest of its steps.
        let found = (i + 1..longest(line, i)).rev().find_map(|end| {
            let corner = corner(before, &line[i..end], *line.get(end)?)?;
            Some((corner, end))
        });
        match found {
            Some((corner, end)) => {
                out.push(corner);
                i = end;
            }
            None => {
                out.push(line[i]);
                i += 1;
            }
        }
    }
    out
}

/// One past the last point that may be of one stair with point `i`.
fn longest(line: &[Vector<2>], i: usize) -> usize {
    let mut length = 0.0;
    let near = line[i..].windows(2).take_while(|w| {
        length += (w[1] - w[0]).norm();
        length < RUN
    });
    (i + 1 + near.count()).min(line.len() - 1) + 1
}

/// The corner that the points of a `stair` stand for, coming from `a` and going on to `b`.
fn corner(a: Vector<2>, stair: &[Vector<2>], b: Vector<2>) -> Option<Vector<2>> {
    let (&p, &q) = (stair.first()?, stair.last()?);
    let steps = stair.windows(2).filter(|w| (w[1] - w[0]).norm() < STEP);
    if stair.len() < 2 || steps.count() == 0 {
        return None;
    }
    let corner = Corner::new(a, stair, b)?;
    let [d, e] = &corner.edges;
    // The edges on either side are no steps of the stair.
    if d.angle(e) < TURN || (p - a).norm() < STEP || (b - q).norm() < STEP {
        return None;
    }
    let ahead = (corner.at - a).dot(d) > STEP && (b - corner.at).dot(e) > STEP;
    let holds = |c: &Vector<2>| corner.off(c) < STEP && corner.inside(c) < ADDED;
    (ahead && stair.iter().all(holds)).then_some(corner.at)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(of: &[[f64; 2]]) -> Vec<Vector<2>> {
        of.iter().copied().map(Vector::from).collect()
    }

    /// A seat that drops in teeth to the right of an upright face, as starters leave it, becomes one corner; wood is only taken.
    #[test]
    fn teeth_become_one_corner() {
        let teeth = points(&[
            [223.9082, 0.052],
            [224.1973, 8.0238],
            [224.4491, 8.0148],
            [224.4495, 8.0266],
            [224.6984, 8.0177],
            [224.6988, 8.0298],
            [235.7712, 7.6346],
            [238.7353, 16.4294],
        ]);
        let clean = without_stairs(&teeth);
        assert_eq!(clean.len(), 4, "{clean:?}");
        // On the line of the last edge, which is the highest: nothing of the old contour lies above it.
        let corner = clean[1];
        assert!(corner.y > 8.0238 && corner.y < 8.06, "{corner}");
        let (from, to) = (corner, clean[2]);
        for tooth in &teeth[1..6] {
            assert!((to - from).perp(&(tooth - from)) < 1e-9, "{tooth}");
        }
    }

    #[test]
    fn what_is_no_stair_stays() {
        // A true step of a tenth, a smooth curve, a single corner.
        let step = points(&[[0.0, 0.0], [10.0, 0.0], [10.0, 0.1], [20.0, 0.1]]);
        assert_eq!(without_stairs(&step), step);
        let curve: Vec<Vector<2>> = (0..=100)
            .map(|i| {
                let (s, c) = (f64::from(i) * 0.01).sin_cos();
                Vector::<2>::new(3.0 * c, 3.0 * s)
            })
            .collect();
        assert_eq!(without_stairs(&curve), curve);
        let corner = points(&[[0.0, 0.0], [10.0, 0.0], [10.0, 5.0]]);
        assert_eq!(without_stairs(&corner), corner);
        // A stair out of the wood, whose corner would gain wood.
        let out = points(&[
            [0.0, 0.0],
            [10.0, 0.0],
            [10.0, 0.03],
            [10.03, 0.03],
            [10.03, 10.0],
        ]);
        assert_eq!(without_stairs(&out).len(), out.len());
    }
}
