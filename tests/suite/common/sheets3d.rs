//! Triangulated surfaces for flattening.

use boardwright::geometry::curve::Vector;

/// Points and triangles.
pub type Sheet = (Vec<Vector<3>>, Vec<[u32; 3]>);

/// A grid of `rows` × `columns` cells over the unit square, row by row, lifted by `place`; where u
/// maps to x and v to y the triangles are counter-clockwise seen from above.
pub fn grid(rows: usize, columns: usize, place: impl Fn(f64, f64) -> [f64; 3]) -> Sheet {
    let mut points = Vec::new();
    for i in 0..=rows {
        for j in 0..=columns {
            points.push(Vector::from(place(
                i as f64 / rows as f64,
                j as f64 / columns as f64,
            )));
        }
    }
    let mut triangles = Vec::new();
    for i in 0..rows {
        for j in 0..columns {
            let a = (i * (columns + 1) + j) as u32;
            let (b, d) = (a + 1, a + columns as u32 + 1);
            let c = d + 1;
            if (i + j) % 2 == 1 {
                triangles.extend([[a, c, b], [a, d, c]]);
            } else {
                triangles.extend([[a, d, b], [b, d, c]]);
            }
        }
    }
    (points, triangles)
}

/// A disc of `rings` rings of six more vertices each round a centre; `place` takes radius (0 to 1) and angle.
pub fn disc(rings: usize, place: impl Fn(f64, f64) -> [f64; 3]) -> Sheet {
    let mut points = vec![Vector::from(place(0.0, 0.0))];
    let mut triangles = Vec::new();
    let start = |k: usize| if k == 0 { 0 } else { 1 + 3 * k * (k - 1) };
    for k in 1..=rings {
        for m in 0..6 * k {
            let angle = std::f64::consts::TAU * m as f64 / (6 * k) as f64;
            points.push(Vector::from(place(k as f64 / rings as f64, angle)));
        }
        for side in 0..6 {
            let outer = |m: usize| (start(k) + (side * k + m) % (6 * k)) as u32;
            let inner = |m: usize| {
                if k == 1 {
                    0
                } else {
                    (start(k - 1) + (side * (k - 1) + m) % (6 * (k - 1))) as u32
                }
            };
            for m in 0..k {
                triangles.push([inner(m), outer(m), outer(m + 1)]);
                if m + 1 < k {
                    triangles.push([inner(m), outer(m + 1), inner(m + 1)]);
                }
            }
        }
    }
    (points, triangles)
}

/// Greatest change of an edge's length, as a share of it.
pub fn edge_strain((points, triangles): &Sheet, flat: &[Vector<2>]) -> f64 {
    let mut worst = 0.0_f64;
    for t in triangles {
        for k in 0..3 {
            let (a, b) = (t[k] as usize, t[(k + 1) % 3] as usize);
            let ratio = (flat[b] - flat[a]).norm() / (points[b] - points[a]).norm();
            worst = worst.max((ratio - 1.0).abs());
        }
    }
    worst
}
