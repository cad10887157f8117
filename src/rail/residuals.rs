//! By how much unknowns miss the rail's equations.

use serde::Serialize;

use super::margins::Margins;
use super::stack::Stack;
use crate::design::Construction;

/// How far a strip moved from one round to the next, and where.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct Movement {
    /// mm.
    pub by: f64,
    /// The plane, mm from the tail.
    pub x: f64,
    /// Index of the course.
    pub course: usize,
}

/// What moved most. A course that comes or goes has no movement.
pub(super) fn movement(before: &[Stack], after: &[Stack]) -> Movement {
    let moved = |(a, b): (&Stack, &Stack)| -> Vec<Movement> {
        let pairs = a.courses.iter().zip(&b.courses).enumerate();
        let each = pairs.map(|(course, (p, q))| Movement {
            by: (p.body().head - q.body().head).norm(),
            x: b.x,
            course,
        });
        each.collect()
    };
    let all = before.iter().zip(after).flat_map(moved);
    all.max_by(|a, b| a.by.total_cmp(&b.by)).unwrap_or_default()
}

/// Planes in which a course comes or goes from one round to the next.
pub(super) fn course_changes(before: &[Stack], after: &[Stack]) -> usize {
    let pairs = before.iter().zip(after);
    pairs
        .filter(|(a, b)| a.courses.len() != b.courses.len())
        .count()
}

/// By how much, mm, the stock outside moulded strips is more over what is required than the wood behind them, each at its worst; `None`
/// without moulded strips.
pub(super) fn imbalance<'a>(
    c: &Construction,
    all: impl Iterator<Item = &'a Margins>,
) -> Option<f64> {
    let [mut cover, mut proud] = [f64::INFINITY; 2];
    for m in all {
        cover = cover.min(m.strip_cover - c.cover);
        proud = proud.min(m.strip_proud - c.proud);
    }
    (cover.is_finite() && proud.is_finite()).then_some(proud - cover)
}
