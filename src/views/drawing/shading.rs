//! Neutral coloured maps: areas in bands of a scale, with lines and words over them, in mm, y up.

use super::Point;

/// A band of a scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Red, green and blue.
    pub colour: [u8; 3],
    /// Its bounds in words.
    pub label: String,
}

/// A coloured map.
#[derive(Debug, Clone, PartialEq)]
pub struct Shading {
    /// Title, also the document's.
    pub title: String,
    /// The scale from its lowest band.
    pub bands: Vec<Band>,
    /// Polygons, each with the index of its band.
    pub areas: Vec<(usize, Vec<Point>)>,
    /// Lines over the areas.
    pub lines: Vec<Vec<Point>>,
    /// A place to be marked, if there is one.
    pub mark: Option<Point>,
    /// Lines of text below the map.
    pub words: Vec<String>,
}

/// Colours of `side` bands below zero, the band about zero, and as many above: blue through white to red, as far as the eye of most
/// colour-blind people tells apart (ColorBrewer's RdBu ends, from memory).
pub fn diverging(side: usize) -> Vec<[u8; 3]> {
    const BLUE: [f64; 3] = [33.0, 102.0, 172.0];
    const RED: [f64; 3] = [178.0, 24.0, 43.0];
    const WHITE: [f64; 3] = [247.0, 247.0, 247.0];
    let side = i32::try_from(side).unwrap_or(i32::MAX).max(1);
    (-side..=side)
        .map(|k| {
            let end = if k < 0 { BLUE } else { RED };
            let share = f64::from(k.abs()) / f64::from(side);
            let mix = |c: usize| WHITE[c] + (end[c] - WHITE[c]) * share;
            [0, 1, 2].map(|c| mix(c).round().clamp(0.0, 255.0) as u8)
        })
        .collect()
}
