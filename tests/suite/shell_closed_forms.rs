//! Lofted solids against closed forms.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::solids;
use boardwright::geometry::curve::Vector;
use boardwright::shape::{DEFAULT_TOLERANCE, End, Family, Shell, loft, measures};
use solids::{Superellipsoid, Wigley};
use std::f64::consts::PI;

fn relative(got: f64, want: f64) -> f64 {
    (got / want - 1.0).abs()
}

fn lofted(exponent: f64, tolerance: f64) -> (Shell, [f64; 3]) {
    let semi = [990.0, 255.0, 32.0];
    (
        loft(&Superellipsoid { semi, exponent }, tolerance).expect("lofts"),
        semi,
    )
}

/// V = 4/3 π a b c; section area π b c (1 − ξ²).
#[test]
fn ellipsoid_has_its_volume_and_section_areas() {
    let (shell, [a, b, c]) = lofted(2.0, DEFAULT_TOLERANCE);
    let got = measures(&shell).expect("measures");
    assert!(
        relative(got.volume, 4.0 / 3.0 * PI * a * b * c) < 1e-5,
        "{}",
        got.volume
    );
    assert!((got.centre_of_volume[0] - a).abs() < 1e-3);
    assert!(got.centre_of_volume[1].abs() < 1e-3);
    assert!((got.width - 2.0 * b).abs() < 0.01 && (got.thickness - 2.0 * c).abs() < 0.01);
    assert!(relative(got.planshape_area, PI * a * b) < 1e-5);
    for section in &got.section_areas[2..39] {
        let xi = section.x / a - 1.0;
        assert!(
            relative(section.area, PI * b * c * (1.0 - xi * xi)) < 1e-4,
            "{section:?}"
        );
    }
}

/// Area of the triaxial ellipsoid 990, 255, 32 mm by its surface integral in spherical parameters, by 20-point Gauss–Legendre on 16 × 16
/// panels in Python (agrees with 8 × 8 panels to 3e-15).
#[test]
fn ellipsoid_has_its_surface_area() {
    let (shell, _) = lofted(2.0, DEFAULT_TOLERANCE);
    let got = measures(&shell).expect("measures").surface_area;
    assert!(relative(got, AREA) < 1e-4, "{got}");
}

const AREA: f64 = 1_625_986.726_856_42;

/// V = 8 a b c Γ(1 + 1/n)³ / Γ(1 + 3/n); Γ from Python's math module.
#[test]
fn superellipse_solid_has_its_volume() {
    let (shell, [a, b, c]) = lofted(2.5, DEFAULT_TOLERANCE);
    let want = 5.071_594_840_666 * a * b * c;
    let got = 2.0 * shell.half_integrals().expect("integrals").volume;
    assert!(relative(got, want) < 1e-4, "{got} against {want}");
    // A/(ab) = 4 Γ(1 + 1/n)² / Γ(1 + 2/n).
    let middle = shell.section_area(a).expect("section");
    assert!(relative(middle, 3.380_935_362_5 * b * c) < 1e-4, "{middle}");
}

/// V = 4/9 L B T; the waterplane is 2/3 L B, the midship section 2/3 B T (closed forms).
#[test]
fn wigley_hull_built_from_points_is_exact() {
    let (length, beam, draught) = (2000.0, 500.0, 125.0);
    let shell = loft(
        &Wigley {
            length,
            beam,
            draught,
        },
        DEFAULT_TOLERANCE,
    )
    .expect("lofts");
    let half = shell.half_integrals().expect("integrals");
    assert!(relative(2.0 * half.volume, 4.0 / 9.0 * length * beam * draught) < 1e-12);
    let middle = shell.section_area(length / 2.0).expect("section");
    assert!(relative(middle, 2.0 / 3.0 * beam * draught) < 1e-12);
    // KB = 5T/8 over the keel, so −3T/8 from the waterline.
    assert!((half.moment.z / half.volume + 3.0 * draught / 8.0).abs() < 1e-9);
}

/// The ellipsoid lofted from a given number of evenly spaced rows, without refinement.
struct Rows(Superellipsoid, u32);

impl Family for Rows {
    fn breaks(&self) -> Vec<f64> {
        self.0.breaks()
    }
    fn rows(&self) -> Vec<f64> {
        // The loft halves every gap once.
        (1..self.1 / 2)
            .map(|i| f64::from(2 * i) / f64::from(self.1))
            .collect()
    }
    fn marks(&self) -> Vec<f64> {
        self.0.marks()
    }
    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>> {
        self.0.section(u, v)
    }
    fn ends(&self) -> [End; 2] {
        self.0.ends()
    }
    fn apex(&self) -> f64 {
        self.0.apex()
    }
}

/// Halving the rows' spacing divides the greatest silhouette error, poles included, by about 2⁴.
#[test]
fn the_loft_converges_with_the_fourth_order() {
    let errors: Vec<f64> = [8, 16, 32, 64]
        .iter()
        .map(|&n| {
            let rows = Rows(
                Superellipsoid {
                    semi: [990.0, 255.0, 32.0],
                    exponent: 2.0,
                },
                n,
            );
            let shell = loft(&rows, 100.0).expect("lofts");
            assert_eq!(shell.patches[0].u().count(), n as usize + 1);
            (0..=2000)
                .map(|i| {
                    let u = f64::from(i) / 2000.0;
                    let got = shell.patches[0].point(u, 0.5);
                    let angle = PI * (1.0 - u);
                    (got.x - 990.0 * (1.0 + angle.cos())).hypot(got.y - 255.0 * angle.sin())
                })
                .fold(0.0, f64::max)
        })
        .collect();
    let orders: Vec<f64> = errors.windows(2).map(|w| (w[0] / w[1]).log2()).collect();
    assert!(
        orders.iter().all(|o| *o > 3.7),
        "errors {errors:?}, orders {orders:?}"
    );
    assert!(errors[3] < 1e-2, "{errors:?}");
}

/// The silhouette is the outline within the design bound, 0.005 mm, everywhere including the poles.
#[test]
fn the_silhouette_is_the_outline() {
    for exponent in [2.0, 2.5] {
        let (shell, [a, b, _]) = lofted(exponent, DEFAULT_TOLERANCE);
        for i in 0..=1000 {
            let x = a * (1.0 - (PI * f64::from(i) / 1000.0).cos());
            let xi: f64 = (x / a - 1.0).abs();
            let want = b * (1.0 - xi.powf(exponent)).max(0.0).powf(1.0 / exponent);
            let got = shell.half_width(x);
            // Distance to the outline is at most the difference in y, and at a tip where it is upright far less.
            let slope = if want > 0.0 {
                (xi / (want / b)).powf(exponent - 1.0) * b / a
            } else {
                f64::INFINITY
            };
            let miss = (got - want).abs() / slope.hypot(1.0);
            assert!(
                miss <= 0.005,
                "exponent {exponent}, x {x}: {got} against {want}"
            );
        }
    }
}
