//! A block's finished body.

use super::half::Half;
use super::layers::layers;
use super::section::{half, open, whole};
use super::{Block, BoardEnd};
use crate::design::Design;
use crate::geometry::curve::Vector;
use crate::geometry::lofted::{Lofted, Slice};
use crate::shape::{End, Shell};

/// Planes between face and tip, crowded towards the tip.
const PLANES: usize = 64;
/// Planes between the end of the body and the tip, for the layers.
const TIP_PLANES: usize = 8;
/// How closely the end of the body is known, mm.
const KNOWN: f64 = 0.01;

pub(super) fn block(
    shell: &Shell,
    design: &Design,
    which: BoardEnd,
    face: f64,
    tip: f64,
    cleft: Option<f64>,
) -> Option<Block> {
    let c = &design.construction;
    let mut halves: Vec<Half> = vec![(face, half(shell, c, face)?)];
    let mut stops: Vec<f64> = (1..=PLANES)
        .map(|k| {
            let t = k as f64 / PLANES as f64;
            face + (tip - face) * (std::f64::consts::FRAC_PI_2 * t).sin()
        })
        .collect();
    stops.extend(cleft);
    stops.sort_by(|a, b| (a - face).abs().total_cmp(&(b - face).abs()));
    stops.dedup_by(|a, b| (*a - *b).abs() < KNOWN);
    let mut beyond = tip;
    for x in stops {
        match half(shell, c, x) {
            Some(ring) => halves.push((x, ring)),
            None => {
                beyond = x;
                break;
            }
        }
    }
    let mut last = halves.last()?.0;
    let mut end = None;
    while (beyond - last).abs() > KNOWN {
        let middle = (last + beyond) / 2.0;
        match half(shell, c, middle) {
            Some(ring) => {
                last = middle;
                end = Some((middle, ring));
            }
            None => beyond = middle,
        }
    }
    halves.extend(end);
    let flat = match which {
        BoardEnd::Tail => shell.ends[0] == End::Face,
        BoardEnd::Nose => shell.ends[1] == End::Face,
    };
    if flat {
        halves.extend(prolonged(&halves, tip));
    }
    let mut outer = halves.clone();
    if let Some((x, _)) = halves.last().filter(|h| (h.0 - tip).abs() > KNOWN) {
        for k in 1..TIP_PLANES {
            let x = x + (tip - x) * k as f64 / TIP_PLANES as f64;
            outer.extend(whole(shell, x).map(|ring| (x, ring)));
        }
    }
    let layers = layers(design, which, face, cleft, &halves, &outer);
    Some(Block {
        which,
        face,
        bodies: bodies(which, cleft, halves),
        layers,
    })
}

/// The last section carried on straight to a flat end, whose last fraction of a millimetre the inset surfaces do not reach; `None` where
/// the skins meet before it.
fn prolonged(halves: &[Half], tip: f64) -> Option<Half> {
    // From a plane far enough back that rounding does not steer it.
    const BACK: f64 = 1.0;
    let b = halves.last()?;
    let a = halves.iter().rev().find(|h| (h.0 - b.0).abs() > BACK)?;
    let t = (tip - b.0) / (b.0 - a.0);
    if !(t > 1e-9 && (tip - b.0).abs() < 10.0) {
        return None;
    }
    let ring: Vec<Vector<2>> = a.1.iter().zip(&b.1).map(|(p, q)| q + (q - p) * t).collect();
    open(&ring).then_some((tip, ring))
}

/// The whole body, or a swallow tail's with its horns.
fn bodies(which: BoardEnd, cleft: Option<f64>, mut halves: Vec<Half>) -> Vec<Lofted> {
    halves.sort_by(|a, b| a.0.total_cmp(&b.0));
    let name = which.block();
    let Some(depth) = cleft else {
        return vec![both(name.into(), &halves)];
    };
    let at = halves
        .iter()
        .position(|h| h.0 >= depth - KNOWN)
        .unwrap_or(0);
    let mut bodies = vec![both(name.into(), &halves[at..])];
    if at > 0 {
        let slices = halves[..=at].iter().map(|(x, ring)| Slice {
            x: *x,
            ring: ring.clone(),
        });
        let horn = Lofted {
            name: format!("{name}-horn-starboard"),
            slices: slices.collect(),
        };
        bodies.push(horn.mirrored(format!("{name}-horn-port")));
        bodies.push(horn);
    }
    bodies
}

/// Starboard halves and their mirror images as whole sections.
fn both(name: String, halves: &[Half]) -> Lofted {
    let slice = |(x, half): &Half| {
        let mut ring = half.clone();
        let inner = half.get(1..half.len().saturating_sub(1)).unwrap_or(&[]);
        ring.extend(inner.iter().rev().map(|p| Vector::<2>::new(-p.x, p.y)));
        Slice { x: *x, ring }
    };
    Lofted {
        name,
        slices: halves.iter().map(slice).collect(),
    }
}
