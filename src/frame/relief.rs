//! The end of a slot, with what is cut away for the cutter in its two corners.

use super::corner::{ADDED, Corner};
use crate::design::{Construction, Relief};
use crate::geometry::curve::Vector;
use crate::geometry::path::{Segment, line};
use std::f64::consts::{PI, SQRT_2};

/// Least length of a slot's side that stays straight, mm.
const STRAIGHT: f64 = 0.5;

/// How deep a bite goes into a slot's side, mm.
pub(super) fn relief_depth(relief: Relief, radius: f64) -> f64 {
    match relief {
        Relief::None => 0.0,
        Relief::Corner => radius * (1.0 - SQRT_2 / 2.0),
        Relief::Wall => radius,
    }
}

/// How deep the bites for the cutter go into a slot's sides, mm.
pub fn slot_bite(c: &Construction) -> f64 {
    relief_depth(c.frame.relief, c.frame.cutter / 2.0)
}

/// Whether a cutter of this radius goes into a slot of this width and depth, mm, and has room for its bites.
pub(super) fn fits(relief: Relief, radius: f64, width: f64, depth: f64) -> bool {
    let along = match relief {
        Relief::None => return true,
        Relief::Corner => SQRT_2 * radius,
        Relief::Wall => 2.0 * radius,
    };
    2.0 * radius <= width + 1e-6 && along + STRAIGHT <= depth
}

/// The segments of a slot from the foot of one side, where the path is, round its end to the foot of the other.
///
/// With relief, the partner's square corner goes home after a cutter of `radius`: the bite into the corner is a circle through it
/// whose centre lies on the bisector; the one into the side is a circle through it that touches the slot's end there. Where bites
/// into both corners would overlap they meet in the middle.
pub(super) fn slot(
    foot: [Vector<2>; 2],
    corner: [Vector<2>; 2],
    relief: Relief,
    radius: f64,
) -> Vec<Segment> {
    let width = (corner[1] - corner[0]).norm();
    let depth = (corner[0] - foot[0])
        .norm()
        .min((corner[1] - foot[1]).norm());
    let straight = |p: Vector<2>| line(p.x, p.y);
    let square = vec![straight(corner[0]), straight(corner[1]), straight(foot[1])];
    if relief == Relief::None || !fits(relief, radius, width, depth) {
        return square;
    }
    let inward = (corner[0] - foot[0]).normalize();
    let across = (corner[1] - corner[0]) / width;
    let turn = inward.perp(&across).signum();
    let arc = |p: Vector<2>, sweep: f64| Segment::Arc {
        to: p,
        bulge: turn * (sweep / 4.0).tan(),
    };
    if relief == Relief::Wall {
        let down = |p: Vector<2>| p - inward * (2.0 * radius);
        return vec![
            straight(down(corner[0])),
            arc(corner[0], PI),
            straight(corner[1]),
            arc(down(corner[1]), PI),
            straight(foot[1]),
        ];
    }
    let reach = SQRT_2 * radius;
    let begin = [0, 1].map(|i| corner[i] - inward * reach);
    if 2.0 * reach < width {
        let [a, b] = [corner[0] + across * reach, corner[1] - across * reach];
        return vec![
            straight(begin[0]),
            arc(a, PI),
            straight(b),
            arc(begin[1], PI),
            straight(foot[1]),
        ];
    }
    // Seen from a bite's centre, along the end and inward: the bites meet here.
    let side = width / 2.0 - reach / 2.0;
    let over = (radius * radius - side * side).max(0.0).sqrt();
    let sweep = 1.25 * PI - over.atan2(side);
    let middle = (corner[0] + corner[1]) / 2.0 + inward * (over - reach / 2.0);
    vec![
        straight(begin[0]),
        arc(middle, sweep),
        arc(begin[1], sweep),
        straight(foot[1]),
    ]
}

/// What a cutter leaves in an inside corner, mm, that is not worth a bite.
const LEAST_REST: f64 = 0.05;
/// A corner tighter than this, radians, is tighter than square.
const ACUTE: f64 = PI / 2.0 - 0.01;
/// Longest step in an inside corner, mm, and the most wood that is given up to make one corner of it.
const STEP: f64 = 2.0;
const DEEP: f64 = 0.05;
/// Chord error of bites drawn as corners of a polyline, mm.
const CHORD: f64 = 5e-4;

/// A part's contour, counter-clockwise, with bites where it turns inward too sharply for a cutter of `radius`, as at the rail's starters.
///
/// The bites are those of [`slot`] for corners of any angle θ of the void: into the corner itself a circle through it, its centre on the bisector,
/// which cuts both edges 2r cos(θ/2) from it; into the side a circle that touches the edge before the corner there and cuts
/// the one after it 2r sin θ from it. Both turn by 2(π − θ). A corner stays where its edges are too short for that.
pub(super) fn corners(line: &[Vector<2>], relief: Relief, radius: f64) -> Vec<Vector<2>> {
    let mut out: Vec<Vector<2>> = line.iter().take(1).copied().collect();
    let mut i = 1;
    while i + 1 < line.len() {
        // What the planes of a part's two faces leave of a corner may be a step of some hundredths: the edges on either side make the corner.
        let longest = stretch(&line[i..line.len() - 1]);
        let found = (1..=longest).rev().find_map(|step| {
            let (a, b) = (line[i - 1], line[i + step]);
            let corner = meeting(a, &line[i..i + step], b)?;
            Some((step, bitten(a, corner, b, relief, radius)))
        });
        let (step, bite) = found.unwrap_or((1, None));
        match bite {
            Some(bite) => out.extend(bite),
            None => out.extend_from_slice(&line[i..i + step]),
        }
        i += step;
    }
    out.extend(line.iter().skip(1).next_back());
    out
}

/// How many of the points, from the first, may be one corner: those within [`STEP`] of it along the line.
fn stretch(points: &[Vector<2>]) -> usize {
    let mut length = 0.0;
    let more = points.windows(2).take_while(|w| {
        length += (w[1] - w[0]).norm();
        length < STEP
    });
    1 + more.count()
}

/// The corner that `step` stands for, coming from `a` and going on to `b`: where the edges on either side meet, if no point of it lies off
/// them by more than [`DEEP`] and the corner adds no wood where the step has none: that is another part's.
fn meeting(a: Vector<2>, step: &[Vector<2>], b: Vector<2>) -> Option<Vector<2>> {
    if let [point] = step {
        return Some(*point);
    }
    let corner = Corner::new(a, step, b)?;
    let near = |c: &Vector<2>| {
        corner.inside(c) <= ADDED && corner.off(c) <= DEEP && (c - corner.at).norm() <= STEP
    };
    step.iter().all(near).then_some(corner.at)
}

/// The bite into the corner `p` between `a` and `b`, if it needs one and there is room.
fn bitten(
    a: Vector<2>,
    p: Vector<2>,
    b: Vector<2>,
    relief: Relief,
    radius: f64,
) -> Option<Vec<Vector<2>>> {
    let (before, after) = ((p - a).norm(), (b - p).norm());
    let (back, on) = ((a - p) / before, (b - p) / after);
    // The void lies to the right of the contour.
    let inward = (p - a).perp(&(b - p)) < 0.0;
    let theta = back.dot(&on).clamp(-1.0, 1.0).acos();
    let rest = radius * (1.0 / (theta / 2.0).sin() - 1.0);
    if !inward || relief == Relief::None || rest <= LEAST_REST {
        return None;
    }
    // In a corner tighter than square a circle that touches one edge has its centre in the wood beyond the other.
    let relief = if theta < ACUTE {
        Relief::Corner
    } else {
        relief
    };
    let (centre, reach, start) = match relief {
        Relief::None => return None,
        Relief::Corner => {
            let reach = 2.0 * radius * (theta / 2.0).cos();
            (
                p + (back + on).normalize() * radius,
                [reach; 2],
                p + back * reach,
            )
        }
        Relief::Wall => {
            let aside = (on - back * on.dot(&back)).normalize();
            let reach = 2.0 * radius * theta.sin();
            (p + aside * radius, [0.0, reach], p)
        }
    };
    if reach[0] + STRAIGHT > before || reach[1] + STRAIGHT > after {
        return None;
    }
    let sweep = 2.0 * (PI - theta);
    let count = (sweep / (8.0 * CHORD / radius).sqrt()).ceil().max(2.0) as usize;
    let spoke = start - centre;
    // Through the wood, which lies to the left: clockwise about a centre in the void.
    let at = |k: usize| {
        let (s, c) = (-sweep * k as f64 / count as f64).sin_cos();
        centre + Vector::<2>::new(spoke.x * c - spoke.y * s, spoke.x * s + spoke.y * c)
    };
    Some((0..=count).map(at).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::path::Path;
    use crate::geometry::path::Point;

    const RELIEFS: [Relief; 3] = [Relief::None, Relief::Corner, Relief::Wall];

    /// A slot upward from y = 0, its void closed by the mouth.
    fn void(width: f64, depth: f64, relief: Relief, radius: f64) -> Path {
        let at = |x: f64, y: f64| Vector::<2>::new(x, y);
        let h = width / 2.0;
        let mut segments = slot(
            [at(-h, 0.0), at(h, 0.0)],
            [at(-h, depth), at(h, depth)],
            relief,
            radius,
        );
        segments.push(line(-h, 0.0));
        Path {
            start: Point::new(-h, 0.0),
            segments,
            closed: true,
        }
    }

    #[test]
    fn bites_have_their_closed_form_areas() {
        let (width, depth, r) = (20.0, 30.0, 3.0);
        for relief in RELIEFS {
            let want = width * depth
                + 2.0
                    * match relief {
                        Relief::None => 0.0,
                        // Half a circle over the diagonal, less the triangle within the slot's corner.
                        Relief::Corner => PI * r * r / 2.0 - r * r,
                        Relief::Wall => PI * r * r / 2.0,
                    };
            let got = void(width, depth, relief, r).area().abs();
            assert!((got - want).abs() < 1e-9, "{relief:?}: {got} {want}");
        }
    }

    /// The disc swept inside the void reaches every corner of the partner's rectangle.
    #[test]
    fn a_cutter_reaches_the_square_corner() {
        for relief in [Relief::Corner, Relief::Wall] {
            for (width, r) in [
                (20.0, 3.0),
                (6.2, 3.0),
                (6.2, 3.1),
                (6.2, 1.5),
                (8.6, 3.0),
                (12.0, 4.2),
            ] {
                let depth = 25.0;
                let void = void(width, depth, relief, r);
                let wall = void.flatten(1e-6);
                let free = |centre: Point| {
                    wall.windows(2).all(|w| {
                        let d = w[1] - w[0];
                        let t = ((centre - w[0]).dot(&d) / d.norm_squared().max(1e-300))
                            .clamp(0.0, 1.0);
                        // The mouth is open.
                        (w[0].y == 0.0 && w[1].y == 0.0)
                            || (centre - w[0] - d * t).norm() > r - 1e-4
                    })
                };
                let corner = Point::new(width / 2.0, depth);
                let found = (0..=360).any(|k| {
                    let (s, c) = (f64::from(k) * PI / 180.0).sin_cos();
                    free(corner + nalgebra::Vector2::new(c, s) * r)
                });
                assert!(found, "{relief:?} {width} {r}");
                // Nothing is cut that a cutter of that radius would not cut: every arc has it.
                for (from, segment) in void.pieces() {
                    if let Segment::Arc { to, bulge } = *segment {
                        let got = (to - from).norm() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
                        assert!((got - r).abs() < 1e-9, "{got}");
                    }
                }
            }
        }
        // Without relief it does not.
        let wall = void(20.0, 25.0, Relief::None, 3.0);
        assert_eq!(wall.segments.len(), 4);
    }

    /// A notch of any angle: the disc gets to its corner, the bites end on the edges, and nothing else is touched.
    #[test]
    fn a_cutter_reaches_the_corner_of_a_notch() {
        let r = 3.0;
        for degrees in [70.0_f64, 90.0, 112.0, 140.0] {
            let theta = degrees.to_radians();
            // The void's corner at the origin: one edge comes down the y axis, the other leaves at θ from it, the void between them on the right.
            let a = Vector::<2>::new(0.0, 40.0);
            let b = Vector::<2>::new(-40.0 * theta.sin(), 40.0 * theta.cos());
            let line = [a, Vector::<2>::zeros(), b];
            for relief in [Relief::Corner, Relief::Wall] {
                let bitten = corners(&line, relief, r);
                assert!(bitten.len() > 6, "{degrees} {relief:?}");
                assert_eq!((bitten[0], bitten[bitten.len() - 1]), (a, b));
                let clear = |centre: Vector<2>| {
                    let far = |w: &[Vector<2>]| {
                        let d = w[1] - w[0];
                        let t = ((centre - w[0]).dot(&d) / d.norm_squared()).clamp(0.0, 1.0);
                        (centre - w[0] - d * t).norm()
                    };
                    bitten.windows(2).map(far).fold(f64::INFINITY, f64::min)
                };
                // Centres in the void from which the disc just touches the corner.
                let best = (0..=720)
                    .map(|k| theta * f64::from(k) / 720.0)
                    .map(|t| Vector::<2>::new(-r * t.sin(), r * t.cos()))
                    .map(clear)
                    .fold(0.0, f64::max);
                assert!(best > r - 2e-3, "{degrees} {relief:?}: {best}");
                // Bites take wood only within their reach.
                let deepest = bitten
                    .iter()
                    .map(|p| p.norm().min((p - a).norm()).min((p - b).norm()));
                assert!(deepest.fold(0.0, f64::max) <= 2.0 * r + 1e-9);
                // Without one it does not get there.
                let square = corners(&line, Relief::None, r);
                assert_eq!(square.len(), 3);
            }
        }
        // Outside corners, and inside ones that are nearly straight, stay.
        let bump = [[10.0, 0.0], [0.0, 0.0], [0.0, 10.0]].map(Vector::<2>::from);
        let turned: Vec<_> = bump.iter().rev().copied().collect();
        let counts = [&bump[..], &turned].map(|l| corners(l, Relief::Corner, 1.0).len());
        assert_eq!(counts.iter().min(), Some(&3));
        assert!(counts.iter().max().is_some_and(|n| *n > 3));
    }

    /// A step out of the wood of a millimetre, as one starter on another leaves it, is no corner of its edges: that would fill it with wood.
    #[test]
    fn a_step_that_another_part_stands_in_stays() {
        let step = [
            [255.334, 3.702],
            [260.988, 9.652],
            [260.204, 10.397],
            [268.316, 11.651],
            [268.383, 11.220],
            [277.759, 21.992],
        ];
        let step = step.map(Vector::<2>::from);
        for relief in RELIEFS {
            let bitten = corners(&step, relief, 3.0);
            for corner in &step[1..3] {
                assert!(bitten.contains(corner), "{relief:?}: {bitten:?}");
            }
        }
        // One of a few hundredths is, where that only takes wood.
        let teeth = [
            [0.0, 40.0],
            [0.0, 0.02],
            [-0.02, 0.02],
            [-0.02, 0.0],
            [-40.0, 0.0],
        ];
        let bitten = corners(&teeth.map(Vector::<2>::from), Relief::Corner, 3.0);
        assert!(
            bitten.len() > 6 && bitten.iter().all(|p| p.x < 4.0 && p.y > -4.0),
            "{bitten:?}"
        );
    }

    #[test]
    fn a_cutter_too_big_for_the_slot_leaves_it_square() {
        assert!(!fits(Relief::Wall, 3.2, 6.2, 30.0));
        assert!(!fits(Relief::Wall, 3.0, 6.2, 6.0));
        assert!(fits(Relief::Corner, 3.0, 6.2, 5.0));
        assert_eq!(void(6.2, 20.0, Relief::Wall, 3.2).segments.len(), 4);
    }
}
