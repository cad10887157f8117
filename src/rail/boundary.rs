//! The rail's inner side, where ribs end.

use super::courses::{Course, Kind, Stack};
use crate::curve::Vector;

impl Stack {
    /// The strips' inner faces as a polyline from the bottom skin's inner face to the deck's, (y, z) in mm.
    ///
    /// Neighbouring faces are joined where they meet (a joint that closes inboard) or by a straight line (one that opens
    /// inboard, or a step between strips of different thickness). `None` without courses, or where the faces do not lie
    /// between the skins.
    pub fn inner_boundary(&self) -> Option<Vec<Vector<2>>> {
        let courses = self.courses.get(self.inner_courses())?;
        let faces: Vec<[Vector<2>; 2]> = courses.iter().map(Course::rested_face).collect();
        let (first, last) = (faces.first()?, faces.last()?);
        let mut line = vec![meet(&self.faces[0], first[1], first[0])?];
        for w in faces.windows(2) {
            let ([a, b], [c, d]) = (w[0], w[1]);
            match crossing(a, b, c, d) {
                Some(point) => line.push(point),
                // Faces nearly in line whose ends overlap by a hair would make the line run back.
                None if (c - b).dot(&(b - a)) < 0.0 && (c - b).norm() < 0.05 => {
                    line.push((b + c) / 2.0);
                }
                None => line.extend([b, c]),
            }
        }
        line.push(meet(&self.faces[1], last[0], last[1])?);
        line.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
        Some(line)
    }

    /// The courses whose inner faces bound the hollow: of starters abreast only the innermost, then all above it up to the deck.
    pub fn inner_courses(&self) -> std::ops::Range<usize> {
        let backed = self.courses.first().is_some_and(|c| c.backing > 0.0);
        let starters = self
            .courses
            .iter()
            .take_while(|c| c.kind == Kind::Starter)
            .count();
        let first = if backed {
            starters.saturating_sub(1)
        } else {
            0
        };
        let mut end = self.courses.len();
        // A top strip that only fills the outer corner has its inner face above the deck's: the rib ends on the one below.
        while end > first + 1
            && self.faces[1].inside(&self.courses[end - 1].rested_face()[0]) <= 0.0
        {
            end -= 1;
        }
        first..end
    }
}

impl Course {
    /// As [`inner_face`](Self::inner_face), up to the height of the head, where the next strip's foot is.
    fn rested_face(&self) -> [Vector<2>; 2] {
        let [foot, _] = self.inner_face();
        let half = self.thickness / 2.0;
        [foot, self.frame.plane(Vector::<2>::new(-half, self.rise))]
    }
}

/// Where the line from `a` through `b`, prolonged or shortened past `b`, meets a skin's inner face.
fn meet(face: &super::SkinFace, a: Vector<2>, b: Vector<2>) -> Option<Vector<2>> {
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
    for _ in 0..50 {
        let middle = (low + high) / 2.0;
        if inside(middle) > 0.0 {
            low = middle
        } else {
            high = middle
        }
    }
    Some(at((low + high) / 2.0))
}

/// Crossing of the segments ab and cd near b and c, if they cross (each taken a hair longer, so that faces in line meet).
fn crossing(a: Vector<2>, b: Vector<2>, c: Vector<2>, d: Vector<2>) -> Option<Vector<2>> {
    let (p, q) = (b - a, d - c);
    let cross = p.perp(&q);
    if cross.abs() < 1e-12 * p.norm() * q.norm() {
        return ((b - c).norm() < 1e-6).then_some(b);
    }
    let (t, s) = ((c - a).perp(&q) / cross, (c - a).perp(&p) / cross);
    const HAIR: f64 = 1e-6;
    let on = |t: f64| (-HAIR..=1.0 + HAIR).contains(&t);
    (on(t) && on(s)).then(|| a + p * t)
}
