//! Changes of a curve's description that leave its shape alone, and maps of its shape.

use super::{BSpline, CurveError, KnotVector, Vector};

/// One polynomial piece of a curve in Bézier form.
#[derive(Debug, Clone, PartialEq)]
pub struct Bezier<const D: usize> {
    /// Parameter at its start.
    pub start: f64,
    /// Parameter at its end.
    pub end: f64,
    /// Its `degree + 1` control points.
    pub points: Vec<Vector<D>>,
}

impl<const D: usize> BSpline<D> {
    /// The polynomial pieces between distinct knots, in order. Neighbours share an end to rounding.
    pub fn beziers(&self) -> Vec<Bezier<D>> {
        let breaks = self.knots().breaks();
        breaks
            .windows(2)
            .map(|w| {
                let span = self.knots().span(w[0]);
                let points = (0..=self.degree()).map(|j| self.blossom(span, w[0], w[1], j));
                Bezier {
                    start: w[0],
                    end: w[1],
                    points: points.collect(),
                }
            })
            .collect()
    }

    /// The blossom of the piece on `span` with `highs` arguments `b` and the others `a` (de Boor's recursion with an argument
    /// of its own on every level; Ramshaw, *Blossoming*, 1987).
    fn blossom(&self, span: usize, a: f64, b: f64, highs: usize) -> Vector<D> {
        let (p, knots) = (self.degree(), self.knots().knots());
        let mut d = [Vector::<D>::zeros(); super::MAX_DEGREE + 1];
        d[..=p].copy_from_slice(&self.points()[span - p..=span]);
        for level in 1..=p {
            let u = if level <= highs { b } else { a };
            for j in (level..=p).rev() {
                let (left, right) = (knots[span - p + j], knots[span + 1 + j - level]);
                let t = (u - left) / (right - left);
                d[j] = d[j - 1] * (1.0 - t) + d[j] * t;
            }
        }
        d[p]
    }

    /// The same curve with `u` added to its knots, up to `times` times but never above a multiplicity equal to the degree
    /// (Boehm; A5.1).
    ///
    /// # Errors
    /// [`CurveError::Outside`] unless `u` lies inside the domain.
    pub fn with_knot(&self, u: f64, times: usize) -> Result<Self, CurveError> {
        let (start, end) = self.domain();
        if !(u > start && u < end) {
            return Err(CurveError::Outside {
                parameter: u,
                start,
                end,
            });
        }
        let p = self.degree();
        let (mut knots, mut points) = (self.knots().knots().to_vec(), self.points().to_vec());
        let had = self.knots().multiplicity(u);
        for s in had..(had + times).min(p) {
            let k = knots.partition_point(|&x| x <= u) - 1;
            let mut fresh = points[..=k - p].to_vec();
            for i in k - p + 1..=k - s {
                let t = (u - knots[i]) / (knots[i + p] - knots[i]);
                fresh.push(points[i - 1] * (1.0 - t) + points[i] * t);
            }
            fresh.extend_from_slice(&points[k - s..]);
            points = fresh;
            knots.insert(k + 1, u);
        }
        Self::new(KnotVector::new(p, knots)?, points)
    }

    /// The same curve with all of `extra` added to its knots (each as often as it is listed).
    ///
    /// # Errors
    /// As [`with_knot`](Self::with_knot).
    pub fn refined(&self, extra: &[f64]) -> Result<Self, CurveError> {
        extra
            .iter()
            .try_fold(self.clone(), |curve, &u| curve.with_knot(u, 1))
    }

    /// The parts before and after `u`; both keep their parameters.
    ///
    /// # Errors
    /// [`CurveError::Outside`] unless `u` lies inside the domain.
    pub fn split(&self, u: f64) -> Result<(Self, Self), CurveError> {
        let p = self.degree();
        let cut = self.with_knot(u, p)?;
        let (knots, points) = (cut.knots().knots(), cut.points());
        let first = knots.partition_point(|&k| k < u);
        let mut left = knots[..first + p].to_vec();
        left.push(u);
        let mut right = vec![u];
        right.extend_from_slice(&knots[first..]);
        Ok((
            Self::new(KnotVector::new(p, left)?, points[..first].to_vec())?,
            Self::new(KnotVector::new(p, right)?, points[first - 1..].to_vec())?,
        ))
    }

    /// The part from `a` to `b`, which keeps its parameters.
    ///
    /// # Errors
    /// [`CurveError::Outside`] unless both lie in the domain, `a` below `b`.
    pub fn trimmed(&self, a: f64, b: f64) -> Result<Self, CurveError> {
        let (start, end) = self.domain();
        for u in [a, b] {
            if !(start..=end).contains(&u) || a >= b {
                return Err(CurveError::Outside {
                    parameter: u,
                    start,
                    end,
                });
            }
        }
        let head = if b < end {
            self.split(b)?.0
        } else {
            self.clone()
        };
        if a > start {
            Ok(head.split(a)?.1)
        } else {
            Ok(head)
        }
    }

    /// The curve run through backwards over the same domain.
    ///
    /// # Errors
    /// [`CurveError::Knots`] when knots a rounding apart fall together in the mirror image.
    pub fn reversed(&self) -> Result<Self, CurveError> {
        let (start, end) = self.domain();
        let knots = self.knots().knots().iter().rev();
        // Mirrored ends come out exact, so the vector stays clamped.
        let knots = knots.map(|&k| {
            if k == end {
                start
            } else if k == start {
                end
            } else {
                start + (end - k)
            }
        });
        let points = self.points().iter().rev().copied().collect();
        Self::new(KnotVector::new(self.degree(), knots.collect())?, points)
    }

    /// The same shape over the domain `start` to `end`.
    ///
    /// # Errors
    /// [`CurveError::Knots`] unless `start < end`, both finite.
    pub fn over(&self, start: f64, end: f64) -> Result<Self, CurveError> {
        let (a, b) = self.domain();
        let knots = self.knots().knots().iter();
        let knots = knots.map(|&k| {
            if k == b {
                end
            } else {
                start + (k - a) * ((end - start) / (b - a))
            }
        });
        if start.partial_cmp(&end) != Some(std::cmp::Ordering::Less) {
            return Err(CurveError::Knots {
                index: 0,
                reason: "the domain is empty",
            });
        }
        Self::new(
            KnotVector::new(self.degree(), knots.collect())?,
            self.points().to_vec(),
        )
    }

    /// The curve whose control points are `map` of this one's. For affine maps, and only for them, that is the image of the
    /// curve. The map may change the dimension, as a projection does.
    ///
    /// # Errors
    /// [`CurveError::NotFinite`] when the map gives such a point.
    pub fn map<const E: usize>(
        &self,
        map: impl Fn(&Vector<D>) -> Vector<E>,
    ) -> Result<BSpline<E>, CurveError> {
        BSpline::new(
            self.knots().clone(),
            self.points().iter().map(map).collect(),
        )
    }

    /// The derivative by the parameter as a curve of one degree less (eq. 3.4).
    ///
    /// # Errors
    /// [`CurveError::Degree`] for a curve of degree 1, [`CurveError::Knots`] for one with a crease, whose derivative jumps.
    pub fn derivative(&self) -> Result<Self, CurveError> {
        let (p, knots) = (self.degree(), self.knots().knots());
        let points = self.points().windows(2).enumerate();
        let points =
            points.map(|(i, w)| (w[1] - w[0]) * (p as f64 / (knots[i + p + 1] - knots[i + 1])));
        Self::new(
            KnotVector::new(p - 1, knots[1..knots.len() - 1].to_vec())?,
            points.collect(),
        )
    }
}
