//! Wetted surface.

use super::Waterline;
use crate::geometry::curve::gauss_legendre;
use crate::geometry::solve::root;
use crate::geometry::surface::Patch;
use crate::shape::{End, Shell, ShellError};

/// Area of the board's surface under `water`, both sides, ends and cleft included, mm².
///
/// Gauss–Legendre over every knot span; across, each line is cut where it goes through the water, found between neighbouring
/// samples, so that the error is that of the rule along the length where the water's edge enters and leaves a span.
pub(super) fn wetted(shell: &Shell, water: &Waterline) -> Result<f64, ShellError> {
    let mut area: f64 = shell
        .patches
        .iter()
        .chain(&shell.wall)
        .map(|p| patch(p, water))
        .sum();
    let (tail, nose) = shell.x_range();
    for (end, x) in shell.ends.iter().zip([tail, nose]) {
        if *end == End::Face {
            area += face(shell, x, water.at(x))?;
        }
    }
    Ok(2.0 * area)
}

fn patch(patch: &Patch, water: &Waterline) -> f64 {
    let rule = gauss_legendre(4);
    let vs = patch.v().breaks();
    let mut area = 0.0;
    for u in patch.u().breaks().windows(2) {
        let half = (u[1] - u[0]) / 2.0;
        for &(a, weight) in &rule {
            let at = u[0] + half * (a + 1.0);
            let depth = |v: f64| {
                let p = patch.point(at, v);
                water.at(p.x) - p.z
            };
            for w in vs.windows(2) {
                for (from, to) in stretches(&depth, w[0], w[1]) {
                    let reach = (to - from) / 2.0;
                    for &(b, share) in &rule {
                        let jet = patch.jet(at, from + reach * (b + 1.0));
                        area += jet.area_vector().norm() * weight * half * share * reach;
                    }
                }
            }
        }
    }
    area
}

/// Stretches of a span that lie under water; the depth is sampled in quarters and its changes of sign bisected.
fn stretches(depth: &impl Fn(f64) -> f64, from: f64, to: f64) -> Vec<(f64, f64)> {
    const PARTS: usize = 4;
    let at = |k: usize| from + (to - from) * k as f64 / PARTS as f64;
    let mut out: Vec<(f64, f64)> = Vec::new();
    let mut before = depth(from);
    for k in 0..PARTS {
        let after = depth(at(k + 1));
        let cut = || root(|v| (depth(v), 0.0), at(k), at(k + 1), 1e-12).unwrap_or(at(k));
        match (before > 0.0, after > 0.0) {
            (true, true) => out.push((at(k), at(k + 1))),
            (true, false) => out.push((at(k), cut())),
            (false, true) => out.push((cut(), at(k + 1))),
            (false, false) => {}
        }
        before = after;
    }
    out
}

/// The immersed area of half a flat end: ∮ (y − inner) dz along the section under water.
fn face(shell: &Shell, x: f64, level: f64) -> Result<f64, ShellError> {
    let section = shell.section(x)?;
    let inner = section.points().first().map_or(0.0, |p| p.y);
    let rule = gauss_legendre(4);
    let depth = |v: f64| level - section.point(v).z;
    let mut area = 0.0;
    for w in section.knots().breaks().windows(2) {
        for (from, to) in stretches(&depth, w[0], w[1]) {
            let reach = (to - from) / 2.0;
            for &(b, share) in &rule {
                let [p, d] = section.derivatives::<2>(from + reach * (b + 1.0));
                area += (p.y - inner) * d.z * share * reach;
            }
        }
    }
    Ok(area)
}
