//! Wood left behind the finished rail, and stock proud of it.

use serde::Serialize;

use super::courses::{Course, Kind, Plane, Stack};
use crate::curve::Vector;

/// The least of something over a rail's section, and the course where it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Margin {
    /// Least value, mm.
    pub least: f64,
    /// Index of the course.
    pub course: usize,
    /// Place (y, z) on the finished surface, mm.
    pub at: [f64; 2],
}

/// Cover and proud at one plane.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Margins {
    /// Wood between the finished surface and the strips' inner faces.
    pub cover: Margin,
    /// Stock outside the finished surface, over moulded strips and starters.
    pub proud: Margin,
    /// As `proud`, over moulded strips alone, whose place the guide decides.
    pub(super) strip_proud: f64,
    /// As `cover`, over moulded strips alone.
    pub(super) strip_cover: f64,
}

/// Greatest distance between places where margins are measured, mm; on a bend of radius R the extreme is missed by at most
/// STEP² / 8R.
const STEP: f64 = 1.0;

/// Measures the margins square to the strips' faces at places along the finished section.
///
/// A place in the wedge that opens between two strips belongs to the bead about whose centre they turn. `None` where no
/// part of the finished section lies between the skins' inner faces.
pub(super) fn margins(plane: &Plane, stack: &Stack) -> Option<Margins> {
    let mut found: Option<Margins> = None;
    for point in plane.finished.places(STEP) {
        if plane.faces[0].inside(&point) < 0.0 || plane.faces[1].inside(&point) < 0.0 {
            continue;
        }
        let Some((course, proud, cover)) = at(&stack.courses, &point) else {
            continue;
        };
        let margin = |least| Margin {
            least,
            course,
            at: [point.x, point.y],
        };
        let moulded = stack.courses[course].kind != Kind::Starter;
        let so_far = found.get_or_insert(Margins {
            cover: margin(f64::INFINITY),
            proud: margin(f64::INFINITY),
            strip_proud: f64::INFINITY,
            strip_cover: f64::INFINITY,
        });
        if proud < so_far.proud.least {
            so_far.proud = margin(proud);
        }
        if cover < so_far.cover.least {
            so_far.cover = margin(cover);
        }
        if moulded {
            so_far.strip_proud = so_far.strip_proud.min(proud);
            so_far.strip_cover = so_far.strip_cover.min(cover);
        }
    }
    found
}

/// The course a place belongs to, with the stock outside and the wood inside it.
fn at(courses: &[Course], point: &Vector<2>) -> Option<(usize, f64, f64)> {
    let mut best: Option<(usize, f64, f64)> = None;
    for (i, course) in courses.iter().enumerate() {
        let p = course.frame.local(*point);
        let half = course.thickness / 2.0;
        let base = if course.kind == Kind::BeadAndCove {
            0.0
        } else {
            p.x * course.bevel.tan()
        };
        // Past its shoulders the top course is left as wide as its bead.
        let above = p.y - course.rise;
        let bead = course.shoulder.hypot(half);
        let crowned = i + 1 == courses.len() && course.kind != Kind::Starter;
        let (top, half) = if crowned && above > course.shoulder {
            (
                course.rise + bead,
                (bead * bead - above * above).max(0.0).sqrt(),
            )
        } else {
            (
                course.rise
                    + if i + 1 == courses.len() {
                        course.shoulder
                    } else {
                        0.0
                    },
                half,
            )
        };
        if p.y < base - 1e-6 || p.y > top + 1e-6 {
            continue;
        }
        let (proud, cover) = (half - p.x, p.x + half + course.backing);
        if best.is_none_or(|b| proud.min(cover) > b.1.min(b.2)) {
            best = Some((i, proud, cover));
        }
    }
    if best.is_some() {
        return best;
    }
    // In a wedge, or past the top: the nearest head.
    courses
        .iter()
        .enumerate()
        .map(|(i, course)| {
            let p = course.frame.local(*point);
            let distance = p.x.hypot(p.y - course.rise).copysign(p.x);
            let half = course.thickness / 2.0;
            (i, half - distance, distance + half + course.backing)
        })
        .min_by(|a, b| (a.1 - a.2).abs().total_cmp(&(b.1 - b.2).abs()))
}
