//! Paths of strips against closed forms.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::prisms;
use boardwright::board::{Board, rail_planes};
use boardwright::design::{Arrangement, parse};
use boardwright::geometry::curve::Vector;
use boardwright::rail::{Darboux, Landing, darboux, solve, strips};
use boardwright::shape::loft;
use boardwright::views::solids::strip_solids;
use prisms::{Prism, construction};

type V = Vector<3>;

/// Curvatures at `t` of a path and of the direction of its thickness, derivatives by central differences of closed forms.
fn at(path: impl Fn(f64) -> V, out: impl Fn(f64) -> V, t: f64) -> Darboux {
    let h = 1e-3;
    let first = |f: &dyn Fn(f64) -> V| (f(t + h) - f(t - h)) / (2.0 * h);
    let second = (path(t + h) - path(t) * 2.0 + path(t - h)) / (h * h);
    darboux(&[path(t), first(&path), second], &[out(t), first(&out)])
}

/// Helix on a cylinder: κn = cos²β / R, τg = sin β cos β / R, κg = 0 (β from the parallel).
#[test]
fn a_helix_on_a_cylinder() {
    let radius = 150.0_f64;
    for degrees in [0.0_f64, 10.0, 35.0, 60.0] {
        let beta = degrees.to_radians();
        let pitch = radius * beta.tan();
        let found = at(
            |t| V::new(radius * t.cos(), radius * t.sin(), pitch * t),
            |t| V::new(t.cos(), t.sin(), 0.0) * 3.0,
            0.4,
        );
        assert!(
            (found.easy - beta.cos().powi(2) / radius).abs() < 1e-7,
            "{found:?}"
        );
        assert!(
            (found.twist.abs() - beta.sin() * beta.cos() / radius).abs() < 1e-7,
            "{found:?}"
        );
        assert!(found.hard.abs() < 1e-7, "{found:?}");
    }
}

/// Parallel of a torus at angle θ from the outer equator: κn = cos θ / ρ, κg = sin θ / ρ, τg = 0, with ρ = R + r cos θ.
#[test]
fn parallels_of_a_torus() {
    let (big, small) = (400.0_f64, 60.0_f64);
    for degrees in [0.0_f64, 20.0, 50.0, 80.0] {
        let theta = degrees.to_radians();
        let rho = big + small * theta.cos();
        let found = at(
            |t| V::new(rho * t.cos(), rho * t.sin(), small * theta.sin()),
            |t| V::new(theta.cos() * t.cos(), theta.cos() * t.sin(), theta.sin()),
            1.1,
        );
        assert!((found.easy - theta.cos() / rho).abs() < 1e-8, "{found:?}");
        assert!(
            (found.hard.abs() - theta.sin() / rho).abs() < 1e-8,
            "{found:?}"
        );
        assert!(found.twist.abs() < 1e-8, "{found:?}");
    }
}

/// Geodesic of a cone: a straight line of its development, so κg = 0, and by Euler κn = cos²ψ cos α / ρ, where ψ is the angle to
/// the parallel, ρ the parallel's radius and α the half angle of the cone.
#[test]
fn a_geodesic_of_a_cone() {
    let alpha = 25.0_f64.to_radians();
    // In the development the line x = a; polar coordinates there are slant distance and angle φ sin α.
    let a = 300.0_f64;
    let polar = |t: f64| (a.hypot(t), (t / a).atan());
    let point = |t: f64| {
        let (slant, angle) = polar(t);
        let (rho, phi) = (slant * alpha.sin(), angle / alpha.sin());
        V::new(rho * phi.cos(), rho * phi.sin(), slant * alpha.cos())
    };
    let normal = |t: f64| {
        let phi = polar(t).1 / alpha.sin();
        V::new(
            alpha.cos() * phi.cos(),
            alpha.cos() * phi.sin(),
            -alpha.sin(),
        )
    };
    for t in [0.0_f64, 40.0, 150.0] {
        let found = at(point, normal, t);
        let (slant, angle) = polar(t);
        let to_parallel = angle;
        let kn = to_parallel.cos().powi(2) * alpha.cos() / (slant * alpha.sin());
        // Second differences of coordinates of 300 mm carry rounding of some 1e-7 per mm.
        assert!((found.easy - kn).abs() < 1e-6, "{found:?} against {kn}");
        assert!(found.hard.abs() < 1e-6, "{found:?}");
    }
}

/// On a straight prismatic rail strips are straight, as long as the planes they pass, and reach from block to block.
#[test]
fn strips_of_a_straight_rail_are_straight() {
    let prism = Prism {
        length: 2000.0,
        half: [220.0; 2],
        height: 70.0,
        round: true,
    };
    let shell = loft(&prism, 1e-4).unwrap();
    let x: Vec<f64> = (0..=180).map(|i| 100.0 + 10.0 * f64::from(i)).collect();
    let rail = solve(&shell, &construction(), &x).unwrap();
    let found = strips(&rail).unwrap();
    assert!(found.len() > 4);
    for strip in &found {
        assert!((strip.length - 1800.0).abs() < 1e-6, "{}", strip.length);
        assert_eq!(strip.landings, [Landing::Block; 2]);
        for place in &strip.places {
            let b = place.bend;
            assert!(
                b.easy.abs().max(b.hard.abs()).max(b.twist.abs()) < 1e-7,
                "{b:?}"
            );
        }
    }
}

/// A straight taper: length 1 / cos α of the distance along the board.
#[test]
fn strips_of_a_tapered_rail_are_longer_by_one_over_cos() {
    let prism = Prism {
        length: 1000.0,
        half: [400.0, 150.0],
        height: 70.0,
        round: false,
    };
    let shell = loft(&prism, 1e-4).unwrap();
    let x: Vec<f64> = (0..=80).map(|i| 100.0 + 10.0 * f64::from(i)).collect();
    let rail = solve(&shell, &construction(), &x).unwrap();
    let want = 800.0 * 0.25_f64.hypot(1.0);
    for strip in strips(&rail).unwrap() {
        assert!(
            (strip.length - want).abs() < 1e-4,
            "{} against {want}",
            strip.length
        );
    }
}

fn example(name: &str) -> Board {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    Board::new(parse(&text, &file).unwrap()).unwrap()
}

/// Lengths of strips are converged within 0.1 mm, and run-outs with them, when the planes are twice as dense.
#[test]
fn lengths_converge() {
    let board = example("round-tail-6ft4");
    let fine = solve(
        &board.shell,
        &board.design.construction,
        &rail_planes(&board.design, 5.0),
    )
    .unwrap();
    let fine = strips(&fine).unwrap();
    assert_eq!(fine.len(), board.strips.len());
    for (coarse, fine) in board.strips.iter().zip(&fine) {
        assert!(
            (coarse.length - fine.length).abs() < 0.1,
            "{}: {} and {}",
            coarse.course,
            coarse.length,
            fine.length
        );
    }
}

/// Strips are closed solids; port mirrors starboard; the volume is the profile's area times the length within a percent.
#[test]
fn strips_are_solids() {
    for name in ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"] {
        let board = example(name);
        let solids = strip_solids(&board).unwrap();
        assert_eq!(solids.len(), 2 * board.strips.len());
        for pair in solids.chunks(2) {
            for mesh in pair {
                let report = mesh.check(1e-6);
                assert!(report.is_sound(), "{name}, {}: {report}", mesh.name);
            }
            assert!((pair[0].volume() - pair[1].volume()).abs() < 1e-6 * pair[0].volume());
        }
        for (strip, mesh) in board.strips.iter().zip(solids.iter().step_by(2)) {
            let c = &board.design.construction;
            if strip.course < c.starter.count && c.starter.arrangement == Arrangement::SideBySide {
                let want = c.starter.size.powi(2) * strip.length;
                assert!(
                    (mesh.volume() / want - 1.0).abs() < 0.01,
                    "{name}, {}",
                    mesh.name
                );
            }
        }
    }
}
