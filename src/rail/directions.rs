//! The strips' directions, read off their own paths.

use super::course::CourseBody;
use super::stack::Stack;
use crate::geometry::curve::Vector;

/// Directions of every course in every plane; what is missing is the guide's.
pub(super) type Directions = Vec<Vec<Option<Vector<3>>>>;

/// Directions of every course in every plane, from the middles of the strips in the neighbouring planes: the slope of the parabola through
/// three of them.
pub(super) fn directions(stacks: &[Stack]) -> Directions {
    let middle = |s: usize, i: usize| -> Option<Place> {
        let body = stacks.get(s)?.courses.get(i)?.body();
        Some((stacks[s].x, (body.foot + body.head) / 2.0))
    };
    (0..stacks.len())
        .map(|s| {
            (0..stacks[s].courses.len())
                .map(|i| {
                    let here = middle(s, i)?;
                    let back = |n: usize| s.checked_sub(n).and_then(|s| middle(s, i));
                    let on = |n: usize| middle(s + n, i);
                    let slope = match (back(1), on(1)) {
                        (Some(a), Some(b)) => tangent(here, a, b),
                        (Some(a), None) => back(2).map_or(chord(a, here), |b| tangent(here, a, b)),
                        (None, Some(a)) => on(2).map_or(chord(a, here), |b| tangent(here, a, b)),
                        (None, None) => return None,
                    };
                    Some(Vector::<3>::new(1.0, slope.x, slope.y).normalize())
                })
                .collect()
        })
        .collect()
}

/// Directions of the courses half way between two stacks.
pub(super) fn directions_between(a: &Stack, b: &Stack) -> Vec<Option<Vector<3>>> {
    let count = a.courses.len().max(b.courses.len());
    let of = |s: &Stack, i: usize| {
        let body = s.courses.get(i).map(|c| c.body());
        body.map(|body: &CourseBody| body.frame.along)
    };
    (0..count)
        .map(|i| match (of(a, i), of(b, i)) {
            (Some(p), Some(q)) => Some((p + q).normalize()),
            (p, q) => p.or(q),
        })
        .collect()
}

/// A strip's middle (y, z) at a place along the board.
type Place = (f64, Vector<2>);

fn chord(a: Place, b: Place) -> Vector<2> {
    (b.1 - a.1) / (b.0 - a.0)
}

/// Slope at `here` of the parabola through three places in any order.
fn tangent(here: Place, a: Place, b: Place) -> Vector<2> {
    let (p, q) = (chord(here, a), chord(here, b));
    (p * (b.0 - here.0) - q * (a.0 - here.0)) / (b.0 - a.0)
}
