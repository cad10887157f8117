//! Triangles on a patch within a chord tolerance.

use super::Patch;
use crate::geometry::curve::Vector;

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

/// Grids, one a patch, whose triangles, split either way, lie within `tolerance` mm of the patches. The patches share their
/// v knots, and the grids their v lines, so that grids of neighbours in u meet point for point.
///
/// On a cell of size h_u × h_v a triangle with corners on the surface misses it by at most
/// (h_u² M_uu + 2 h_u h_v M_uv + h_v² M_vv) / 8 (Filip, Magedson & Markot, *Surface algorithms using bounds on
/// derivatives*, CAGD 3, 1986). Only the components along the normal move a triangle off the surface; their
/// greatest values are sampled on each span with a margin of a quarter. Half of the tolerance is first spent on each
/// direction; where the mixed term makes a cell miss it still, the direction that owes more is divided again.
pub fn tessellate(patches: &[Patch], tolerance: f64) -> Vec<Grid> {
    let Some(first) = patches.first() else {
        return Vec::new();
    };
    let vs = first.v().breaks();
    let mut nv = vec![1; vs.len() - 1];
    let mut plans: Vec<Plan> = patches
        .iter()
        .map(|patch| Plan::new(patch, &vs, tolerance, &mut nv))
        .collect();
    // Finer v lines never make a cell worse, so each plan is only settled again.
    for plan in &mut plans {
        plan.settle(&vs, tolerance, &mut nv);
    }
    let v = lines(&vs, &nv);
    let grid = |(patch, plan): (&Patch, &Plan)| {
        let u = lines(&plan.us, &plan.nu);
        let points = u
            .iter()
            .flat_map(|&u| v.iter().map(move |&v| patch.point(u, v)))
            .collect();
        Grid {
            u,
            v: v.clone(),
            points,
        }
    };
    patches.iter().zip(&plans).map(grid).collect()
}

/// How many pieces each u span of a patch is divided into.
struct Plan {
    us: Vec<f64>,
    nu: Vec<usize>,
    /// Bounds of the normal components of S_uu, S_uv, S_vv by cell, v fastest.
    bounds: Vec<[f64; 3]>,
}

/// Most pieces a span is divided into.
const MOST: usize = 4096;

impl Plan {
    fn new(patch: &Patch, vs: &[f64], tolerance: f64, nv: &mut [usize]) -> Self {
        let us = patch.u().breaks();
        let columns = vs.len() - 1;
        let bounds: Vec<[f64; 3]> = us
            .windows(2)
            .flat_map(|u| vs.windows(2).map(move |v| bounds(patch, u, v)))
            .collect();
        let count = |h: f64, worst: f64| {
            ((h * (worst / (4.0 * tolerance)).sqrt()).ceil() as usize).clamp(1, MOST)
        };
        let nu = us
            .windows(2)
            .zip(bounds.chunks(columns))
            .map(|(w, row)| count(w[1] - w[0], row.iter().map(|m| m[0]).fold(0.0, f64::max)))
            .collect();
        for (j, (n, w)) in nv.iter_mut().zip(vs.windows(2)).enumerate() {
            let worst = bounds
                .iter()
                .skip(j)
                .step_by(columns)
                .map(|m| m[2])
                .fold(0.0, f64::max);
            *n = (*n).max(count(w[1] - w[0], worst));
        }
        let mut plan = Self { us, nu, bounds };
        plan.settle(vs, tolerance, nv);
        plan
    }

    /// Divides on until every cell holds the tolerance, mixed term included.
    fn settle(&mut self, vs: &[f64], tolerance: f64, nv: &mut [usize]) {
        for (i, (w, row)) in self
            .us
            .windows(2)
            .zip(self.bounds.chunks(nv.len()))
            .enumerate()
        {
            for (j, &[muu, muv, mvv]) in row.iter().enumerate() {
                loop {
                    let hu = (w[1] - w[0]) / self.nu[i] as f64;
                    let hv = (vs[j + 1] - vs[j]) / nv[j] as f64;
                    let (along, mixed, across) = (hu * hu * muu, hu * hv * muv, hv * hv * mvv);
                    if (along + 2.0 * mixed + across) / 8.0 <= tolerance
                        || self.nu[i].max(nv[j]) >= MOST
                    {
                        break;
                    }
                    let divided = if along >= across {
                        &mut self.nu[i]
                    } else {
                        &mut nv[j]
                    };
                    *divided += 1 + *divided / 8;
                }
            }
        }
    }
}

/// The breaks with every span divided evenly.
fn lines(breaks: &[f64], counts: &[usize]) -> Vec<f64> {
    let mut out = vec![breaks[0]];
    for (span, &n) in breaks.windows(2).zip(counts) {
        out.extend((1..n).map(|k| span[0] + (span[1] - span[0]) * k as f64 / n as f64));
        out.push(span[1]);
    }
    out
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
