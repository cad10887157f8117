//! Patches of cylinder, cone, sphere, ellipsoid and torus against what is known of them.
//!
//! Curvatures after do Carmo, *Differential Geometry of Curves and Surfaces* (1976), sections 3-2 and 3-3, from memory;
//! every closed form is checked by the test that uses it.

use std::f64::consts::PI;

use crate::surface::patches::{collocated, cone, cylinder, ellipsoid, torus};
use boardwright::geometry::curve::Vector;
use boardwright::geometry::surface::{Jet, Patch};

const PLACES: [f64; 5] = [0.07, 0.31, 0.5, 0.64, 0.93];

fn places() -> impl Iterator<Item = (f64, f64)> {
    PLACES
        .iter()
        .flat_map(|u| PLACES.iter().map(move |v| (*u, *v)))
}

fn jets(patch: &Patch) -> impl Iterator<Item = Jet> + '_ {
    places().map(|(u, v)| patch.jet(u, v))
}

fn principal(jet: &Jet) -> [f64; 2] {
    let k = jet.curvatures().expect("regular");
    [k.greater, k.lesser]
}

fn near(got: f64, want: f64, bound: f64, what: &str) {
    assert!((got - want).abs() <= bound, "{what}: {got} against {want}");
}

#[test]
fn a_cylinder_bends_by_euler_s_theorem() {
    let radius = 40.0;
    let patch = collocated(64, cylinder(300.0, radius));
    for jet in jets(&patch) {
        let [greater, lesser] = principal(&jet);
        near(greater, 1.0 / radius, 1e-8, "greater");
        near(lesser, 0.0, 1e-8, "lesser");
        // Euler: κ(ψ) = κ₁ sin²ψ with ψ from the axis.
        for psi in [0.0_f64, 0.4, 1.1, PI / 2.0, 2.5] {
            let along = jet.du.normalize() * psi.cos() + jet.dv.normalize() * psi.sin();
            let got = jet.normal_curvature(&(along * 7.0)).expect("regular");
            near(got, psi.sin().powi(2) / radius, 1e-8, "normal");
        }
        let outward = Vector::<3>::new(0.0, jet.point.y, jet.point.z) / radius;
        assert!((jet.normal().expect("regular") - outward).norm() < 1e-7);
    }
}

/// The one principal curvature of a cone of half angle α at distance r from its axis is cos α / r.
#[test]
fn a_cone_bends_across_its_rulings_alone() {
    let (height, radius) = (200.0, 90.0);
    let patch = collocated(48, cone(height, radius));
    let cosine = height / f64::hypot(height, radius);
    for jet in jets(&patch) {
        let [greater, lesser] = principal(&jet);
        let r = jet.point.y.hypot(jet.point.z);
        near(greater, cosine / r, 1e-7 * greater, "greater");
        near(lesser, 0.0, 1e-8, "lesser");
    }
}

/// A point on every ruling is its apex, and each ruling has its own normal to the end.
#[test]
fn the_normal_at_a_cone_s_apex_is_that_of_the_ruling() {
    let (height, radius) = (200.0, 90.0);
    let patch = collocated(48, cone(height, radius));
    for v in PLACES {
        let (s, c) = (PI * (v - 0.5)).sin_cos();
        let want = Vector::<3>::new(-radius, height * c, height * s).normalize();
        let got = patch.normal(0.0, v).expect("limit");
        assert!((got - want).norm() < 1e-8, "{got} against {want}");
    }
}

/// At a pole every meridian has the axis as its normal.
#[test]
fn the_normal_at_a_pole_is_the_axis() {
    for semi in [[80.0, 80.0, 80.0], [990.0, 255.0, 32.0]] {
        let patch = collocated(40, ellipsoid(semi));
        for v in PLACES.into_iter().chain([0.0, 1.0]) {
            for (u, want) in [(0.0, -Vector::<3>::x()), (1.0, Vector::<3>::x())] {
                let got = patch.normal(u, v).expect("limit");
                assert!((got - want).norm() < 1e-5, "{semi:?} {v}: {got}");
                assert!((got.norm() - 1.0).abs() < 1e-12);
            }
        }
    }
}

#[test]
fn a_sphere_bends_alike_everywhere() {
    let radius = 80.0;
    let patch = collocated(40, ellipsoid([radius; 3]));
    for jet in jets(&patch) {
        for k in principal(&jet) {
            // The two are roots that coincide, so that rounding and error enter by their square root.
            near(k, 1.0 / radius, 1e-6, "principal");
        }
        assert!((jet.normal().expect("regular") - jet.point / radius).norm() < 1e-7);
    }
}

/// κ₁κ₂ = 1 / (abc)² (x²/a⁴ + y²/b⁴ + z²/c⁴)²; the normal is (x/a², y/b², z/c²) made unit.
#[test]
fn an_ellipsoid_has_its_gauss_curvature_and_normals() {
    let semi = [90.0, 50.0, 30.0];
    let patch = collocated(32, ellipsoid(semi));
    for jet in jets(&patch) {
        let g = jet.point.zip_map(&Vector::from(semi), |x, a| x / (a * a));
        let want = 1.0 / (semi.iter().product::<f64>() * g.norm_squared()).powi(2);
        let [greater, lesser] = principal(&jet);
        near(greater * lesser, want, 1e-6 * want, "Gauss");
        assert!((jet.normal().expect("regular") - g.normalize()).norm() < 1e-7);
    }
}

/// 1 / r along the tube, cos β / (R + r cos β) round the axis: of both signs.
#[test]
fn a_torus_bends_both_ways() {
    let (ring, tube) = (100.0, 30.0);
    let patch = collocated(64, torus(ring, tube));
    for (u, v) in places() {
        let cosine = (2.0 * PI * v).cos();
        let [greater, lesser] = principal(&patch.jet(u, v));
        near(greater, 1.0 / tube, 1e-7, "greater");
        near(lesser, cosine / (ring + tube * cosine), 1e-7, "lesser");
    }
}

/// The jets of what is moved inward, against the offset torus itself.
#[test]
fn a_torus_moved_inward_is_the_thinner_torus() {
    let (ring, tube, depth) = (100.0, 30.0, 12.0);
    let patch = collocated(64, torus(ring, tube));
    let thinner = collocated(64, torus(ring, tube - depth));
    for (u, v) in places() {
        let (point, du, dv) = patch.jet(u, v).inward(depth).expect("regular");
        let want = thinner.jet(u, v);
        assert!((point - want.point).norm() < 1e-6);
        assert!((du - want.du).norm() < 1e-4, "{du} {}", want.du);
        assert!((dv - want.dv).norm() < 1e-4, "{dv} {}", want.dv);
    }
}
