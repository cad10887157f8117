//! How the inner sides of neighbouring courses meet.

use super::course::{Course, CourseBody};
use crate::geometry::curve::Vector;

/// The inner sides of neighbouring courses without the ends on the skins.
pub(super) fn join_faces(courses: &[Course]) -> Vec<Vector<2>> {
    let mut line = Vec::new();
    for w in courses.windows(2) {
        let [[a, b], [c, d]] = [&w[0], &w[1]].map(Course::rested_face);
        if let Some(ledge) = overhang(&w[0], &w[1]) {
            line.extend(ledge);
            continue;
        }
        match (crossing(a, b, c, d), &w[1]) {
            (Some(point), _) => line.push(point),
            (None, Course::BeadAndCove { body, lip, .. }) if (b - a).perp(&(d - c)) < 0.0 => {
                line.extend(bare_bead(&w[0], body, *lip));
            }
            // Faces nearly in line whose ends overlap by a hair would make the line run back.
            (None, _) if (c - b).dot(&(b - a)) < 0.0 && (c - b).norm() < 0.05 => {
                line.push((b + c) / 2.0);
            }
            (None, _) => line.extend([b, c]),
        }
    }
    line
}

/// How far inboard of the strip below, mm, a lip may hang without the rib going round it: less than the gap that glue fills.
const HANGS: f64 = 0.25;

/// Where a joint closes inboard and the bead is shallow, the lip above hangs inboard of the face below: from that face along the lip to its corner.
fn overhang(below: &Course, above: &Course) -> Option<[Vector<2>; 2]> {
    let Course::BeadAndCove { body, lip, .. } = above else {
        return None;
    };
    let bead = below.body().bead();
    let outward = body.frame.plane(Vector::<2>::new(0.0, *lip));
    let lip = body.inner(*lip);
    let [at, to] = [lip, outward].map(|p| bead.local(p));
    let face = -below.body().thickness / 2.0;
    let hangs = face - at.x;
    // Along the lip to the face, which it meets below the shoulder, where it digs in.
    let meets = at + (to - at) * (hangs / (to.x - at.x));
    (hangs > HANGS && to.x > face && meets.y < below.shoulder()).then(|| [bead.plane(meets), lip])
}

/// Chord error, mm, of points along a bare bead.
const BEAD: f64 = 2e-3;

/// Where a joint opens inboard: from the shoulder of the strip below round its bead, as far as that lies bare, to the lip of the one above.
fn bare_bead(below: &Course, above: &CourseBody, lip: f64) -> Vec<Vector<2>> {
    let bead = below.body().bead();
    let shoulder = Vector::<2>::new(-below.body().thickness / 2.0, below.shoulder());
    let start = bead.plane(shoulder);
    // A lip that still lies below the shoulder is in the strip's wood: its face comes out level with it.
    let lip = above.inner(lip.max(above.frame.local(start).y));
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
    use crate::design::Strip;
    use crate::rail::frame::SquareFrame;
    use crate::rail::joint::joint;
    use crate::rail::profile::profile;

    /// Two strips of a roll about the bead between them, and their profiles in the lower's axes, its head at the origin.
    fn pair(strip: &Strip, roll: f64) -> ([Course; 2], [Vec<Vector<2>>; 2]) {
        let along = Vector::<3>::new(1.0, 0.0, 0.0);
        let pitch = strip.pitch();
        let course = |foot: Vector<2>, lean: f64| {
            let head = foot + Vector::<2>::new(-lean.sin(), lean.cos()) * pitch;
            Course::BeadAndCove {
                body: CourseBody {
                    foot,
                    head,
                    rise: pitch,
                    frame: SquareFrame::new(foot, head, along),
                    thickness: strip.thickness,
                    remaining: 0.0,
                },
                joint: joint(strip, lean),
                shoulder: strip.springing(),
                lip: strip.lip_height(),
            }
        };
        let lower = course(Vector::<2>::new(0.0, -pitch), 0.0);
        let upper = course(Vector::zeros(), roll);
        let outline = |c: &Course| {
            let points = profile(c, strip).flatten(1e-4);
            points
                .into_iter()
                .map(|p| c.body().frame.plane(p))
                .collect()
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
