//! Plane sections of a patch and of its offset.

use std::collections::HashMap;

use super::Patch;
use crate::geometry::curve::Vector;

/// One branch of a plane section, as a polyline on the surface.
#[derive(Debug, Clone, PartialEq)]
pub struct ContourLine {
    /// Points on the section, mm. A closed branch repeats its first point.
    pub points: Vec<Vector<3>>,
    /// Their parameters.
    pub parameters: Vec<[f64; 2]>,
    /// Whether the branch closes on itself inside the patch.
    pub closed: bool,
}

/// Each knot span is searched on a grid of this many cells.
const CELLS: usize = 4;
/// Bisection halvings on a cell edge, and the deepest refinement of a chord.
const HALVINGS: usize = 60;
const DEPTH: usize = 14;

/// Sections of `patch` by the plane `normal · X = constant`.
///
/// The signed distance is sampled on a grid of four cells a knot span; sign changes are bisected to rounding, chained to
/// branches, and each chord is halved (its middle pulled onto the section by Newton steps) until the middle lies within
/// `tolerance` mm of the chord. Branches that fit inside a single cell can be missed.
pub fn section(
    patch: &Patch,
    normal: Vector<3>,
    constant: f64,
    tolerance: f64,
) -> Vec<ContourLine> {
    offset_section(patch, 0.0, normal, constant, tolerance)
}

/// As [`section`], of the surface moved inward by `depth` mm. Where the patch has a pole the surface itself counts.
pub fn offset_section(
    patch: &Patch,
    depth: f64,
    normal: Vector<3>,
    constant: f64,
    tolerance: f64,
) -> Vec<ContourLine> {
    let length = normal.norm();
    let (normal, constant) = (normal / length, constant / length);
    let field = Field {
        patch,
        depth,
        normal,
        constant,
    };
    let us = refine(&patch.u().breaks());
    let vs = refine(&patch.v().breaks());
    let values: Vec<f64> = us
        .iter()
        .flat_map(|&u| vs.iter().map(move |&v| (u, v)))
        .map(|(u, v)| field.value(u, v))
        .collect();
    let at = |i: usize, j: usize| values[i * vs.len() + j];
    // Edge keys: (i, j, 0) runs in u from node (i, j), (i, j, 1) in v.
    let mut places: HashMap<Key, [f64; 2]> = HashMap::new();
    let mut links: HashMap<Key, Vec<Key>> = HashMap::new();
    for i in 0..us.len() - 1 {
        for j in 0..vs.len() - 1 {
            let corners =
                [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)].map(|f| f >= 0.0);
            let edges = [(i, j, 0u8), (i + 1, j, 1), (i, j + 1, 0), (i, j, 1)];
            let crossed: Vec<usize> = (0..4)
                .filter(|&k| corners[k] != corners[(k + 1) % 4])
                .collect();
            let mut pairs: Vec<(usize, usize)> = Vec::new();
            match crossed[..] {
                [a, b] => pairs.push((a, b)),
                [_, _, _, _] => {
                    let middle = field.value((us[i] + us[i + 1]) / 2.0, (vs[j] + vs[j + 1]) / 2.0);
                    pairs = if (middle >= 0.0) == corners[0] {
                        vec![(0, 1), (2, 3)]
                    } else {
                        vec![(3, 0), (1, 2)]
                    };
                }
                _ => {}
            }
            for (a, b) in pairs {
                for key in [edges[a], edges[b]] {
                    places.entry(key).or_insert_with(|| {
                        let p = [us[key.0], vs[key.1]];
                        let q = if key.2 == 0 {
                            [us[key.0 + 1], p[1]]
                        } else {
                            [p[0], vs[key.1 + 1]]
                        };
                        field.bisect(p, q)
                    });
                }
                links.entry(edges[a]).or_default().push(edges[b]);
                links.entry(edges[b]).or_default().push(edges[a]);
            }
        }
    }
    chains(&mut links)
        .into_iter()
        .map(|(keys, closed)| {
            let coarse: Vec<[f64; 2]> = keys.iter().map(|k| places[k]).collect();
            field.smooth(&coarse, closed, tolerance)
        })
        .collect()
}

fn refine(breaks: &[f64]) -> Vec<f64> {
    let mut out = vec![breaks[0]];
    for w in breaks.windows(2) {
        out.extend((1..=CELLS).map(|k| w[0] + (w[1] - w[0]) * k as f64 / CELLS as f64));
    }
    out
}

type Key = (usize, usize, u8);

/// Chains linked edges into branches, open ones first, each in a repeatable order.
fn chains(links: &mut HashMap<Key, Vec<Key>>) -> Vec<(Vec<Key>, bool)> {
    let mut keys: Vec<Key> = links.keys().copied().collect();
    keys.sort_by_key(|k| (links[k].len() != 1, *k));
    let mut out = Vec::new();
    for start in keys {
        let mut chain = vec![start];
        let mut here = start;
        while let Some(next) = links.get_mut(&here).and_then(Vec::pop) {
            if let Some(back) = links.get_mut(&next)
                && let Some(index) = back.iter().position(|k| *k == here)
            {
                back.swap_remove(index);
            }
            chain.push(next);
            here = next;
            if here == start {
                break;
            }
        }
        if chain.len() > 1 {
            out.push((chain, here == start));
        }
    }
    out
}

/// Signed distance of the (offset) surface from a plane.
struct Field<'a> {
    patch: &'a Patch,
    depth: f64,
    normal: Vector<3>,
    constant: f64,
}

impl Field<'_> {
    fn point(&self, u: f64, v: f64) -> Vector<3> {
        if self.depth == 0.0 {
            return self.patch.point(u, v);
        }
        let point = self.patch.point(u, v);
        self.patch
            .normal(u, v)
            .map_or(point, |n| point - n * self.depth)
    }

    fn value(&self, u: f64, v: f64) -> f64 {
        self.normal.dot(&self.point(u, v)) - self.constant
    }

    fn bisect(&self, mut p: [f64; 2], mut q: [f64; 2]) -> [f64; 2] {
        let side = self.value(p[0], p[1]) >= 0.0;
        for _ in 0..HALVINGS {
            let m = [(p[0] + q[0]) / 2.0, (p[1] + q[1]) / 2.0];
            if (self.value(m[0], m[1]) >= 0.0) == side {
                p = m
            } else {
                q = m
            }
        }
        [(p[0] + q[0]) / 2.0, (p[1] + q[1]) / 2.0]
    }

    /// Pulls a place onto the plane by Newton steps along the gradient, measured in mm along the surface.
    fn pull(&self, mut p: [f64; 2]) -> [f64; 2] {
        for _ in 0..8 {
            let jet = self.patch.jet(p[0], p[1]);
            let Some((x, xu, xv)) = jet.inward(self.depth) else {
                break;
            };
            let f = self.normal.dot(&x) - self.constant;
            let (lu, lv) = (xu.norm(), xv.norm());
            let g = [self.normal.dot(&xu) / lu, self.normal.dot(&xv) / lv];
            let square = g[0] * g[0] + g[1] * g[1];
            if square.is_nan() || square < 1e-12 || f.abs() < 1e-12 {
                break;
            }
            p[0] -= f * g[0] / square / lu;
            p[1] -= f * g[1] / square / lv;
            let ((u0, u1), (v0, v1)) = (self.patch.u().domain(), self.patch.v().domain());
            p = [p[0].clamp(u0, u1), p[1].clamp(v0, v1)];
        }
        p
    }

    fn smooth(&self, coarse: &[[f64; 2]], closed: bool, tolerance: f64) -> ContourLine {
        let mut parameters = vec![coarse[0]];
        for w in coarse.windows(2) {
            self.halve(w[0], w[1], tolerance, DEPTH, &mut parameters);
            parameters.push(w[1]);
        }
        let points = parameters.iter().map(|p| self.point(p[0], p[1])).collect();
        ContourLine {
            points,
            parameters,
            closed,
        }
    }

    fn halve(
        &self,
        p: [f64; 2],
        q: [f64; 2],
        tolerance: f64,
        depth: usize,
        out: &mut Vec<[f64; 2]>,
    ) {
        let (a, b) = (self.point(p[0], p[1]), self.point(q[0], q[1]));
        let m = self.pull([(p[0] + q[0]) / 2.0, (p[1] + q[1]) / 2.0]);
        let x = self.point(m[0], m[1]);
        let chord = b - a;
        let t = ((x - a).dot(&chord) / chord.norm_squared().max(1e-300)).clamp(0.0, 1.0);
        if depth == 0 || (x - a - chord * t).norm() <= tolerance {
            return;
        }
        self.halve(p, m, tolerance, depth - 1, out);
        out.push(m);
        self.halve(m, q, tolerance, depth - 1, out);
    }
}
