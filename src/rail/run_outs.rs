//! Where courses begin and end.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::constants::RUN_OUT_GAP;
use super::directions::directions_between;
use super::margins::{Margins, margins};
use super::plane_context::PlaneContext;
use super::problem::RailProblem;
use super::stack::{Stack, stack};
use super::unknowns::Unknowns;
use crate::geometry::parallel;
use crate::shape::{LINE_ACCURACY, ShellError};

/// A solved plane.
type Solved = (Stack, Option<Margins>);

/// Planes that bisections have come to, kept from one depth to the next: most run-outs hardly move.
#[derive(Debug, Default)]
pub(super) struct RunOutPlanes {
    /// By the bits of x; `None` where the board is too thin for its skins.
    planes: Mutex<HashMap<u64, Option<Arc<PlaneContext>>>>,
}

impl RunOutPlanes {
    fn at(&self, problem: &RailProblem, x: f64) -> Result<Option<Arc<PlaneContext>>, ShellError> {
        let lock = || self.planes.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(plane) = lock().get(&x.to_bits()) {
            return Ok(plane.clone());
        }
        let plane = PlaneContext::new(problem.shell, problem.construction, x, LINE_ACCURACY)?;
        let plane = plane.map(Arc::new);
        lock().insert(x.to_bits(), plane.clone());
        Ok(plane)
    }
}

/// The planes next to every run-out between neighbouring stacks, [`RUN_OUT_GAP`] apart or less, found by bisection.
///
/// Strips take their directions there from the planes on either side.
pub(super) fn run_outs(
    problem: &RailProblem,
    planes: &RunOutPlanes,
    unknowns: &Unknowns,
    solved: &[Solved],
) -> Result<Vec<Solved>, ShellError> {
    let search = Search {
        problem,
        planes,
        unknowns,
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
    problem: &'a RailProblem<'a>,
    planes: &'a RunOutPlanes,
    unknowns: &'a Unknowns,
}

impl Search<'_> {
    fn between(&self, a: &Solved, b: &Solved, found: &mut Vec<Solved>) -> Result<(), ShellError> {
        if a.0.courses.len() == b.0.courses.len() {
            return Ok(());
        }
        if b.0.x - a.0.x <= RUN_OUT_GAP {
            found.extend([a.clone(), b.clone()]);
            return Ok(());
        }
        let x = (a.0.x + b.0.x) / 2.0;
        let Some(plane) = self.planes.at(self.problem, x)? else {
            return Ok(());
        };
        let plane = plane.at_depth(self.problem.shell, self.unknowns.depth);
        let (directions, leans) = (directions_between(&a.0, &b.0), self.unknowns.leans_at(x));
        let hints = self.unknowns.hints(x, &directions, &leans);
        let stack = stack(&plane, self.problem.construction, &hints);
        let margins = margins(&plane, &stack);
        let middle = (stack, margins);
        self.between(a, &middle, found)?;
        self.between(&middle, b, found)
    }
}
