//! The example boards: the shell keeps what the design gives, and is fair.

#![allow(clippy::panic)]

use std::f64::consts::PI;

use boardwright::design::{Design, OutlineBody, Rocker, parse};
use boardwright::geometry::curve::Vector;
use boardwright::shape::{BoardFamily, DEFAULT_TOLERANCE, Mark, Shell, loft, measures};

/// Bound for the silhouette, and the loft's against its sections, mm.
const BOUND: f64 = 0.005;

struct Example {
    name: &'static str,
    design: Design,
    family: BoardFamily,
    shell: Shell,
}

fn examples() -> Vec<Example> {
    [
        (
            "round tail",
            include_str!("../../examples/round-tail-6ft4.toml"),
        ),
        (
            "noserider",
            include_str!("../../examples/noserider-9ft4.toml"),
        ),
        ("twin", include_str!("../../examples/twin-5ft8.toml")),
    ]
    .map(|(name, text)| {
        let design = parse(text, name).expect("parses");
        let family = BoardFamily::new(&design).expect("draws");
        let shell = loft(&family, DEFAULT_TOLERANCE).expect("lofts");
        Example {
            name,
            design,
            family,
            shell,
        }
    })
    .into()
}

/// Every apex point lies on the outline, and every outline point on the apex line: dense all along and in the last millimetre of
/// nose and tail, by distance to the curve.
#[test]
fn the_silhouette_is_the_outline() {
    for e in examples() {
        let outline = e.family.plan().curve();
        let length = e.design.length;
        let mut worst = (0.0_f64, 0.0);
        let mut check = |x: f64| {
            let (patch, u) = e.shell.locate(x);
            let p = e.shell.patches[patch].point(u, e.shell.apex);
            let miss = outline.closest(Vector::<2>::new(p.x, p.y)).distance;
            if miss > worst.0 {
                worst = (miss, x);
            }
        };
        for i in 0..=2000 {
            check(length * (1.0 - (PI * f64::from(i) / 2000.0).cos()) / 2.0);
        }
        for i in 0..=60 {
            // From a millimetre down to a nanometre from the tips.
            let near = 10f64.powf(-f64::from(i) * 0.15);
            check(near);
            check(length - near);
        }
        assert!(
            worst.0 <= BOUND,
            "{}: {:.5} mm at {:.1}",
            e.name,
            worst.0,
            worst.1
        );
        // The half-width itself wherever the outline is not upright.
        for i in 1..1000 {
            let x = length * f64::from(i) / 1000.0;
            let miss = (e.shell.half_width(x) - e.family.plan().half_width(x)).abs();
            let [_, d] =
                outline.derivatives::<2>(e.family.plan().parameter(e.family.plan().locate(x)));
            assert!(miss * d.x / d.norm() <= BOUND, "{}: {miss} at {x}", e.name);
        }
    }
}

/// Between its rows and knots the loft keeps to the exact sections, by distance at equal parameters.
#[test]
fn the_loft_keeps_to_its_sections() {
    for e in examples() {
        let mut worst = (0.0_f64, 0.0, 0.0);
        for i in 1..400 {
            // Irrational steps fall on no row.
            let x = e.design.length * (f64::from(i) * 0.618_033_988_75).fract();
            let (patch, u) = e.shell.locate(x);
            let section = e.family.section_at(x);
            for k in 0..=160 {
                let v = f64::from(k) / 160.0;
                let p = e.shell.patches[patch].point(u, v);
                let want = section.point(v);
                let miss = (Vector::<2>::new(p.y, p.z) - want).norm();
                if miss > worst.0 {
                    worst = (miss, x, v);
                }
            }
        }
        assert!(worst.0 <= BOUND, "{}: {worst:?}", e.name);
    }
}

/// What the maker wrote is what the shell measures.
#[test]
fn given_measures_are_met() {
    for e in examples() {
        let near = |what: &str, got: f64, want: f64, bound: f64| {
            assert!(
                (got - want).abs() <= bound,
                "{} {what}: {got} against {want}",
                e.name
            );
        };
        let m = measures(&e.shell).expect("measures");
        near("length", m.length, e.design.length, 1e-6);
        match &e.design.outline.body {
            OutlineBody::Points(points) => {
                for p in points {
                    near("half-width", e.shell.half_width(p[0]), p[1], BOUND);
                }
            }
            OutlineBody::Measures {
                width,
                wide_point,
                nose_width,
                tail_width,
            } => {
                near("width", m.width, *width, 2.0 * BOUND);
                near("wide point", m.wide_point, *wide_point, 1.0);
                near("nose", m.nose_width, *nose_width, 2.0 * BOUND);
                near("tail", m.tail_width, *tail_width, 2.0 * BOUND);
            }
        }
        let ends = [0.0, e.design.length];
        match &e.design.rocker {
            Rocker::Points(points) => {
                for p in points {
                    near("rocker", e.shell.centre_heights(p[0])[0], p[1], 0.01);
                }
            }
            Rocker::Measures { nose, tail, .. } => {
                near("nose rocker", m.nose_rocker, *nose, 0.01);
                near("tail rocker", m.tail_rocker, *tail, 0.01);
            }
        }
        let points = e.design.foil.points(e.design.length);
        for [x, thickness] in points {
            // At an end the thickness is that before the tip rounds off; in a cleft there is no centre to measure.
            let cleft = e.family.plan().cleft_depth().unwrap_or(0.0);
            if x > ends[0] + cleft.max(1.0) && x < ends[1] - 1.0 {
                near("thickness", calipers(&e.shell, x), thickness, 0.01);
            }
        }
    }
}

/// Thickness square to the bottom found by bisection along the bottom's normal, on dense independent centrelines.
fn calipers(shell: &Shell, x: f64) -> f64 {
    let bottom = |x: f64| shell.centre_heights(x)[0];
    let h = 0.01;
    let slope = (bottom(x + h) - bottom(x - h)) / (2.0 * h);
    let (mut low, mut high) = (0.0, 300.0);
    for _ in 0..80 {
        let t = (low + high) / 2.0;
        let (px, pz) = (
            x - slope / slope.hypot(1.0) * t,
            bottom(x) + t / slope.hypot(1.0),
        );
        if pz < shell.centre_heights(px)[1] {
            low = t
        } else {
            high = t
        }
    }
    (low + high) / 2.0
}

const MICROMETRE: f64 = 1e-3;

/// Normals are finite and unit everywhere and look outward, the poles included. Nearer to a pole than a micrometre, but not on it, the
/// loft's own error has the say.
#[test]
fn normals_are_sound_to_the_poles() {
    for e in examples() {
        for patch in &e.shell.patches {
            let (a, b) = patch.u().domain();
            for i in 0..=60 {
                let t = (1.0 - (PI * f64::from(i) / 60.0).cos()) / 2.0;
                for u in [
                    a + (b - a) * t,
                    a + (b - a) * t.powi(4),
                    b - (b - a) * t.powi(4),
                ] {
                    for k in 0..=50 {
                        let v = f64::from(k) / 50.0;
                        let normal = patch.normal(u, v);
                        let pole =
                            [a, b].map(|end| (patch.point(u, v) - patch.point(end, v)).norm());
                        if u != a && u != b && pole.iter().any(|d| *d < MICROMETRE) {
                            continue;
                        }
                        let n = normal.unwrap_or_else(|| panic!("{}: none at {u}, {v}", e.name));
                        assert!((n.norm() - 1.0).abs() < 1e-9, "{}: {n} at {u}, {v}", e.name);
                        if v < 0.35 {
                            assert!(n.z < 0.3, "{}: bottom looks {n} at {u}, {v}", e.name);
                        }
                        if v > 0.65 {
                            assert!(n.z > -0.3, "{}: deck looks {n} at {u}, {v}", e.name);
                        }
                    }
                }
            }
        }
    }
}

/// The marks are knots of full multiplicity along the whole board, and the apex is upright to 0.1°: an exact silhouette.
#[test]
fn creases_are_kept_and_the_apex_is_upright() {
    for e in examples() {
        for patch in &e.shell.patches {
            for mark in &Mark::ALL[1..4] {
                assert_eq!(patch.v().multiplicity(mark.v()), 3, "{mark:?}");
            }
            let (a, b) = patch.u().domain();
            for i in 1..200 {
                let u = a + (b - a) * f64::from(i) / 200.0;
                for jet in [
                    patch.jet(u, Mark::Apex.v()),
                    patch.jet_below(u, Mark::Apex.v()),
                ] {
                    let lean = (jet.dv.y / jet.dv.z).abs();
                    // Where the section has all but shrunk away the loft's 0.005 mm turn it more.
                    let height = jet.dv.z * 0.12;
                    assert!(lean < 1.7e-3 + 0.02 / height, "{}: {lean} at {u}", e.name);
                }
            }
        }
    }
}

/// The cleft's wall meets the patch along both lines and closes on the centreline.
#[test]
fn the_swallow_s_cleft_closes() {
    let [_, _, twin] = &examples()[..] else {
        panic!("three examples")
    };
    let wall = twin.shell.wall.as_ref().expect("a wall");
    let patch = &twin.shell.patches[0];
    let (a, b) = patch.u().domain();
    let depth = twin.family.plan().cleft_depth().expect("a cleft");
    for i in 0..=100 {
        let u = a + (b - a) * f64::from(i) / 100.0;
        assert!((wall.point(u, 0.0) - patch.point(u, 1.0)).norm() < 1e-9);
        assert!((wall.point(u, 1.0) - patch.point(u, 0.0)).norm() < 1e-9);
        let x = patch.point(u, 0.0).x;
        for v in [0.0, 1.0] {
            let miss = patch.point(u, v).y - twin.family.plan().inner(x);
            assert!(miss.abs() < BOUND, "{miss} at {x}");
        }
    }
    for v in [0.0, 1.0] {
        let p = patch.point(b, v);
        assert!((p.x - depth).abs() < 1e-6 && p.y.abs() < 1e-6, "{p}");
        assert!((twin.shell.patches[1].point(b, v) - p).norm() < 1e-9);
    }
}

fn sign_changes(values: impl Iterator<Item = f64>, floor: f64) -> usize {
    let signs: Vec<bool> = values
        .filter(|v| v.abs() > floor)
        .map(|v| v > 0.0)
        .collect();
    signs.windows(2).filter(|w| w[0] != w[1]).count()
}

/// A batten's line has no inflection that its points do not ask for: a pointed nose may hollow once near the tip, nothing else.
#[test]
fn outlines_are_fair() {
    for e in examples() {
        let outline = e.family.plan().curve();
        let inflections = outline.inflections();
        let places: Vec<f64> = inflections.iter().map(|s| outline.point(*s).x).collect();
        assert!(places.is_empty(), "{}: inflections at {places:.0?}", e.name);
        // Curvature rises and falls smoothly: few extrema.
        let extrema = outline.curvature_extrema();
        let places: Vec<f64> = extrema.iter().map(|s| outline.point(*s).x).collect();
        assert!(
            places.len() <= 6,
            "{}: curvature turns at {places:.0?}",
            e.name
        );
    }
}

/// The section area curve swells once between hollows towards the ends, and the apex line is as smooth in side view: no more
/// turns of their second differences than that, but for the last fiftieth where the tips round off.
#[test]
fn section_areas_and_the_apex_line_are_smooth() {
    for e in examples() {
        let (tail, nose) = e.shell.x_range();
        let cleft = e.family.plan().cleft_depth().unwrap_or(0.0);
        let n = 200;
        let x = |i: usize| tail + cleft + (nose - tail - cleft) * i as f64 / n as f64;
        let areas: Vec<f64> = (0..=n)
            .map(|i| e.shell.section_area(x(i)).expect("section"))
            .collect();
        let second = areas[4..n - 3].windows(3).map(|w| w[0] - 2.0 * w[1] + w[2]);
        let greatest = areas.iter().copied().fold(0.0, f64::max);
        let turns = sign_changes(second, 1e-6 * greatest);
        assert!(turns <= 4, "{}: section areas turn {turns} times", e.name);
        let heights: Vec<f64> = (0..=n)
            .map(|i| {
                let (patch, u) = e.shell.locate(x(i));
                e.shell.patches[patch].point(u, e.shell.apex).z
            })
            .collect();
        let second = heights[5..n - 5]
            .windows(3)
            .map(|w| w[0] - 2.0 * w[1] + w[2]);
        let turns = sign_changes(second, 2e-3);
        assert!(turns <= 4, "{}: the apex line turns {turns} times", e.name);
    }
}

/// A tenth of the tolerance changes the volume by far less than the tolerance over the whole surface would.
#[test]
fn volume_converges_with_tolerance() {
    for e in examples() {
        let half = |tolerance: f64| {
            let shell = loft(&e.family, tolerance).expect("lofts");
            shell.half_integrals().expect("integrals")
        };
        let fine = half(0.0005);
        for tolerance in [0.05, 0.005] {
            let miss = (half(tolerance).volume - fine.volume).abs();
            assert!(
                miss < 0.02 * tolerance * fine.area,
                "{}: {miss} mm³",
                e.name
            );
            assert!(miss < 1e-5 * fine.volume, "{}: {miss} mm³", e.name);
        }
    }
}
