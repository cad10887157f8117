//! Triangles on a patch within a chord tolerance.

use super::Patch;
use crate::curve::Vector;

/// A grid of points on a patch: lines of constant u by lines of constant v.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Parameters of the rows.
    pub u: Vec<f64>,
    /// Parameters of the columns.
    pub v: Vec<f64>,
    /// Points, the v index running fastest, mm.
    pub points: Vec<Vector<3>>,
}

/// A grid whose triangles, split either way, lie within `tolerance` mm of the patch.
///
/// On a cell of size h_u × h_v a triangle with corners on the surface misses it by at most
/// (h_u² M_uu + 2 h_u h_v M_uv + h_v² M_vv) / 8 (Filip, Magedson & Markot, *Surface algorithms using bounds on
/// derivatives*, CAGD 3, 1986). Only the components along the normal move a triangle off the surface; their
/// greatest values are sampled on each span with a margin of a quarter. Half of the tolerance is spent on each direction,
/// so that the mixed term is covered by the inequality of the means wherever M_uv² ≤ M_uu M_vv, and checked otherwise.
pub fn tessellate(patch: &Patch, tolerance: f64) -> Grid {
    let (us, vs) = (patch.u().breaks(), patch.v().breaks());
    let mut m = vec![[0.0_f64; 3]; (us.len() - 1) * (vs.len() - 1)];
    for (i, u) in us.windows(2).enumerate() {
        for (j, v) in vs.windows(2).enumerate() {
            m[i * (vs.len() - 1) + j] = bounds(patch, u, v);
        }
    }
    let cell = |i: usize, j: usize| m[i * (vs.len() - 1) + j];
    // A span's count in its own direction: the worst over all spans crossing it.
    let count = |h: f64, worst: f64| -> usize {
        ((h * (worst / (4.0 * tolerance)).sqrt()).ceil() as usize).clamp(1, 4096)
    };
    let mut nu: Vec<usize> = (0..us.len() - 1)
        .map(|i| {
            let worst = (0..vs.len() - 1).fold(0.0_f64, |w, j| w.max(cell(i, j)[0]));
            count(us[i + 1] - us[i], worst)
        })
        .collect();
    let mut nv: Vec<usize> = (0..vs.len() - 1)
        .map(|j| {
            let worst = (0..us.len() - 1).fold(0.0_f64, |w, i| w.max(cell(i, j)[2]));
            count(vs[j + 1] - vs[j], worst)
        })
        .collect();
    // The mixed term where it rules.
    for i in 0..nu.len() {
        for j in 0..nv.len() {
            let [muu, muv, mvv] = cell(i, j);
            loop {
                let (hu, hv) = (
                    (us[i + 1] - us[i]) / nu[i] as f64,
                    (vs[j + 1] - vs[j]) / nv[j] as f64,
                );
                let error = (hu * hu * muu + 2.0 * hu * hv * muv + hv * hv * mvv) / 8.0;
                if error <= tolerance || nu[i].max(nv[j]) >= 4096 {
                    break;
                }
                if hu * hu * muu + hu * hv * muv >= hv * hv * mvv + hu * hv * muv {
                    nu[i] += 1 + nu[i] / 8;
                } else {
                    nv[j] += 1 + nv[j] / 8;
                }
            }
        }
    }
    let lines = |breaks: &[f64], counts: &[usize]| {
        let mut out = vec![breaks[0]];
        for (span, &n) in breaks.windows(2).zip(counts) {
            out.extend((1..n).map(|k| span[0] + (span[1] - span[0]) * k as f64 / n as f64));
            out.push(span[1]);
        }
        out
    };
    let (u, v) = (lines(&us, &nu), lines(&vs, &nv));
    let points = u
        .iter()
        .flat_map(|&u| v.iter().map(move |&v| patch.point(u, v)))
        .collect();
    Grid { u, v, points }
}

/// Greatest normal components of S_uu, S_uv, S_vv sampled on a span cell, with a margin.
fn bounds(patch: &Patch, u: &[f64], v: &[f64]) -> [f64; 3] {
    const SAMPLES: [f64; 5] = [0.02, 0.25, 0.5, 0.75, 0.98];
    let mut m = [0.0_f64; 3];
    for a in SAMPLES {
        for b in SAMPLES {
            let jet = patch.jet(u[0] + (u[1] - u[0]) * a, v[0] + (v[1] - v[0]) * b);
            let components = match jet.normal() {
                Some(n) => [n.dot(&jet.duu), n.dot(&jet.duv), n.dot(&jet.dvv)].map(f64::abs),
                None => [jet.duu.norm(), jet.duv.norm(), jet.dvv.norm()],
            };
            for (m, c) in m.iter_mut().zip(components) {
                *m = m.max(c);
            }
        }
    }
    m.map(|c| 1.25 * c)
}
