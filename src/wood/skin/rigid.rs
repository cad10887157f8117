//! The as-rigid-as-possible energy and its minimum.

use super::FlattenError;
use super::elements::{Element, nearest_rotation};
use super::plane_system::PlaneSystem;
use super::skyline::{Skyline, order};
use crate::geometry::curve::Vector;
use crate::geometry::solve::backtrack;

/// ∑ A ‖J − R‖², R the rotation nearest to J, mm².
pub(super) fn energy(elements: &[Element], flat: &[Vector<2>]) -> f64 {
    let of = |e: &Element| {
        let map = e.map(flat);
        let (_, sum) = nearest_rotation(&map);
        e.area * (map[0].norm_squared() + map[1].norm_squared() - 2.0 * sum + 2.0)
    };
    elements.iter().map(of).sum()
}

/// Rounds of the local/global scheme of Liu and others: rotate each triangle to fit, then stitch them by a Poisson equation.
///
/// Vertex 0 stays, and the vertices of `axis` stay level with it.
pub(super) fn local_global(
    elements: &[Element],
    neighbours: &[Vec<u32>],
    flat: &mut [Vector<2>],
    axis: &[usize],
    rounds: usize,
) -> bool {
    let places = order(neighbours);
    let mut first = vec![0; places.len()];
    for (v, list) in neighbours.iter().enumerate() {
        let least = list.iter().map(|&n| places[n as usize]).min();
        first[places[v]] = least.map_or(places[v], |l| l.min(places[v]));
    }
    let anchor = flat[0];
    // Who moves along x, and who along y.
    let mut free = [vec![true; flat.len()], vec![true; flat.len()]];
    free[0][0] = false;
    free[1][0] = false;
    axis.iter().for_each(|&v| free[1][v] = false);
    let mut matrices = free.each_ref().map(|free| {
        let mut matrix = Skyline::new(first.clone());
        for v in (0..free.len()).filter(|&v| !free[v]) {
            matrix.add(places[v], places[v], 1.0);
        }
        for e in elements {
            for (i, (&v, g)) in e.corners.iter().zip(&e.gradients).enumerate() {
                for (&w, h) in e.corners.iter().zip(&e.gradients).take(i + 1) {
                    if free[v] && free[w] {
                        matrix.add(places[v], places[w], e.area * g.dot(h));
                    }
                }
            }
        }
        matrix
    });
    if !matrices.iter_mut().all(Skyline::factor) {
        return false;
    }
    for _ in 0..rounds {
        let mut right = [vec![0.0; flat.len()], vec![0.0; flat.len()]];
        for e in elements {
            let ([c, s], _) = nearest_rotation(&e.map(flat));
            for (&v, g) in e.corners.iter().zip(&e.gradients) {
                let pull = [c * g.x - s * g.y, s * g.x + c * g.y];
                for ((right, free), pull) in right.iter_mut().zip(&free).zip(pull) {
                    if free[v] {
                        right[places[v]] += e.area * pull;
                    }
                }
            }
        }
        for (matrix, b) in matrices.iter().zip(&mut right) {
            matrix.solve(b);
        }
        for (p, &k) in flat.iter_mut().zip(&places) {
            *p = anchor + Vector::<2>::new(right[0][k], right[1][k]);
        }
        flat[0] = anchor;
    }
    true
}

/// Most Newton rounds, and halvings of a step that does not descend.
const ROUNDS: usize = 60;
const HALVINGS: usize = 30;

/// Newton's method to the minimum near `flat`, until no vertex moves by more than `tolerance` mm.
///
/// The energy's second derivative on a triangle is 2I − 4/(σ₁ + σ₂) t tᵀ with t the map's unit twist (Smith, De Goes & Kim,
/// *Analytic eigensystems for isotropic distortion energies*, ACM Trans. Graph. 38, 2019); where the sum over the mesh is
/// not positive definite the twist's eigenvalue is held at zero. Vertex `a` is held, and `b` and the vertices of `axis`, level with
/// it already, on the line from it.
pub(super) fn newton(
    elements: &[Element],
    neighbours: &[Vec<u32>],
    flat: &mut [Vector<2>],
    [a, b]: [usize; 2],
    axis: &[usize],
    tolerance: f64,
) -> Result<usize, FlattenError> {
    level(flat, a, b);
    let mut held = vec![(a, 0), (a, 1), (b, 1)];
    held.extend(axis.iter().map(|&v| (v, 1)));
    let mut system = PlaneSystem::new(neighbours, &held);
    let mut now = energy(elements, flat);
    let mut greatest = f64::INFINITY;
    for round in 0..ROUNDS {
        assemble(&mut system, elements, flat, false);
        if !system.factor() {
            assemble(&mut system, elements, flat, true);
            if !system.factor() {
                break;
            }
        }
        let step = system.solve();
        let slope: f64 = gradient(elements, flat)
            .iter()
            .zip(&step)
            .map(|(g, s)| g.dot(s))
            .sum();
        greatest = step.iter().map(|s| s.norm()).fold(0.0, f64::max);
        let rounding = 1e-13 * elements.iter().map(|e| e.area).sum::<f64>();
        let start = flat.to_vec();
        let descends = |share: f64| {
            for ((p, q), s) in flat.iter_mut().zip(&start).zip(&step) {
                *p = q + s * share;
            }
            let next = energy(elements, flat);
            let less = next <= now + 1e-4 * share * slope + rounding;
            if less {
                now = next;
            }
            less
        };
        if backtrack(HALVINGS, descends).is_none() {
            flat.copy_from_slice(&start);
            break;
        }
        if greatest < tolerance {
            return Ok(round + 1);
        }
    }
    Err(FlattenError::Unsettled {
        rounds: ROUNDS,
        step: greatest,
    })
}

/// Turns the flat points about `a` until `b` lies straight ahead (+x) of it.
fn level(flat: &mut [Vector<2>], a: usize, b: usize) {
    let origin = flat[a];
    if let Some(d) = (flat[b] - origin).try_normalize(0.0) {
        for p in flat.iter_mut() {
            let q = *p - origin;
            *p = origin + Vector::<2>::new(d.dot(&q), d.perp(&q));
        }
    }
}

fn gradient(elements: &[Element], flat: &[Vector<2>]) -> Vec<Vector<2>> {
    let mut out = vec![Vector::<2>::zeros(); flat.len()];
    for e in elements {
        let [x, y] = residual(&e.map(flat)).0;
        for (&v, g) in e.corners.iter().zip(&e.gradients) {
            out[v] += (x * g.x + y * g.y) * (2.0 * e.area);
        }
    }
    out
}

/// Columns of J − R, the rotation and the sum of singular values.
fn residual(map: &[Vector<2>; 2]) -> ([Vector<2>; 2], [f64; 2], f64) {
    let ([c, s], sum) = nearest_rotation(map);
    let columns = [
        map[0] - Vector::<2>::new(c, s),
        map[1] - Vector::<2>::new(-s, c),
    ];
    (columns, [c, s], sum)
}

fn assemble(system: &mut PlaneSystem, elements: &[Element], flat: &[Vector<2>], clamped: bool) {
    system.clear(1.0);
    let still = Vector::<2>::zeros();
    for e in elements {
        let (columns, [c, s], sum) = residual(&e.map(flat));
        let soft = 4.0 / sum.max(1e-6);
        let soft = if clamped { soft.min(2.0) } else { soft };
        // The twist applied to a gradient: a quarter turn of R g over √2.
        let twist = e.gradients.map(|g| {
            Vector::<2>::new(-(s * g.x + c * g.y), c * g.x - s * g.y) / std::f64::consts::SQRT_2
        });
        for (i, (&v, g)) in e.corners.iter().zip(&e.gradients).enumerate() {
            for (j, (&w, h)) in e.corners.iter().zip(&e.gradients).enumerate() {
                let (stiff, t, u) = (2.0 * g.dot(h), twist[i], twist[j]);
                let entry = |c: usize, d: usize| {
                    let plain = if c == d { stiff } else { 0.0 };
                    e.area * (plain - soft * t[c] * u[d])
                };
                let block = [[entry(0, 0), entry(0, 1)], [entry(1, 0), entry(1, 1)]];
                system.block(v, w, block, &still);
            }
            system.push(v, (columns[0] * g.x + columns[1] * g.y) * (-2.0 * e.area));
        }
    }
}
