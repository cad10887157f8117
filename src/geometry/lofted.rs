//! Bodies drawn through plane sections, and what they hold.

use crate::geometry::curve::Vector;
use crate::geometry::curve::polyline::height_on;
use crate::geometry::polygon;

/// A section of a body in a plane of constant x.
#[derive(Debug, Clone, PartialEq)]
pub struct Slice {
    /// The plane, mm from the tail.
    pub x: f64,
    /// Its contour (y, z), mm, counter-clockwise seen from the nose; corners may coincide.
    pub ring: Vec<Vector<2>>,
}

/// A body through sections of equally many corners, joined by straight generators and closed at both ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Lofted {
    /// The part's name.
    pub name: String,
    /// Sections of rising x.
    pub slices: Vec<Slice>,
}

impl Lofted {
    /// Volume, mm³: exact for ruled sides, on which a section's area is a parabola of x between two planes.
    pub fn volume(&self) -> f64 {
        self.sum(|_, area, _| area)
    }

    /// Centre of gravity of the body if uniform, mm; `None` without volume.
    pub fn centroid(&self) -> Option<[f64; 3]> {
        let volume = self.volume();
        let moments = [
            self.sum(|x, area, _| x * area),
            self.sum(|_, _, m| m.x),
            self.sum(|_, _, m| m.y),
        ];
        (volume > 0.0).then(|| moments.map(|m| m / volume))
    }

    /// Area, mm², of the level cut through the body at height `z`, and its moment about x = 0, mm³: widths taken straight between planes.
    pub fn level_cut(&self, z: f64) -> [f64; 2] {
        let mut sums = [0.0; 2];
        for w in self.slices.windows(2) {
            let (a, b) = (width_at(&w[0].ring, z), width_at(&w[1].ring, z));
            let long = w[1].x - w[0].x;
            sums[0] += long * (a + b) / 2.0;
            // The trapezium's moment: of the width at the first plane, and of what it gains.
            sums[1] += long * (w[0].x * (a + b) / 2.0 + long * (a + 2.0 * b) / 6.0);
        }
        sums
    }

    /// Integral over x of a function of plane, area and moment of area, by Simpson's rule between planes: exact up to cubics.
    fn sum(&self, f: impl Fn(f64, f64, Vector<2>) -> f64) -> f64 {
        let of = |x: f64, ring: &[Vector<2>]| f(x, polygon::area(ring), moment(ring));
        self.slices
            .windows(2)
            .map(|w| {
                let middle: Vec<Vector<2>> = w[0]
                    .ring
                    .iter()
                    .zip(&w[1].ring)
                    .map(|(a, b)| (a + b) / 2.0)
                    .collect();
                let x = (w[0].x + w[1].x) / 2.0;
                let ends = of(w[0].x, &w[0].ring) + of(w[1].x, &w[1].ring);
                (w[1].x - w[0].x) / 6.0 * (ends + 4.0 * of(x, &middle))
            })
            .sum()
    }

    /// The mirror image on the other side of the centreline.
    pub fn mirrored(&self, name: String) -> Self {
        let slices = self
            .slices
            .iter()
            .map(|s| Slice {
                x: s.x,
                ring: s
                    .ring
                    .iter()
                    .rev()
                    .map(|p| Vector::<2>::new(-p.x, p.y))
                    .collect(),
            })
            .collect();
        Self { name, slices }
    }
}

/// Area times centroid of a polygon, mm³ (Bourke's formula, as in any textbook on polygons).
fn moment(ring: &[Vector<2>]) -> Vector<2> {
    let next = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(next)
        .map(|(a, b)| (a + b) * (a.perp(b) / 6.0))
        .sum()
}

/// Length of the level line at height `z` inside a polygon.
fn width_at(ring: &[Vector<2>], z: f64) -> f64 {
    let next = ring.iter().cycle().skip(1);
    let mut crossings: Vec<f64> = ring
        .iter()
        .zip(next)
        .filter(|(a, b)| (a.y <= z) != (b.y <= z))
        .map(|(a, b)| height_on(a.yx(), b.yx(), z))
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings.chunks_exact(2).map(|c| c[1] - c[0]).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, half: f64) -> Slice {
        let ring = [(-half, -half), (half, -half), (half, half), (-half, half)];
        Slice {
            x,
            ring: ring.map(|(y, z)| Vector::<2>::new(y, z)).to_vec(),
        }
    }

    /// A pyramid of base a² and height h holds a²h/3, a quarter of its height over the base.
    #[test]
    fn a_pyramid_is_exact() {
        let pyramid = Lofted {
            name: "pyramid".into(),
            slices: vec![square(0.0, 3.0), square(12.0, 0.0)],
        };
        assert!((pyramid.volume() - 144.0).abs() < 1e-12);
        let [x, y, z] = pyramid.centroid().unwrap_or_default();
        assert!((x - 3.0).abs() < 1e-12 && y.abs() < 1e-12 && z.abs() < 1e-12);
        assert!((pyramid.mirrored("m".into()).volume() - 144.0).abs() < 1e-12);
        // Level through its axis a triangle of 6 by 12, its centre a third along; half way up it ends half way along.
        let [area, moment] = pyramid.level_cut(0.0);
        assert!((area - 36.0).abs() < 1e-12 && (moment / area - 4.0).abs() < 1e-12);
        assert_eq!(pyramid.level_cut(3.5), [0.0, 0.0]);
    }
}
