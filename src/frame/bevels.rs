//! How far a rib's edges lean over its thickness.

use crate::geometry::curve::Vector;
use crate::rail::{Course, Stack};

/// How far a rib's edges lean over its thickness, radians; positive where the face towards the nose is the larger.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Bevels {
    /// Bottom edge at the centreline.
    pub bottom_centre: f64,
    /// Bottom edge beside the rail.
    pub bottom_rail: f64,
    /// Deck edge at the centreline.
    pub deck_centre: f64,
    /// Deck edge beside the rail.
    pub deck_rail: f64,
    /// Ends against the rail.
    pub rail: f64,
}

/// One of the faces that a rib's end is cut to, which bears on a strip's inner face.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Facet {
    /// Number of the course it bears on, from the bottom skin, starting with 1.
    pub course: usize,
    /// Its two ends in the rib's plane, from the bottom up, (y, z), mm.
    #[serde(skip)]
    pub ends: [Vector<2>; 2],
    /// How far it leans over the rib's thickness, radians, positive where the face towards the nose is the larger.
    pub bevel: f64,
}

/// The facets in the rib's centre plane.
pub(super) fn facets(centre: &Stack) -> Vec<Facet> {
    let facet = |course: usize| {
        let c = centre.courses.get(course)?;
        Some(Facet {
            course: course + 1,
            ends: c.inner_face(),
            bevel: lean(c),
        })
    };
    centre.inner_courses().filter_map(facet).collect()
}

/// How far a strip's faces turn across the board over a rib's thickness, radians.
fn lean(course: &Course) -> f64 {
    course
        .body()
        .frame
        .along
        .y
        .atan2(course.body().frame.along.x)
}

/// The bevels of a rib from the rail's stacks at both faces and the centre.
pub(super) fn bevels(aft: &Stack, centre: &Stack, fore: &Stack, thickness: f64) -> Bevels {
    let edge = |face: usize, y: f64, sign: f64| {
        let rise = fore.faces[face].height(y) - aft.faces[face].height(y);
        (sign * rise).atan2(thickness)
    };
    let rail_y = centre
        .inner_boundary()
        .map_or(0.0, |b| b.iter().map(|p| p.x).fold(f64::INFINITY, f64::min));
    let middle = centre.courses.get(centre.courses.len() / 2);
    Bevels {
        bottom_centre: edge(0, 0.0, -1.0),
        bottom_rail: edge(0, rail_y, -1.0),
        deck_centre: edge(1, 0.0, 1.0),
        deck_rail: edge(1, rail_y, 1.0),
        rail: middle.map_or(0.0, lean),
    }
}
