//! Starters side by side, flat on the bottom skin.

use super::builder::{StackBuilder, towards_nose};
use crate::geometry::curve::Vector;
use crate::rail::course::{Course, CourseBody};
use crate::rail::frame::SquareFrame;

impl StackBuilder<'_> {
    /// Lays the starters, outermost first. Gives the guide's parameter at the height of their tops.
    pub fn lay_starters_side_by_side(&mut self) -> Option<f64> {
        let (size, count) = (self.c.starter.size, self.c.starter.count);
        let guide = &self.plane.guide;
        if guide.is_empty() {
            return None;
        }
        let along = match self.hinted_direction() {
            Some(along) => along,
            None => {
                towards_nose(guide.fore(guide.last_rise(|p| self.plane.faces[0].inside(p) - size)?))
            }
        };
        let skin = self.skin_frame(along);
        let height = |p: &Vector<2>| skin.local(*p).y;
        let v = guide.last_rise(|p| height(p) - size)?;
        let reach = self.starter_reach(&skin)?;
        // Along the skin, y is in proportion to the distance.
        let [from, by] = [0.0, 1.0].map(|out| skin.plane(Vector::<2>::new(out, 0.0)).x);
        self.required_outer_edge = Some(from + reach * (by - from));
        let outer = match self.hints.edge {
            Some(y) => (y - from) / (by - from),
            None => reach,
        };
        for i in 0..count {
            let middle = outer - size * (i as f64 + 0.5);
            let foot = skin.plane(Vector::<2>::new(middle, 0.0));
            self.courses.push(Course::Starter {
                body: CourseBody {
                    foot,
                    head: skin.plane(Vector::<2>::new(middle, size)),
                    rise: size,
                    frame: SquareFrame {
                        origin: foot,
                        ..skin
                    },
                    thickness: size,
                    remaining: 0.0,
                },
                bevel: 0.0,
                backing: if i == 0 {
                    size * (count - 1) as f64
                } else {
                    0.0
                },
            });
        }
        Some(v)
    }

    /// How far out along the skin the starters' outer face must lie to be proud of the finished surface, square to that.
    ///
    /// Below the starters' top the distance is that from the face, above it that from the face's upper edge.
    fn starter_reach(&self, skin: &SquareFrame) -> Option<f64> {
        let (size, finished) = (self.c.starter.size, &self.plane.finished);
        let across = |d: &Vector<2>| skin.local(skin.origin + d);
        let height = |p: &Vector<2>| skin.local(*p).y;
        let mut places = vec![finished.start(), finished.end()];
        for border in [0.0, size] {
            finished.crossings(|p, _| height(p) - border, &mut places);
        }
        finished.crossings(|_, t| across(t).x, &mut places);
        // Where a circle of that radius about the edge touches the section.
        let proud = self.c.proud;
        let room = |p: &Vector<2>| (proud * proud - (height(p) - size).powi(2)).max(0.0).sqrt();
        let touch = |p: &Vector<2>, t: &Vector<2>| {
            let t = across(t);
            t.x * room(p) - t.y * (height(p) - size)
        };
        finished.crossings(touch, &mut places);
        let reach = |v: f64| {
            let (point, slant) = (finished.point(v), finished.cosine(v, &skin.along));
            let p = skin.local(point);
            let (proud, over) = (proud / slant.max(0.1), (p.y - size).max(0.0));
            // A place found on the border may lie beyond it by a rounding.
            (p.y >= -1e-9 && over <= proud).then(|| p.x + (proud * proud - over * over).sqrt())
        };
        places.into_iter().filter_map(reach).max_by(f64::total_cmp)
    }
}
