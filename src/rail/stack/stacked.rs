//! Starters one on the other, each turned to the guide.

use super::bevelled::FlatBase;
use super::builder::StackBuilder;

impl StackBuilder<'_> {
    /// Lays the starters from the skin up, until the deck lands on them or there are as many courses as may be. Gives the guide's parameter at the top of the last.
    pub fn lay_starters_stacked(&mut self) -> Option<f64> {
        let guide = &self.plane.guide;
        if guide.is_empty() {
            return None;
        }
        let mut v = guide.last_rise(|p| self.plane.faces[0].inside(p))?;
        for _ in 0..self.c.starter.count {
            if self.courses.len() >= self.most || self.reaches_deck() {
                break;
            }
            let along = self.direction(v);
            let below = self
                .courses
                .last()
                .map_or_else(|| self.skin_frame(along), |b| b.body().frame);
            v = self.lay_bevelled(v, FlatBase::Starter, along, &below)?;
        }
        Some(v)
    }
}
