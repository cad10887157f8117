//! Patches through rows of points, against closed forms.

use boardwright::geometry::curve::Vector;
use boardwright::geometry::surface::{LoftError, Patch, integrals, loft_points, patch_mesh};
use boardwright::output::export::stl;
use std::f64::consts::PI;

type Rows = Vec<Vec<Vector<3>>>;

/// The starboard half of an ellipsoid with these half axes, x from 0, from the bottom's centre to the deck's.
fn ellipsoid([a, b, c]: [f64; 3], rows: usize, points: usize) -> Rows {
    let share = |i: usize, n: usize| PI * i as f64 / (n - 1) as f64;
    let sine = |i: usize, n: usize| {
        if i == 0 || i == n - 1 {
            0.0
        } else {
            share(i, n).sin()
        }
    };
    (0..rows)
        .map(|i| {
            let (along, across) = (share(i, rows).cos(), sine(i, rows));
            (0..points)
                .map(|j| {
                    let (down, side) = (share(j, points).cos(), sine(j, points));
                    Vector::from([a - a * along, b * across * side, -c * across * down])
                })
                .collect()
        })
        .collect()
}

const AXES: [f64; 3] = [900.0, 250.0, 30.0];

/// Greatest distance of given points from the patch at the parameters it gives them, found back from its knots and the shared rule.
fn miss(patch: &Patch, rows: &Rows) -> f64 {
    // Chord lengths averaged over lines that have a length, worked out here once more.
    let shares = |lines: Vec<Vec<Vector<3>>>| {
        let n = lines[0].len();
        let mut places = vec![0.0; n];
        let mut count = 0.0;
        for line in lines {
            let walked: Vec<f64> = line
                .windows(2)
                .scan(0.0, |sum, w| {
                    *sum += (w[1] - w[0]).norm();
                    Some(*sum)
                })
                .collect();
            let length = walked[n - 2];
            if length > 0.0 {
                count += 1.0;
                for (place, s) in places[1..].iter_mut().zip(walked) {
                    *place += s / length;
                }
            }
        }
        places.iter().map(|p| p / count).collect::<Vec<f64>>()
    };
    let columns = (0..rows[0].len()).map(|j| rows.iter().map(|r| r[j]).collect());
    let (u, v) = (shares(columns.collect()), shares(rows.clone()));
    let mut worst = 0.0_f64;
    for (row, u) in rows.iter().zip(&u) {
        for (point, v) in row.iter().zip(&v) {
            worst = worst.max((patch.point(*u, *v) - point).norm());
        }
    }
    worst
}

/// 4/3 π a b c, nearer with every refinement by about the fourth power; the points are met to 1e-9 mm.
#[test]
fn an_ellipsoid_s_volume_converges_and_its_points_are_met() {
    let exact = 4.0 / 3.0 * PI * AXES.iter().product::<f64>();
    let mut errors = Vec::new();
    for (rows, points) in [(11, 9), (21, 17), (41, 33)] {
        let rows = ellipsoid(AXES, rows, points);
        let patch = loft_points(&rows).unwrap();
        assert!(miss(&patch, &rows) < 1e-9);
        let volume = 2.0 * integrals(&patch).volume;
        errors.push((volume / exact - 1.0).abs());
    }
    assert!(errors[2] < 1e-4, "{errors:?}");
    assert!(
        errors[1] < errors[0] / 6.0 && errors[2] < errors[1] / 6.0,
        "{errors:?}"
    );
}

/// Rows on a plane, unevenly spaced: the patch lies in it between them too.
#[test]
fn a_plane_is_exact_between_its_points() {
    let z = |x: f64, y: f64| 0.3 * x - 0.2 * y + 5.0;
    let rows: Rows = [0.0, 10.0, 45.0, 60.0, 120.0, 130.0]
        .iter()
        .map(|&x| {
            let places = [0.0, 5.0, 30.0, 32.0, 70.0];
            let points = places.iter().map(|&y| Vector::from([x, y, z(x, y)]));
            points.collect()
        })
        .collect();
    let patch = loft_points(&rows).unwrap();
    for (u, v) in [(0.13, 0.71), (0.5, 0.02), (0.98, 0.4)] {
        let p = patch.point(u, v);
        assert!((p.z - z(p.x, p.y)).abs() < 1e-9, "{p}");
    }
    assert!(miss(&patch, &rows) < 1e-9);
}

#[test]
fn lofted_halves_are_a_solid_that_stl_takes() {
    let patch = loft_points(&ellipsoid(AXES, 41, 33)).unwrap();
    let half = patch_mesh("half", &[patch], 0.1);
    let mut whole = half.clone();
    whole.append(&half.mirror());
    let solid = whole.weld(1e-6);
    let report = solid.check(0.0);
    assert!(report.is_sound(), "{report}");
    let exact = 4.0 / 3.0 * PI * AXES.iter().product::<f64>();
    assert!(
        (report.volume / exact - 1.0).abs() < 0.005,
        "{}",
        report.volume
    );
    assert!(stl::write(&[solid], "ellipsoid").is_ok());
    // A half alone is open, and is refused.
    assert!(stl::write(&[half], "half").is_err());
}

#[test]
fn faults_name_row_and_point() {
    let good = || ellipsoid(AXES, 8, 9);
    let fault = |change: fn(&mut Rows)| {
        let mut rows = good();
        change(&mut rows);
        loft_points(&rows).unwrap_err()
    };
    let few = fault(|rows| rows.truncate(3));
    assert_eq!(few, LoftError::FewRows { rows: 3 });
    let short = fault(|rows| rows.iter_mut().for_each(|row| row.truncate(2)));
    assert_eq!(short, LoftError::FewPoints { points: 2 });
    let uneven = fault(|rows| rows[4].truncate(7));
    assert_eq!(
        uneven,
        LoftError::Uneven {
            row: 4,
            points: 7,
            wanted: 9
        }
    );
    let none = fault(|rows| rows[2][5].y = f64::NAN);
    assert_eq!(none, LoftError::NotFinite { row: 2, point: 5 });
    let twice = fault(|rows| rows[3] = rows[2].clone());
    assert_eq!(twice, LoftError::SameRow { row: 3 });
    let stuck = fault(|rows| rows.iter_mut().for_each(|row| row[4] = row[3]));
    assert_eq!(stuck, LoftError::SamePoint { point: 4 });
    // Every message says what to do.
    for message in [few, short, uneven, none, twice, stuck].map(|fault| fault.to_string()) {
        assert!(message.contains("; "), "{message}");
    }
}
