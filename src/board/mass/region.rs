//! Areas and volumes with their first moments.

use crate::geometry::curve::Vector;

/// A plane area, or after summing along the board a volume, with its moments about the base line.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Region {
    /// Area, mm², or volume, mm³.
    pub size: f64,
    /// Moment over x, mm³ or mm⁴; 0 for an area.
    pub along: f64,
    /// Moment over z, mm³ or mm⁴.
    pub high: f64,
}

impl Region {
    /// The area of a simple polygon in (y, z), and its moment over z, both independent of its sense.
    pub fn of_polygon(polygon: &[Vector<2>]) -> Self {
        let (mut area, mut high) = (0.0, 0.0);
        for (a, b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
            let cross = a.perp(b) / 2.0;
            area += cross;
            high += cross * (a.y + b.y) / 3.0;
        }
        Self {
            size: area.abs(),
            along: 0.0,
            high: high * area.signum(),
        }
    }

    /// The area of a simple polygon in (x, z), with both moments.
    pub fn of_side(polygon: &[Vector<2>]) -> Self {
        let turned: Vec<Vector<2>> = polygon.iter().map(|p| Vector::<2>::new(p.y, p.x)).collect();
        Self {
            along: Self::of_polygon(&turned).high,
            ..Self::of_polygon(polygon)
        }
    }

    /// This volume's, or area's, centre (x, z), mm; `None` if it is empty.
    pub fn centre(&self) -> Option<[f64; 2]> {
        (self.size > 0.0).then(|| [self.along / self.size, self.high / self.size])
    }

    /// This, `by` times as much.
    pub fn times(self, by: f64) -> Self {
        Self {
            size: self.size * by,
            along: self.along * by,
            high: self.high * by,
        }
    }

    /// This area as a slice at `x` of so much weight along the board.
    pub(super) fn slice(self, x: f64, weight: f64) -> Self {
        Self {
            along: self.size * x,
            ..self
        }
        .times(weight)
    }

    /// This without `other`, never less than nothing.
    pub fn less(self, other: Self) -> Self {
        if other.size >= self.size {
            return Self::default();
        }
        Self {
            size: self.size - other.size,
            along: self.along - other.along,
            high: self.high - other.high,
        }
    }
}

impl std::ops::AddAssign for Region {
    fn add_assign(&mut self, o: Self) {
        self.size += o.size;
        self.along += o.along;
        self.high += o.high;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A rectangle, both ways round: 40 × 10 with its middle at height 25.
    #[test]
    fn a_rectangle() {
        let mut corners =
            [[0.0, 20.0], [40.0, 20.0], [40.0, 30.0], [0.0, 30.0]].map(Vector::<2>::from);
        for _ in 0..2 {
            let r = Region::of_polygon(&corners);
            assert!((r.size - 400.0).abs() < 1e-9 && (r.high - 10_000.0).abs() < 1e-9);
            corners.reverse();
        }
        let volume = Region::of_polygon(&corners).slice(3.0, 2.0);
        assert_eq!(volume.centre(), Some([3.0, 25.0]));
    }
}
