//! Panels made of pieces keyed together.

use super::Skin;
use super::lines::half_width_at;
use crate::geometry::curve::Vector;

/// Distance of the keys' centres, mm.
const PITCH: f64 = 60.0;
/// How far a key reaches past its cut, mm, towards the nose.
const DEPTH: f64 = 18.0;
/// Half the width of a key at its root and at its head, mm.
const ROOT: f64 = 12.0;
const HEAD: f64 = 15.0;
/// Wood left between the outermost key and the panel's edge, mm.
const EDGE: f64 = 20.0;

/// A cut across a panel with flared keys, sizes as common practice for thin sheets has them (no published source).
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct KeyedCut {
    /// Where it lies along the flat panel, mm.
    pub x: f64,
    /// Its line from port edge to starboard edge, mm; the keys reach towards the nose.
    pub line: Vec<[f64; 2]>,
}

/// Cuts that leave no piece longer than `stock`, evenly spread; none where the panel is short enough.
pub(super) fn keyed_cuts(skin: &Skin, stock: f64) -> Vec<KeyedCut> {
    let [tail, nose] = skin.centre_line();
    let length = nose - tail;
    if length <= stock || stock <= 4.0 * DEPTH {
        return Vec::new();
    }
    let count = ((length - DEPTH) / (stock - DEPTH)).ceil();
    let contour = skin.contour();
    (1..count as usize)
        .map(|k| {
            let x = tail + length * k as f64 / count;
            KeyedCut {
                x,
                line: line(x, &contour),
            }
        })
        .collect()
}

fn line(x: f64, contour: &[Vector<2>]) -> Vec<[f64; 2]> {
    let half = half_width_at(contour, x);
    // The keys' heads must stay inside as well.
    let room = half.min(half_width_at(contour, x + DEPTH)) - EDGE - HEAD;
    let mut line = vec![[x, -half]];
    if room >= 0.0 {
        let side = (room / PITCH).floor() as i32;
        for k in -side..=side {
            let y = f64::from(k) * PITCH;
            line.extend([
                [x, y - ROOT],
                [x + DEPTH, y - HEAD],
                [x + DEPTH, y + HEAD],
                [x, y + ROOT],
            ]);
        }
    }
    line.push([x, half]);
    line
}
