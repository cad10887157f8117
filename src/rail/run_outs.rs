//! Where courses begin and end.

use super::courses::{Stack, stack};
use super::margins::{Margins, margins};
use super::solve::plane;
use crate::curve::Vector;
use crate::design::Construction;
use crate::shell::{Shell, ShellError};

/// A run-out is known to this, mm.
const KNOWN: f64 = 0.05;

/// Planes either side of every run-out between neighbouring `stacks`, found by bisection to [`KNOWN`].
///
/// Strips take their directions there from the neighbouring stacks, by interpolation.
pub(super) fn run_outs(
    shell: &Shell,
    construction: &Construction,
    depth: f64,
    stacks: &[Stack],
) -> Result<Vec<(Stack, Option<Margins>)>, ShellError> {
    let search = Search {
        shell,
        construction,
        depth,
    };
    let mut found = Vec::new();
    for w in stacks.windows(2) {
        search.between(&w[0], &w[1], &mut found)?;
    }
    Ok(found)
}

struct Search<'a> {
    shell: &'a Shell,
    construction: &'a Construction,
    depth: f64,
}

impl Search<'_> {
    fn between(
        &self,
        a: &Stack,
        b: &Stack,
        found: &mut Vec<(Stack, Option<Margins>)>,
    ) -> Result<(), ShellError> {
        if a.courses.len() == b.courses.len() || b.x - a.x <= KNOWN {
            return Ok(());
        }
        let x = (a.x + b.x) / 2.0;
        let Some(plane) = plane(self.shell, self.construction, self.depth, x)? else {
            return Ok(());
        };
        let middle = stack(&plane, self.construction, &directions(a, b));
        let margins = margins(&plane, &middle);
        self.between(a, &middle, found)?;
        self.between(&middle, b, found)?;
        // Only planes next to a run-out are worth keeping.
        let last = (middle.x - a.x).max(b.x - middle.x) <= 2.0 * KNOWN;
        if last {
            found.push((middle, margins));
        }
        Ok(())
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
