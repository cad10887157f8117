//! The rail's inner side, where ribs end.

use super::course::Course;
use super::inner_joints::join_faces;
use super::stack::Stack;
use crate::geometry::curve::Vector;
use crate::geometry::solve::bisect;
use crate::shape::SkinFace;

impl Stack {
    /// The strips' inner sides as a polyline from the bottom skin's inner face to the deck's, (y, z) in mm.
    ///
    /// Neighbouring faces are joined where they meet (a joint that closes inboard), round the lip that hangs there over a shallow bead, round the
    /// bead that lies bare (one that opens inboard), or
    /// by a straight line (a step between strips of different thickness). `None` without courses, or where the faces do not lie
    /// between the skins.
    pub fn inner_boundary(&self) -> Option<Vec<Vector<2>>> {
        let courses = self.courses.get(self.inner_courses())?;
        let [first, last] = [courses.first()?, courses.last()?].map(Course::rested_face);
        let mut line = vec![meet(&self.faces[0], first[1], first[0])?];
        line.extend(join_faces(courses));
        line.push(meet(&self.faces[1], last[0], last[1])?);
        line.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
        Some(line)
    }

    /// As [`inner_boundary`](Self::inner_boundary) in `steps` − 1 planes between this one and `other`, whose own are given, where the strips run straight
    /// from one to the other. Where one of the planes has more courses, those in both alone, the last one's face taken on upwards. Empty where they are not the same.
    pub(crate) fn inner_boundaries_between(
        &self,
        other: &Self,
        own: [&[Vector<2>]; 2],
        steps: usize,
    ) -> Vec<Vec<Vector<2>>> {
        let both = [self, other].map(|s| s.courses.get(s.inner_courses()));
        let ([Some(here), Some(there)], [Some(a), Some(z)]) = (both, own.map(ends)) else {
            return Vec::new();
        };
        // Farther than any rail is high, mm.
        const FAR: f64 = 1000.0;
        let pairs: Vec<_> = here.iter().zip(there).collect();
        let alike = pairs.iter().all(|(c, d)| c.kind() == d.kind());
        if !alike {
            return Vec::new();
        }
        let whole = here.len() == there.len();
        let boundary = |k: usize| {
            let t = k as f64 / steps as f64;
            let courses: Vec<Course> = pairs.iter().map(|(c, d)| c.towards(d, t)).collect();
            let mut line = vec![a[0] + (z[0] - a[0]) * t];
            line.extend(join_faces(&courses));
            match courses.last() {
                Some(last) if !whole => {
                    let [foot, head] = last.rested_face();
                    line.push(head + (head - foot).normalize() * FAR);
                }
                _ => line.push(a[1] + (z[1] - a[1]) * t),
            }
            line
        };
        (1..steps).map(boundary).collect()
    }

    /// The courses whose inner faces bound the hollow: of starters side by side only the innermost, then all above it up to the deck.
    pub fn inner_courses(&self) -> std::ops::Range<usize> {
        let backed = self.courses.first().is_some_and(Course::has_backing);
        let starters = self.courses.iter().take_while(|c| !c.is_moulded()).count();
        let first = if backed {
            starters.saturating_sub(1)
        } else {
            0
        };
        let mut end = self.courses.len();
        // A top strip that only fills the outer corner has its inner face above the deck's: the rib ends on the one below.
        while end > first + 1 && self.faces[1].inside(&self.courses[end - 1].inner_wood()[0]) <= 0.0
        {
            end -= 1;
        }
        first..end
    }
}

fn ends(line: &[Vector<2>]) -> Option<[Vector<2>; 2]> {
    Some([*line.first()?, *line.last()?])
}

/// Where the line from `a` through `b`, prolonged or shortened past `b`, meets a skin's inner face.
fn meet(face: &SkinFace, a: Vector<2>, b: Vector<2>) -> Option<Vector<2>> {
    let at = |t: f64| a + (b - a) * t;
    let inside = |t: f64| face.inside(&at(t));
    // From the far end, which lies in the hollow, outwards.
    let (mut low, mut high) = (0.0, 0.25);
    if inside(low) < 0.0 {
        return None;
    }
    while inside(high) > 0.0 {
        low = high;
        high *= 1.5;
        if high > 50.0 {
            return None;
        }
    }
    let [low, high] = bisect(low, high, 50, |t| inside(t) > 0.0);
    Some(at((low + high) / 2.0))
}
