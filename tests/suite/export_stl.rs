//! STL files as a foreign mesh library sees them.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::python;
use boardwright::geometry::mesh::{Mesh, PlateFrame, extrude};
use boardwright::geometry::path::{Path, Point};
use boardwright::output::export::stl;
use nalgebra::{Point3, Vector3};
use serde_json::Value;
use std::f64::consts::PI;

fn plate() -> Mesh {
    let ring = |path: Path| {
        let mut points = path.flatten(0.01);
        points.pop();
        points
    };
    let outline = ring(Path::rectangle(
        Point::new(-150.0, 0.0),
        Point::new(150.0, 60.0),
    ));
    let hole = ring(Path::circle(Point::new(20.0, 30.0), 20.0));
    let frame = PlateFrame {
        origin: Point3::new(900.0, 0.0, 10.0),
        across: Vector3::y(),
        up: Vector3::z(),
        through: Vector3::x(),
    };
    extrude("rib", &outline, &[hole], &frame, 6.0).unwrap()
}

/// An octahedron's faces divided `times` and blown up to a sphere.
fn sphere(radius: f64, times: u32) -> Mesh {
    let mut corners: Vec<Vector3<f64>> = vec![
        Vector3::x(),
        -Vector3::x(),
        Vector3::y(),
        -Vector3::y(),
        Vector3::z(),
        -Vector3::z(),
    ];
    let mut triangles = vec![
        [0, 2, 4],
        [2, 1, 4],
        [1, 3, 4],
        [3, 0, 4],
        [2, 0, 5],
        [1, 2, 5],
        [3, 1, 5],
        [0, 3, 5],
    ];
    for _ in 0..times {
        let mut middles = std::collections::HashMap::new();
        let mut middle = |a: u32, b: u32| {
            *middles.entry((a.min(b), a.max(b))).or_insert_with(|| {
                corners.push((corners[a as usize] + corners[b as usize]).normalize());
                corners.len() as u32 - 1
            })
        };
        triangles = triangles
            .into_iter()
            .flat_map(|[a, b, c]| {
                let (ab, bc, ca) = (middle(a, b), middle(b, c), middle(c, a));
                [[a, ab, ca], [ab, b, bc], [ca, bc, c], [ab, bc, ca]]
            })
            .collect();
    }
    Mesh {
        name: "sphere".into(),
        vertices: corners.iter().map(|c| Point3::from(c * radius)).collect(),
        triangles,
    }
}

fn reports(name: &str, files: &[Vec<u8>]) -> Option<Vec<Value>> {
    let folder = python::scratch(name);
    let paths: Vec<String> = files
        .iter()
        .enumerate()
        .map(|(i, bytes)| {
            let path = folder.join(format!("{i}.stl"));
            std::fs::write(&path, bytes).unwrap();
            path.to_str().unwrap().to_owned()
        })
        .collect();
    let arguments: Vec<&str> = paths.iter().map(String::as_str).collect();
    let seen = python::run("check_stl.py", &arguments)?;
    seen.as_array().cloned()
}

#[test]
fn plate_sphere_and_pair_are_watertight_with_known_volumes() {
    let (plate, sphere) = (plate(), sphere(100.0, 6));
    let pair = [plate.clone(), sphere.clone()];
    let files = [
        stl::write(std::slice::from_ref(&plate), "rib").unwrap(),
        stl::write(std::slice::from_ref(&sphere), "ball").unwrap(),
        stl::write(&pair, "both").unwrap(),
    ];
    let Some(reports) = reports("stl", &files) else {
        return;
    };
    let expected = [&pair[..1], &pair[1..], &pair[..]];
    for (report, meshes) in reports.iter().zip(expected) {
        assert_eq!(report["watertight"], true, "{report}");
        assert_eq!(report["winding"], true, "{report}");
        let count: usize = meshes.iter().map(|m| m.triangles.len()).sum();
        assert_eq!(report["triangles"], count);
        let volume: f64 = meshes.iter().map(Mesh::volume).sum();
        assert!((report["volume"].as_f64().unwrap() / volume - 1.0).abs() < 1e-6);
        let area: f64 = meshes.iter().map(Mesh::area).sum();
        assert!((report["area"].as_f64().unwrap() / area - 1.0).abs() < 1e-6);
    }
    // Closed forms: the plate's chords leave the hole a little small, the sphere's leave it a little small too.
    let solid = reports[0]["volume"].as_f64().unwrap();
    let exact = (300.0 * 60.0 - PI * 400.0) * 6.0;
    assert!(
        solid > exact && solid < exact * (1.0 + 1e-4),
        "{solid} {exact}"
    );
    let ball = reports[1]["volume"].as_f64().unwrap();
    let exact = 4.0 / 3.0 * PI * 1e6;
    assert!(
        ball < exact && ball > exact * (1.0 - 1e-3),
        "{ball} {exact}"
    );
    assert_eq!(reports[0]["low"], serde_json::json!([900.0, -150.0, 10.0]));
    assert_eq!(reports[0]["high"], serde_json::json!([906.0, 150.0, 70.0]));
}

#[test]
fn the_bytes_do_not_change_from_run_to_run() {
    // Big enough for several threads.
    let sphere = sphere(100.0, 7);
    let first = stl::write(std::slice::from_ref(&sphere), "ball").unwrap();
    assert!(first == stl::write(std::slice::from_ref(&sphere), "ball").unwrap());
}
