//! The moulded strips: bead-only on the starters, bead-and-cove above.

use super::bevelled::FlatBase;
use super::builder::StackBuilder;
use crate::rail::course::{Course, CourseBody};
use crate::rail::frame::SquareFrame;
use crate::rail::joint::joint;

impl StackBuilder<'_> {
    /// The next moulded strip, its foot at guide parameter `v`. Gives the guide's parameter at its head.
    pub fn lay_strip(&mut self, v: f64) -> Option<f64> {
        let strip = &self.c.strip;
        let along = self.direction(v);
        let below = self.carrier();
        let on = below.map_or_else(|| self.skin_frame(along), |b| b.body().frame);
        if below.is_none_or(|b| !b.is_moulded()) {
            return self.lay_bevelled(v, FlatBase::BeadOnly, along, &on);
        }
        let foot = self.foot(v);
        let pitch = strip.pitch();
        let head = self.head(v, &along, |_| pitch)?;
        let frame = SquareFrame::new(foot, head.point, along);
        let roll = (-frame.up.dot(&on.out)).atan2(frame.up.dot(&on.up));
        self.courses.push(Course::BeadAndCove {
            body: CourseBody {
                foot,
                head: head.point,
                rise: pitch,
                frame,
                thickness: strip.thickness,
                remaining: head.remaining,
            },
            joint: joint(strip, roll),
            lip: strip.lip_height(),
            shoulder: strip.springing(),
        });
        Some(head.v)
    }
}
