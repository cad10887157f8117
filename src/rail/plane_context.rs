//! What the rail is built between in a plane of constant x.

use std::sync::Arc;

use crate::design::Construction;
use crate::geometry::curve::Vector;
use crate::shape::{Cut, PlaneLine, PlaneSection, Shell, ShellError, SkinFace, faces};

/// What of a plane depends neither on the strips' profile nor on the guide's depth: the skins' inner faces and the finished section.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PlaneContext {
    section: PlaneSection,
    faces: Arc<[SkinFace; 2]>,
    finished: Arc<PlaneLine>,
    /// How closely lines are followed, mm.
    accuracy: f64,
}

/// A plane with the guide of one depth in it: all that a stack is built from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StackPlane {
    /// mm from the tail.
    pub x: f64,
    /// Inner faces of bottom and deck.
    pub faces: Arc<[SkinFace; 2]>,
    /// The finished section from land to land.
    pub finished: Arc<PlaneLine>,
    /// The guide: the surface moved inward by `depth`.
    pub guide: PlaneLine,
    /// Where the guide meets the deck's inner face: parameter and point.
    pub goal: Option<(f64, Vector<2>)>,
    /// mm.
    pub depth: f64,
}

impl PlaneContext {
    /// Followed within `accuracy` mm; `None` where the board is too thin for its skins.
    pub fn new(
        shell: &Shell,
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
            section: cut.into_section(),
            faces: Arc::new(faces),
            finished: Arc::new(PlaneLine::new(finished)),
            accuracy,
        }))
    }

    /// mm from the tail.
    pub fn x(&self) -> f64 {
        self.section.x
    }

    /// With the guide `depth` mm under the finished surface of `shell`, the one it was made of.
    pub fn at_depth(&self, shell: &Shell, depth: f64) -> StackPlane {
        let cut: Cut<'_> = self.section.on(shell);
        let from = self.faces[0].land_v;
        let guide = PlaneLine::new(cut.inset_line(depth, from, 1.0, self.accuracy));
        let deck = &self.faces[1];
        let goal = guide.last_rise(|p| -deck.inside(p));
        StackPlane {
            x: cut.x,
            goal: goal.map(|v| (v, guide.point(v))),
            faces: self.faces.clone(),
            finished: self.finished.clone(),
            guide,
            depth,
        }
    }
}
