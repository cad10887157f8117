//! Where a course's head comes to lie.

use super::builder::StackBuilder;
use crate::geometry::curve::Vector;
use crate::rail::frame::square_distance;

/// A course's head.
pub(super) struct Head {
    /// The guide's parameter nearest to it.
    pub v: f64,
    /// (y, z), mm.
    pub point: Vector<2>,
    /// See [`CourseBody::remaining`](crate::rail::course::CourseBody::remaining).
    pub remaining: f64,
}

impl StackBuilder<'_> {
    /// Head of a course whose foot is at guide parameter `v`: as it leans, or else the guide's next point at the distance `rise` square to
    /// the strip.
    ///
    /// A strip that would pass the deck's inner face is aimed at where the guide meets that face instead, since only the
    /// part below it stays; following the guide on would turn it over for nothing. As that part shrinks to nothing, where
    /// the strip runs out, it comes to stand straight on the one below, so that strips do not kink there.
    pub fn head(
        &self,
        v: f64,
        along: &Vector<3>,
        rise: impl Fn(&Vector<2>) -> f64,
    ) -> Option<Head> {
        let guide = &self.plane.guide;
        let foot = self.foot(v);
        let unit = |d: Vector<2>| d / square_distance(d, along).max(1e-12);
        // Along one ray the bevel, and so the rise of a flat base, is the same.
        let on = |ray: Vector<2>| foot + ray * rise(&(foot + ray));
        if let Some(lean) = self.lean(self.courses.len()) {
            let ray = unit(Vector::<2>::new(-lean.sin(), lean.cos()));
            let point = on(ray);
            let level = guide.first_rise(v, |p| (p - point).dot(&ray));
            return Some(Head {
                v: level.unwrap_or_else(|| guide.end()),
                point,
                remaining: 1.0,
            });
        }
        let short = |p: &Vector<2>| {
            let d = square_distance(p - foot, along);
            if d <= 1e-9 { -1.0 } else { d - rise(p) }
        };
        let on_guide = guide.first_rise(v, short).map(|v| Head {
            v,
            point: guide.point(v),
            remaining: 1.0,
        });
        let Some((goal, point)) = self
            .plane
            .goal
            .filter(|g| on_guide.as_ref().is_none_or(|head| head.v > g.0))
        else {
            return on_guide;
        };
        let height = if goal > v {
            square_distance(point - foot, along)
        } else {
            0.0
        };
        let carrier = self.carrier().map(|below| below.body());
        let straight = carrier.map(|below| unit(below.head - below.foot));
        // The less of the strip remains, the less it turns.
        let share = (height / rise(&point)).min(1.0);
        let turn = if straight.is_some() {
            share * share * (3.0 - 2.0 * share)
        } else {
            1.0
        };
        let aim = if height > 1e-9 {
            unit(point - foot)
        } else {
            Vector::zeros()
        };
        let ray = unit(aim * turn + straight.unwrap_or_default() * (1.0 - turn));
        Some(Head {
            v: v.max(goal),
            point: on(ray),
            remaining: share,
        })
    }
}
