//! Linear systems with two unknowns a vertex, some of them held.

use super::skyline::{Skyline, order};
use crate::geometry::curve::Vector;

/// A symmetric system for the vertices' places in the plane.
pub(super) struct PlaneSystem {
    matrix: Skyline,
    /// Place of each vertex in the order of elimination.
    places: Vec<usize>,
    /// Whether each unknown, in the order of elimination, is held.
    held: Vec<bool>,
    right: Vec<f64>,
}

impl PlaneSystem {
    /// Room for a mesh; `held` names unknowns (vertex, coordinate) that do not move.
    pub fn new(neighbours: &[Vec<u32>], held: &[(usize, usize)]) -> Self {
        let places = order(neighbours);
        let mut first = vec![0; 2 * places.len()];
        for (v, list) in neighbours.iter().enumerate() {
            let least = list.iter().map(|&n| places[n as usize]).min();
            let least = least.map_or(places[v], |l| l.min(places[v]));
            for c in 0..2 {
                first[2 * places[v] + c] = 2 * least;
            }
        }
        let mut flags = vec![false; first.len()];
        for &(v, c) in held {
            flags[2 * places[v] + c] = true;
        }
        Self {
            right: vec![0.0; first.len()],
            matrix: Skyline::new(first),
            places,
            held: flags,
        }
    }

    /// Empties matrix and right side; held unknowns get an equation of their own, scaled by `scale`.
    pub fn clear(&mut self, scale: f64) {
        self.matrix.clear();
        self.right.fill(0.0);
        for i in 0..self.held.len() {
            if self.held[i] {
                self.matrix.add(i, i, scale);
            }
        }
    }

    /// Adds the 2 × 2 block of vertices `v` (rows) and `w` (columns), called once for each order of the pair. What it takes
    /// from unknowns of `w` that are held, at `fixed`, moves to the right side.
    pub fn block(&mut self, v: usize, w: usize, block: [[f64; 2]; 2], fixed: &Vector<2>) {
        for (c, row) in block.iter().enumerate() {
            let i = 2 * self.places[v] + c;
            if self.held[i] {
                continue;
            }
            for (d, &value) in row.iter().enumerate() {
                let j = 2 * self.places[w] + d;
                if self.held[j] {
                    self.right[i] -= value * fixed[d];
                } else if j <= i {
                    self.matrix.add(i, j, value);
                }
            }
        }
    }

    /// Adds to the right side of vertex `v`, unless held.
    pub fn push(&mut self, v: usize, force: Vector<2>) {
        for c in 0..2 {
            let i = 2 * self.places[v] + c;
            if !self.held[i] {
                self.right[i] += force[c];
            }
        }
    }

    /// Factors the matrix; `false` unless it is positive definite.
    pub fn factor(&mut self) -> bool {
        self.matrix.factor()
    }

    /// Solves with the factor; held unknowns come out as 0.
    pub fn solve(&self) -> Vec<Vector<2>> {
        let mut x = self.right.clone();
        self.matrix.solve(&mut x);
        self.places
            .iter()
            .map(|&p| Vector::<2>::new(x[2 * p], x[2 * p + 1]))
            .collect()
    }
}
