//! Lofts rows of points and writes the solid as STL:
//! `cargo run --release --example loft_points rows.csv solid.stl`.
//!
//! The file has one row of the half section a line, from the tail to the nose: x, y, z of its points one after another, in mm, from the bottom's
//! centre round the rail to the deck's; first and last line are one point each, as often as the others have points. Without a file an ellipsoid
//! of 1800 × 500 × 60 mm is lofted from 41 rows of 33 points.

use std::error::Error;
use std::f64::consts::PI;

use boardwright::geometry::curve::Vector;
use boardwright::geometry::surface::{integrals, loft_points, patch_mesh};
use boardwright::output::export::stl;

/// How near, mm, the triangles keep to the surface.
const TOLERANCE: f64 = 0.05;

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let (rows, target) = match (words.next(), words.next()) {
        (Some(source), Some(target)) => (read(&std::fs::read_to_string(source)?)?, target),
        (None, None) => (ellipsoid(), "ellipsoid.stl".to_owned()),
        _ => return Err("name a file of rows and the STL to write, or neither".into()),
    };
    let patch = loft_points(&rows)?;
    println!("{:.4} litres", 2.0 * integrals(&patch).volume.abs() / 1e6);
    let half = patch_mesh("lofted", &[patch], TOLERANCE);
    let mut solid = half.clone();
    solid.append(&half.mirror());
    // Refuses what is not closed, such as rows that do not end on the centre plane.
    let bytes = stl::write(&[solid.weld(1e-6)], "lofted rows")?;
    std::fs::write(&target, bytes)?;
    println!("{target} written");
    Ok(())
}

fn read(text: &str) -> Result<Vec<Vec<Vector<3>>>, Box<dyn Error>> {
    let row = |(number, line): (usize, &str)| {
        let numbers: Result<Vec<f64>, _> = line.split(',').map(|n| n.trim().parse()).collect();
        let numbers = numbers.map_err(|fault| format!("line {}: {fault}", number + 1))?;
        if !numbers.len().is_multiple_of(3) {
            return Err(format!("line {}: give x, y, z of every point", number + 1).into());
        }
        let points = numbers.chunks_exact(3);
        Ok(points.map(Vector::<3>::from_column_slice).collect())
    };
    text.lines().enumerate().map(row).collect()
}

fn ellipsoid() -> Vec<Vec<Vector<3>>> {
    let station = |i: u32| {
        let (across, along) = (PI * f64::from(i) / 40.0).sin_cos();
        let point = |j: u32| {
            let (side, down) = (PI * f64::from(j) / 32.0).sin_cos();
            // Exact on the centre plane and at the tips.
            let side = if j.is_multiple_of(32) { 0.0 } else { side };
            let across = if i.is_multiple_of(40) { 0.0 } else { across };
            Vector::from([
                900.0 - 900.0 * along,
                250.0 * across * side,
                30.0 - 30.0 * across * down,
            ])
        };
        (0..=32).map(point).collect()
    };
    (0..=40).map(station).collect()
}
