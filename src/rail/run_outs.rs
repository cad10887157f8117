//! Where courses begin and end.

use super::courses::{Stack, stack};
use super::ground::plane;
use super::lean::Leans;
use super::margins::{Margins, margins};
use crate::design::Construction;
use crate::geometry::curve::Vector;
use crate::geometry::parallel;
use crate::shape::{Shell, ShellError};

/// A run-out is known to this, mm.
const KNOWN: f64 = 0.05;

/// A solved plane.
type Solved = (Stack, Option<Margins>);

/// The planes next to every run-out between neighbouring stacks, [`KNOWN`] apart or less, found by bisection.
///
/// Strips take their directions there from the planes on either side.
pub(super) fn run_outs(
    shell: &Shell,
    construction: &Construction,
    depth: f64,
    leans: &Leans,
    solved: &[Solved],
) -> Result<Vec<Solved>, ShellError> {
    let search = Search {
        shell,
        construction,
        depth,
        leans,
    };
    let changes = solved
        .windows(2)
        .filter(|w| w[0].0.courses.len() != w[1].0.courses.len());
    let changes: Vec<_> = changes.collect();
    let found = parallel::try_map(&changes, |w| {
        let mut found = Vec::new();
        search.between(&w[0], &w[1], &mut found)?;
        Ok(found)
    })?;
    let mut found = found.concat();
    // A plane may border two searches, or have been there before.
    found.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
    found.dedup_by(|a, b| a.0.x == b.0.x);
    found.retain(|f| solved.iter().all(|s| s.0.x != f.0.x));
    Ok(found)
}

struct Search<'a> {
    shell: &'a Shell,
    construction: &'a Construction,
    depth: f64,
    leans: &'a Leans,
}

impl Search<'_> {
    fn between(&self, a: &Solved, b: &Solved, found: &mut Vec<Solved>) -> Result<(), ShellError> {
        if a.0.courses.len() == b.0.courses.len() {
            return Ok(());
        }
        if b.0.x - a.0.x <= KNOWN {
            found.extend([a.clone(), b.clone()]);
            return Ok(());
        }
        let x = (a.0.x + b.0.x) / 2.0;
        let Some(plane) = plane(self.shell, self.construction, self.depth, x)? else {
            return Ok(());
        };
        let (along, lean) = (directions(&a.0, &b.0), self.leans.at(x));
        let given = self.leans.given(x, &along, &lean);
        let stack = stack(&plane, self.construction, &given);
        let margins = margins(&plane, &stack);
        let middle = (stack, margins);
        self.between(a, &middle, found)?;
        self.between(&middle, b, found)
    }
}

/// Directions of the courses half way between two stacks.
fn directions(a: &Stack, b: &Stack) -> Vec<Option<Vector<3>>> {
    let count = a.courses.len().max(b.courses.len());
    let of = |s: &Stack, i: usize| s.courses.get(i).map(|c| c.frame.along);
    (0..count)
        .map(|i| match (of(a, i), of(b, i)) {
            (Some(p), Some(q)) => Some((p + q).normalize()),
            (p, q) => p.or(q),
        })
        .collect()
}
