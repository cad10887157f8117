//! Bends, turning points and extent of curves.

use super::{BSpline, Vector, bernstein};

impl<const D: usize> BSpline<D> {
    /// The unit tangent at `u`; `None` where the curve stands still.
    pub fn tangent(&self, u: f64) -> Option<Vector<D>> {
        self.derivatives::<2>(u)[1].try_normalize(0.0)
    }

    /// The curvature vector at `u`, 1/mm, towards the centre of curvature; `None` where the curve stands still.
    pub fn curvature_vector(&self, u: f64) -> Option<Vector<D>> {
        let [_, d1, d2] = self.derivatives::<3>(u);
        let square = d1.norm_squared();
        (square > 0.0).then(|| (d2 - d1 * (d2.dot(&d1) / square)) / square)
    }

    /// Parameters, rising, at which a coordinate has a local extremum or a level inflection inside the domain, or turns at a
    /// crease. The ends of the domain are not among them unless the coordinate is level there.
    pub fn extrema(&self, axis: usize) -> Vec<f64> {
        if axis >= D {
            return Vec::new();
        }
        let size = self
            .points()
            .iter()
            .fold(0.0, |m: f64, p| m.max(p[axis].abs()));
        let mut found =
            self.span_roots(8.0 * f64::EPSILON * size * self.degree() as f64, |points| {
                let c: Vec<f64> = points.iter().map(|p| p[axis]).collect();
                bernstein::derivative(&c)
            });
        let breaks = self.knots().breaks();
        for &u in breaks.iter().skip(1).take(breaks.len().saturating_sub(2)) {
            if self.knots().multiplicity(u) >= self.degree() {
                let before = self.knots().span_before(u);
                let slope = self.derivatives_on::<2>(before, u)[1][axis];
                if slope * self.derivatives::<2>(u)[1][axis] < 0.0 {
                    found.push(u);
                }
            }
        }
        found.sort_by(f64::total_cmp);
        found.dedup();
        found
    }

    /// The corners of the smallest box that holds the curve, exact to rounding.
    pub fn bounds(&self) -> (Vector<D>, Vector<D>) {
        let (start, end) = self.domain();
        let (a, b) = (self.point(start), self.point(end));
        let (mut low, mut high) = (a.inf(&b), a.sup(&b));
        for axis in 0..D {
            for u in self.extrema(axis) {
                let value = self.point(u)[axis];
                low[axis] = low[axis].min(value);
                high[axis] = high[axis].max(value);
            }
        }
        (low, high)
    }
}

impl BSpline<2> {
    /// The signed curvature at `u`, 1/mm, positive where the curve turns left; `None` where it stands still.
    pub fn curvature(&self, u: f64) -> Option<f64> {
        let [_, d1, d2] = self.derivatives::<3>(u);
        let speed = d1.norm();
        (speed > 0.0).then(|| d1.perp(&d2) / speed.powi(3))
    }

    /// Parameters, rising, at which the curvature is level inside a span: where it is greatest or least, or rests for a moment.
    ///
    /// Exact, from the roots of the polynomial `(C′ × C‴)|C′|² − 3 (C′ × C″)(C′ · C″)`. On arcs of constant curvature the answer
    /// is arbitrary. Ends of spans, where the curvature may turn or jump, are not among them unless it is level there.
    pub fn curvature_extrema(&self) -> Vec<f64> {
        let p = self.degree();
        if p < 2 {
            return Vec::new();
        }
        self.span_roots_scaled(|points| {
            let part = |axis: usize| -> Vec<f64> { points.iter().map(|q| q[axis]).collect() };
            let first = [0, 1].map(|axis| bernstein::derivative(&part(axis)));
            let second = [0, 1].map(|axis| bernstein::derivative(&first[axis]));
            // A parabola has none: stand in a zero that is not used.
            let third = [0, 1].map(|axis| match bernstein::derivative(&second[axis]) {
                d if d.is_empty() => vec![0.0],
                d => d,
            });
            let product = |a: [&[f64]; 2], b: [&[f64]; 2], signs: [f64; 2]| {
                let mut sum = vec![0.0; a[0].len() + b[0].len() - 1];
                for k in 0..2 {
                    bernstein::add_product(&mut sum, a[k], b[k], signs[k]);
                }
                sum
            };
            let [x1, y1] = [&first[0][..], &first[1][..]];
            let [x2, y2] = [&second[0][..], &second[1][..]];
            let [x3, y3] = [&third[0][..], &third[1][..]];
            let a = product([x1, y1], [y3, x3], [1.0, -1.0]);
            let b = product([x1, y1], [x1, y1], [1.0, 1.0]);
            let c = product([x1, y1], [y2, x2], [1.0, -1.0]);
            let d = product([x1, y1], [x2, y2], [1.0, 1.0]);
            let mut level = vec![0.0; c.len() + d.len() - 1];
            if p > 2 {
                bernstein::add_product(&mut level, &a, &b, 1.0);
            }
            bernstein::add_product(&mut level, &c, &d, -3.0);
            level
        })
    }

    /// Parameters, rising, at which the curvature is zero inside a span: changes of sign and touches. Straight spans give
    /// their two ends. A change of sign that happens by a jump at a knot of multiplicity `degree − 1` or more is not seen.
    pub fn inflections(&self) -> Vec<f64> {
        let p = self.degree();
        if p < 2 {
            return Vec::new();
        }
        let size = self.points().iter().fold(0.0, |m: f64, q| m.max(q.amax()));
        let mut zero = 0.0_f64;
        for piece in self.beziers() {
            let net = piece
                .points
                .windows(2)
                .fold(0.0, |m: f64, w| m.max((w[1] - w[0]).norm()));
            zero = zero.max(net);
        }
        // x'y'' - y'x'' of points with rounding errors of a few ε·size.
        let scale = (p * p * (p - 1)) as f64;
        self.span_roots(16.0 * f64::EPSILON * size * zero * scale, |points| {
            let part = |axis: usize| -> Vec<f64> { points.iter().map(|q| q[axis]).collect() };
            let (x1, y1) = (
                bernstein::derivative(&part(0)),
                bernstein::derivative(&part(1)),
            );
            let (x2, y2) = (bernstein::derivative(&x1), bernstein::derivative(&y1));
            let mut turn = vec![0.0; x1.len() + y2.len() - 1];
            bernstein::add_product(&mut turn, &x1, &y2, 1.0);
            bernstein::add_product(&mut turn, &y1, &x2, -1.0);
            turn
        })
    }
}

impl BSpline<3> {
    /// The torsion at `u`, 1/mm, positive for a right-handed screw; `None` where the curve stands still or is straight.
    pub fn torsion(&self, u: f64) -> Option<f64> {
        let [_, d1, d2, d3] = self.derivatives::<4>(u);
        let binormal = d1.cross(&d2);
        let square = binormal.norm_squared();
        (square > 0.0).then(|| binormal.dot(&d3) / square)
    }
}
