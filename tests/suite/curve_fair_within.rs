//! The fairest curve within a tolerance of given points.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::geometry::curve::{CurveError, FairCurve, KnotVector, Vector};
use proptest::prelude::*;

fn problem(count: usize) -> FairCurve<2> {
    let t: Vec<f64> = (0..count).map(|i| i as f64 / (count - 1) as f64).collect();
    let knots = KnotVector::divided(4, &t, 2).expect("knots");
    FairCurve::new(knots).energy(2, 1.0)
}

fn targets(heights: &[f64]) -> Vec<(f64, Vector<2>)> {
    let last = (heights.len() - 1) as f64;
    let point = |(i, &y): (usize, &f64)| {
        let t = i as f64 / last;
        (t, Vector::from([1800.0 * t, y]))
    };
    heights.iter().enumerate().map(point).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn the_bound_holds_and_more_room_never_bends_more(
        heights in prop::collection::vec(-50.0..50.0f64, 5..14),
        tolerances in (0.01..10.0f64, 1.0..4.0f64),
    ) {
        let fair = problem(heights.len());
        let wanted = targets(&heights);
        let (tight, loose) = (tolerances.0, tolerances.0 * tolerances.1);
        let mut energies = Vec::new();
        for tolerance in [tight, loose] {
            let curve = fair.solve_within(&wanted, tolerance).expect("within reach");
            for &(u, p) in &wanted {
                prop_assert!((curve.point(u) - p).norm() <= tolerance);
            }
            energies.push(fair.energy_of(&curve));
        }
        let through = wanted.iter().fold(fair.clone(), |f, &(u, p)| f.point(u, p));
        let most = fair.energy_of(&through.solve().expect("solvable"));
        // The documented gap: 1e-4 of the least, or 1e-9 of the energy through all points.
        let slack = |least: f64| least * 1e-4 + 1e-9 * most;
        prop_assert!(energies[0] <= most + slack(most));
        prop_assert!(energies[1] <= energies[0] + slack(energies[0]), "{energies:?}");
    }
}

/// Points on a line with one lifted by 2 mm: with 1 mm of room the least is a straight line half way, of no energy.
#[test]
fn within_reach_of_a_straight_line_the_answer_is_straight() {
    let fair = problem(7);
    let wanted = targets(&[0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0]);
    let curve = fair.solve_within(&wanted, 1.01).expect("within reach");
    let (_, peak) = curve.bounds();
    assert!(peak[1] > 0.98, "the lifted point asks for it");
    let bent = fair.energy_of(&fair.solve_within(&wanted, 0.1).expect("within reach"));
    assert!(fair.energy_of(&curve) < 1e-6 * bent);
}

/// Three points, cubic, ∫|C''|²: by symmetry the middle and the ends use all their room, so the sag is 10 − 2·tolerance.
#[test]
fn a_known_optimum_is_reached() {
    let t = [0.0, 0.5, 1.0];
    let knots = KnotVector::divided(3, &t, 2).expect("knots");
    let fair = FairCurve::<1>::new(knots).energy(2, 1.0);
    let wanted = [0.0, 10.0, 0.0].map(|y| Vector::from([y]));
    let wanted: Vec<_> = t.into_iter().zip(wanted).collect();
    let energy = |h: f64| 48.0 * h * h; // natural spline over two spans of 1/2 with rise h: ∫f''² = 48 h²
    for tolerance in [0.1, 1.0, 3.0] {
        let curve = fair.solve_within(&wanted, tolerance).expect("within reach");
        let want = energy(10.0 - 2.0 * tolerance);
        let got = fair.energy_of(&curve);
        assert!(
            got >= want * (1.0 - 1e-9) && got <= want * 1.0001,
            "{got} against {want}"
        );
    }
}

#[test]
fn conditions_that_forbid_the_tolerance_are_reported() {
    let fair = problem(5).point(0.5, Vector::from([900.0, 30.0]));
    let wanted = targets(&[0.0; 5]);
    let got = fair.solve_within(&wanted, 1.0);
    assert!(
        matches!(got, Err(CurveError::NotReached { reached, .. }) if (reached - 30.0).abs() < 1e-6),
        "{got:?}"
    );
    let curve = fair.solve_within(&wanted, 31.0).expect("within reach");
    assert!((curve.point(0.5)[1] - 30.0).abs() < 1e-9);
    assert_eq!(
        fair.solve_within(&wanted, 0.0),
        Err(CurveError::Tolerance(0.0))
    );
}
