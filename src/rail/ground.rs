//! What the rail is built between in a plane of constant x.

use std::sync::Arc;

use super::courses::Plane;
use crate::design::Construction;
use crate::shape::{Cut, LINE_ACCURACY, PlaneLine, Shell, ShellError, SkinFace, faces};

/// Everything in one plane; `None` where the board is too thin for its skins.
pub(super) fn plane(
    shell: &Shell,
    construction: &Construction,
    depth: f64,
    x: f64,
) -> Result<Option<Plane>, ShellError> {
    let ground = Ground::new(shell, construction, x, LINE_ACCURACY)?;
    Ok(ground.map(|g| g.plane(depth)))
}

/// What does not depend on the guide's depth.
pub(super) struct Ground<'a> {
    cut: Cut<'a>,
    faces: Arc<[SkinFace; 2]>,
    finished: Arc<PlaneLine>,
    /// How closely lines are followed, mm.
    accuracy: f64,
}

impl<'a> Ground<'a> {
    /// `None` where the board is too thin for its skins.
    pub fn new(
        shell: &'a Shell,
        c: &Construction,
        x: f64,
        accuracy: f64,
    ) -> Result<Option<Self>, ShellError> {
        let cut = shell.cut(x)?;
        let Some(faces) = faces(&cut, c, accuracy) else {
            return Ok(None);
        };
        let finished = cut.inset_line(0.0, faces[0].land_v, faces[1].land_v, accuracy);
        Ok(Some(Self {
            cut,
            faces: Arc::new(faces),
            finished: Arc::new(PlaneLine::new(finished)),
            accuracy,
        }))
    }

    pub fn plane(&self, depth: f64) -> Plane {
        let from = self.faces[0].land_v;
        let guide = PlaneLine::new(self.cut.inset_line(depth, from, 1.0, self.accuracy));
        let deck = &self.faces[1];
        let goal = guide.last_rise(|p| -deck.inside(p));
        Plane {
            x: self.cut.x,
            goal: goal.map(|v| (v, guide.point(v))),
            faces: self.faces.clone(),
            finished: self.finished.clone(),
            guide,
            depth,
        }
    }
}
