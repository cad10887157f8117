//! The rail's inner side, where ribs end.

use super::courses::{Course, Kind, Stack};
use super::frame::SquareFrame;
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
        let alike = pairs.iter().all(|(c, d)| c.kind == d.kind);
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
        while end > first + 1 && self.faces[1].inside(&self.courses[end - 1].inner_wood()[0]) <= 0.0
        {
            end -= 1;
        }
        first..end
    }
}

impl Course {
    /// What of the inner face is wood: from the base, or the lip beside a cove, to the shoulder.
    pub fn inner_wood(&self) -> [Vector<2>; 2] {
        let [foot, shoulder] = self.inner_face();
        let low = if self.kind == Kind::BeadAndCove {
            self.inner(self.lip)
        } else {
            foot
        };
        [low, shoulder]
    }

    /// As [`inner_face`](Self::inner_face), up to the height of the head, where the next strip's foot is.
    fn rested_face(&self) -> [Vector<2>; 2] {
        let [foot, _] = self.inner_face();
        [foot, self.inner(self.rise)]
    }

    /// The point of the inner face's plane at a height over the foot, mm.
    fn inner(&self, height: f64) -> Vector<2> {
        self.frame
            .plane(Vector::<2>::new(-self.thickness / 2.0, height))
    }

    /// Its axes moved up to its bead's centre.
    fn bead(&self) -> SquareFrame {
        SquareFrame {
            origin: self.head,
            ..self.frame
        }
    }

    /// The course a share `t` of the way to where it passes another plane.
    fn towards(&self, other: &Self, t: f64) -> Self {
        let number = |a: f64, b: f64| a + (b - a) * t;
        let frame = |a: &SquareFrame, b: &SquareFrame| SquareFrame {
            origin: a.origin.lerp(&b.origin, t),
            along: a.along.lerp(&b.along, t),
            up: a.up.lerp(&b.up, t),
            out: a.out.lerp(&b.out, t),
        };
        Self {
            foot: self.foot.lerp(&other.foot, t),
            head: self.head.lerp(&other.head, t),
            rise: number(self.rise, other.rise),
            frame: frame(&self.frame, &other.frame),
            bevel: number(self.bevel, other.bevel),
            ..self.clone()
        }
    }
}

fn ends(line: &[Vector<2>]) -> Option<[Vector<2>; 2]> {
    Some([*line.first()?, *line.last()?])
}

/// The inner sides of neighbouring courses without the ends on the skins.
fn join_faces(courses: &[Course]) -> Vec<Vector<2>> {
    let mut line = Vec::new();
    for w in courses.windows(2) {
        let [[a, b], [c, d]] = [&w[0], &w[1]].map(Course::rested_face);
        if let Some(ledge) = overhang(&w[0], &w[1]) {
            line.extend(ledge);
            continue;
        }
        match crossing(a, b, c, d) {
            Some(point) => line.push(point),
            None if w[1].kind == Kind::BeadAndCove && (b - a).perp(&(d - c)) < 0.0 => {
                line.extend(bare_bead(&w[0], &w[1]))
            }
            // Faces nearly in line whose ends overlap by a hair would make the line run back.
            None if (c - b).dot(&(b - a)) < 0.0 && (c - b).norm() < 0.05 => {
                line.push((b + c) / 2.0);
            }
            None => line.extend([b, c]),
        }
    }
    line
}

/// How far inboard of the strip below, mm, a lip may hang without the rib going round it: less than the gap that glue fills.
const HANGS: f64 = 0.25;

/// Where a joint closes inboard and the bead is shallow, the lip above hangs inboard of the face below: from that face along the lip to its corner.
fn overhang(below: &Course, above: &Course) -> Option<[Vector<2>; 2]> {
    if above.kind != Kind::BeadAndCove {
        return None;
    }
    let bead = below.bead();
    let lip = above.inner(above.lip);
    let outward = above.frame.plane(Vector::<2>::new(0.0, above.lip));
    let [at, to] = [lip, outward].map(|p| bead.local(p));
    let face = -below.thickness / 2.0;
    let hangs = face - at.x;
    // Along the lip to the face, which it meets below the shoulder, where it digs in.
    let meets = at + (to - at) * (hangs / (to.x - at.x));
    (hangs > HANGS && to.x > face && meets.y < below.shoulder).then(|| [bead.plane(meets), lip])
}

/// Chord error, mm, of points along a bare bead.
const BEAD: f64 = 2e-3;

/// Where a joint opens inboard: from the shoulder of the strip below round its bead, as far as that lies bare, to the lip of the one above.
fn bare_bead(below: &Course, above: &Course) -> Vec<Vector<2>> {
    let bead = below.bead();
    let shoulder = Vector::<2>::new(-below.thickness / 2.0, below.shoulder);
    let start = bead.plane(shoulder);
    // A lip that still lies below the shoulder is in the strip's wood: its face comes out level with it.
    let lip = above.inner(above.lip.max(above.frame.local(start).y));
    let to = bead.local(lip);
    // Clockwise over the bead to where the line from the lip touches it.
    let radius = shoulder.norm();
    let angle = |p: &Vector<2>| p.y.atan2(-p.x);
    let touch = (radius / to.norm()).min(1.0).acos();
    let sweep = (angle(&to) - touch - angle(&shoulder)).max(0.0);
    let count = (sweep / (8.0 * BEAD / radius).sqrt()).ceil() as usize;
    let on_bead = |k: usize| {
        let (s, c) = (angle(&shoulder) + sweep * k as f64 / count as f64).sin_cos();
        bead.plane(Vector::<2>::new(-c, s) * radius)
    };
    let mut line = vec![start];
    line.extend((1..=count).map(on_bead));
    line.push(lip);
    line
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Arrangement, LaminationPlane, Starter, Strip};
    use crate::rail::profile::profile;

    /// Two strips of a roll about the bead between them, and their profiles in the lower's axes, its head at the origin.
    fn pair(strip: &Strip, roll: f64) -> ([Course; 2], [Vec<Vector<2>>; 2]) {
        let along = Vector::<3>::new(1.0, 0.0, 0.0);
        let pitch = strip.pitch();
        let course = |foot: Vector<2>, lean: f64| {
            let head = foot + Vector::<2>::new(-lean.sin(), lean.cos()) * pitch;
            Course {
                kind: Kind::BeadAndCove,
                foot,
                head,
                rise: pitch,
                frame: SquareFrame::new(foot, head, along),
                thickness: strip.thickness,
                bevel: 0.0,
                joint: None,
                shoulder: strip.springing(),
                lip: strip.lip_height(),
                left: 0.0,
                backing: 0.0,
            }
        };
        let lower = course(Vector::<2>::new(0.0, -pitch), 0.0);
        let upper = course(Vector::zeros(), roll);
        let starter = Starter {
            size: 8.0,
            count: 1,
            laminations: 1,
            lamination_plane: LaminationPlane::Vertical,
            arrangement: Arrangement::SideBySide,
        };
        let outline = |c: &Course| {
            let points = profile(c.kind, strip, &starter, c.rise, 0.0).flatten(1e-4);
            points.into_iter().map(|p| c.frame.plane(p)).collect()
        };
        let outlines = [outline(&lower), outline(&upper)];
        ([lower, upper], outlines)
    }

    /// Nothing of either strip lies inboard of the line, and where the bead lies bare the line lies on it.
    #[test]
    fn the_boundary_runs_round_bare_beads() {
        for (thickness, width, bead, cove_depth) in [
            (6.0, 14.9, 3.0, 2.5),
            (7.638, 11.736, 5.968, 0.882),
            (8.0, 20.0, 4.0, 4.0),
        ] {
            let strip = Strip {
                thickness,
                width,
                bead_radius: bead,
                cove_radius: bead,
                cove_depth,
            };
            for degrees in [-45.0_f64, -20.0, -5.0, -0.1] {
                let (courses, outlines) = pair(&strip, degrees.to_radians());
                let mut line = vec![courses[0].rested_face()[0]];
                line.extend(join_faces(&courses));
                line.push(courses[1].rested_face()[1]);
                let off = |p: &Vector<2>| {
                    let of = |w: &[Vector<2>]| {
                        let d = w[1] - w[0];
                        let t = ((p - w[0]).dot(&d) / d.norm_squared()).clamp(0.0, 1.0);
                        let away = p - w[0] - d * t;
                        // Negative inboard, on the line's left as it goes up.
                        away.norm().copysign(-d.perp(&away))
                    };
                    line.windows(2)
                        .map(of)
                        .min_by(|a, b| a.abs().total_cmp(&b.abs()))
                        .unwrap_or(f64::NAN)
                };
                // Between the line's ends alone.
                let [low, high] = [line[0].y, line[line.len() - 1].y];
                let between = outlines
                    .iter()
                    .flatten()
                    .filter(|p| p.y > low && p.y < high);
                let deepest = between.map(off).fold(f64::INFINITY, f64::min);
                assert!(deepest > -1.1 * BEAD, "{thickness} {degrees}: {deepest}");
                let up = line.windows(2).all(|w| w[1].y > w[0].y - 1e-9);
                assert!(up, "{thickness} {degrees}: {line:?}");
                let bare = line
                    .iter()
                    .filter(|p| (p.norm() - bead).abs() < 1e-9)
                    .count();
                assert!(bare > 0, "{thickness} {degrees}: {line:?}");
            }
        }
    }
}
