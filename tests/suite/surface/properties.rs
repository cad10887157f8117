//! Derivatives of random patches against differences, and what else must hold of any patch.

use boardwright::geometry::curve::{KnotVector, Vector};
use boardwright::geometry::surface::{Patch, section};
use proptest::prelude::*;

/// A patch of degrees 2 to 4 over knots spaced at random whose net is a plane shaken by up to a third of its spacing.
fn patches() -> impl Strategy<Value = Patch> {
    let side = (2usize..=4, prop::collection::vec(0.3f64..1.0, 1..4));
    (
        side.clone(),
        side,
        prop::collection::vec(-1.0f64..1.0, 3 * 64),
    )
        .prop_map(|((p, us), (q, vs), shakes)| {
            let knots = |degree: usize, gaps: &[f64]| {
                let sum: f64 = gaps.iter().sum();
                let mut at = 0.0;
                let mut inner: Vec<f64> = gaps
                    .iter()
                    .map(|g| {
                        at += g / sum;
                        at
                    })
                    .collect();
                inner.pop();
                KnotVector::clamped(degree, 0.0, &inner, 1.0).expect("knots")
            };
            let (u, v) = (knots(p, &us), knots(q, &vs));
            let (m, n) = (u.count(), v.count());
            let net = (0..m * n).map(|k| {
                let shake = Vector::<3>::from_fn(|i, _| shakes[(3 * k + i) % shakes.len()]);
                // u along x, v along −y: the outside is up.
                Vector::<3>::new((k / n) as f64, -((k % n) as f64), 0.0) * 30.0 + shake * 10.0
            });
            let net = net.collect();
            Patch::new(u, v, net).expect("patch")
        })
}

/// A parameter that is not within `margin` of a knot, where derivatives may jump.
fn clear(knots: &KnotVector, t: f64, margin: f64) -> f64 {
    let breaks = knots.breaks();
    let span = breaks.windows(2).find(|w| t <= w[1]).expect("inside");
    t.clamp(span[0] + margin, span[1] - margin)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn derivatives_are_limits_of_differences(patch in patches(), u in 0.0f64..1.0, v in 0.0f64..1.0) {
        let h = 1e-3;
        let (u, v) = (clear(patch.u(), u, 2.0 * h), clear(patch.v(), v, 2.0 * h));
        let jet = patch.jet(u, v);
        let s = |du: f64, dv: f64| patch.point(u + du * h, v + dv * h);
        // Fourth-order central differences; exact for degree 4 but for rounding.
        let first = |p: [Vector<3>; 4]| (p[0] - p[3] + (p[2] - p[1]) * 8.0) / (12.0 * h);
        let second = |p: [Vector<3>; 4]| {
            ((p[1] + p[2]) * 16.0 - p[0] - p[3] - s(0.0, 0.0) * 30.0) / (12.0 * h * h)
        };
        let along = [-2.0, -1.0, 1.0, 2.0].map(|k| s(k, 0.0));
        let across = [-2.0, -1.0, 1.0, 2.0].map(|k| s(0.0, k));
        let scale = 1.0 + jet.du.norm() + jet.dv.norm() + jet.duu.norm() + jet.dvv.norm();
        prop_assert!((jet.point - s(0.0, 0.0)).norm() < 1e-11 * scale);
        prop_assert!((jet.du - first(along)).norm() < 1e-8 * scale);
        prop_assert!((jet.dv - first(across)).norm() < 1e-8 * scale);
        prop_assert!((jet.duu - second(along)).norm() < 1e-6 * scale);
        prop_assert!((jet.dvv - second(across)).norm() < 1e-6 * scale);
        let mixed = first([-2.0, -1.0, 1.0, 2.0].map(|k| {
            first([-2.0, -1.0, 1.0, 2.0].map(|l| s(k, l)))
        }));
        prop_assert!((jet.duv - mixed).norm() < 1e-6 * scale);
    }

    #[test]
    fn the_normal_turns_by_weingarten(patch in patches(), u in 0.0f64..1.0, v in 0.0f64..1.0) {
        let h = 1e-4;
        let (u, v) = (clear(patch.u(), u, 2.0 * h), clear(patch.v(), v, 2.0 * h));
        let jet = patch.jet(u, v);
        let normal = jet.normal().expect("regular");
        prop_assert!(normal.z > 0.0);
        let (nu, nv) = jet.normal_derivatives(&normal);
        let n = |du: f64, dv: f64| patch.normal(u + du * h, v + dv * h).expect("regular");
        let by_u = (n(1.0, 0.0) - n(-1.0, 0.0)) / (2.0 * h);
        let by_v = (n(0.0, 1.0) - n(0.0, -1.0)) / (2.0 * h);
        let scale = 1.0 + nu.norm() + nv.norm();
        prop_assert!((nu - by_u).norm() < 1e-4 * scale * scale, "{nu} against {by_u}");
        prop_assert!((nv - by_v).norm() < 1e-4 * scale * scale, "{nv} against {by_v}");
        // Normal curvature along a parameter line from the normal's turning, and between the principal ones.
        let k = jet.curvatures().expect("regular");
        for (d, dn) in [(jet.du, nu), (jet.dv, nv)] {
            let got = jet.normal_curvature(&d).expect("regular");
            let want = dn.dot(&d) / d.norm_squared();
            prop_assert!((got - want).abs() < 1e-9 * (1.0 + want.abs()));
            prop_assert!(got <= k.greater + 1e-9 && got >= k.lesser - 1e-9);
        }
    }

    #[test]
    fn lines_of_a_patch_are_its_points(patch in patches(), u in 0.0f64..=1.0, v in 0.0f64..=1.0) {
        let want = patch.point(u, v);
        prop_assert!((patch.across(u).expect("line").point(v) - want).norm() < 1e-10);
        prop_assert!((patch.along(v).expect("line").point(u) - want).norm() < 1e-10);
        prop_assert!((patch.jet(u, v).point - want).norm() < 1e-10);
        prop_assert!((patch.jet_below(u, v).point - want).norm() < 1e-10);
    }

    #[test]
    fn sections_lie_on_plane_and_patch(patch in patches(), angle in 0.0f64..3.1, tilt in -0.6f64..0.6) {
        let normal = Vector::<3>::new(angle.cos(), angle.sin(), tilt);
        let constant = normal.dot(&patch.point(0.45, 0.55));
        let cut = section(&patch, normal, constant, 1e-3);
        prop_assert!(!cut.is_empty());
        for (p, t) in cut.iter().flat_map(|c| c.points.iter().zip(&c.parameters)) {
            prop_assert!((patch.point(t[0], t[1]) - p).norm() < 1e-12);
            prop_assert!((normal.dot(p) - constant).abs() < 1e-8);
        }
    }
}
