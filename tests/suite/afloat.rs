//! Hydrostatics against closed forms.

#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::solids;
use std::f64::consts::PI;

use boardwright::board::afloat::{AfloatError, Hull, Load, Water, Waterline, afloat};
use boardwright::design;
use boardwright::shape::{DEFAULT_TOLERANCE, Shell, loft, measures, shell};
use proptest::prelude::*;
use solids::{Block, Superellipsoid, Wigley};

const BOX: [f64; 3] = [1000.0, 400.0, 120.0];

fn close(got: f64, want: f64, share: f64) {
    assert!(
        (got - want).abs() <= share * want.abs().max(1e-9),
        "{got} against {want}"
    );
}

/// A load that lies plumb over (or under) a centre of buoyancy by `rise` when the water slopes by `slope`.
fn plumb(volume: f64, buoyancy: [f64; 2], slope: f64, rise: f64, water: Water) -> Load {
    Load {
        mass: volume * 1e-9 * water.density(),
        centre: [buoyancy[0] - slope * rise, buoyancy[1] + rise],
    }
}

fn check_box(shell: &Shell, height: f64, slope: f64) {
    let [l, b, _] = BOX;
    // Depth t(x) = height + slope x: a trapezium.
    let volume = b * (height * l + slope * l * l / 2.0);
    let x = b * (height * l * l / 2.0 + slope * l.powi(3) / 3.0) / volume;
    let z = b / 2.0
        * (height * height * l + height * slope * l * l + slope * slope * l.powi(3) / 3.0)
        / volume;
    let got = afloat(
        shell,
        plumb(volume, [x, z], slope, 15.0, Water::Sea),
        Water::Sea,
    )
    .unwrap();
    assert!((got.water.height - height).abs() < 1e-7, "{got:?}");
    assert!((got.water.slope - slope).abs() < 1e-9, "{got:?}");
    let steep = slope.hypot(1.0);
    close(got.displaced, volume, 1e-10);
    close(got.centre_of_buoyancy[0], x, 1e-10);
    close(got.centre_of_buoyancy[1], z, 1e-9);
    close(got.waterplane, l * b * steep, 1e-10);
    close(got.centre_of_flotation, l / 2.0, 1e-10);
    close(
        got.transverse_radius,
        l * b.powi(3) / 12.0 * steep / volume,
        1e-10,
    );
    close(
        got.lengthwise_radius,
        b * l.powi(3) / 12.0 * steep.powi(3) / volume,
        1e-9,
    );
    close(
        got.transverse_height,
        got.transverse_radius - 15.0 * steep,
        1e-9,
    );
    close(got.trim, slope.atan(), 1e-6);
    let sides = 2.0 * (height * l + slope * l * l / 2.0);
    let ends = b * (2.0 * height + slope * l);
    close(got.wetted, l * b + sides + ends, 1e-9);
    // Deepest at the end, past the last section looked at by a share of a span.
    let deepest = (height + (slope * l).max(0.0)) / steep;
    assert!(got.draught <= deepest + 1e-9 && got.draught > deepest - 0.05 * l * slope.abs() - 1e-6);
}

#[test]
fn a_box_floats_as_archimedes_has_it() {
    let shell = loft(&Block(BOX), DEFAULT_TOLERANCE).unwrap();
    // Half the height is where the loft may have a joint.
    for (height, slope) in [(60.0, 0.0), (40.0, 0.0), (30.0, 0.05), (70.0, -0.04)] {
        check_box(&shell, height, slope);
    }
    let load = Load {
        mass: 20.0,
        centre: [500.0, 60.0],
    };
    for water in [Water::Sea, Water::Fresh, Water::Density(1000.0)] {
        let got = afloat(&shell, load, water).unwrap();
        close(got.draught, 20.0 / (water.density() * 0.4) * 1e3, 1e-9);
    }
}

/// A plane cuts an ellipsoid as it cuts the unit sphere it is the image of: with the water at distance d from the centre, the sphere's
/// volume is π(2/3 + d − d³/3) and its moment −π(1 − d²)²/4.
#[test]
fn an_ellipsoid_floats_as_the_sphere_it_comes_from() {
    let [a, b, c] = [990.0, 255.0, 32.0];
    let shell = loft(
        &Superellipsoid {
            semi: [a, b, c],
            exponent: 2.0,
        },
        DEFAULT_TOLERANCE,
    )
    .unwrap();
    for (height, slope) in [(0.0, 0.0), (-12.0, 0.0), (-20.0, 0.01), (14.0, -0.02)] {
        let norm = (slope * a).hypot(c);
        let d = (height + slope * a) / norm;
        let unit = 2.0 / 3.0 + d - d.powi(3) / 3.0;
        let volume = PI * a * b * c * unit;
        let lever = -(1.0 - d * d).powi(2) / 4.0 / unit;
        let buoyancy = [a - a * lever * slope * a / norm, c * lever * c / norm];
        let load = plumb(volume, buoyancy, slope, 25.0, Water::Fresh);
        let got = afloat(&shell, load, Water::Fresh).unwrap();
        assert!((got.water.height - height).abs() < 5e-3, "{got:?}");
        assert!((got.water.slope - slope).abs() < 5e-6, "{got:?}");
        close(got.centre_of_buoyancy[0], buoyancy[0], 1e-5);
        close(got.centre_of_buoyancy[1], buoyancy[1], 1e-4);
        let steep = slope.hypot(1.0);
        let plane = PI * a * b * (1.0 - d * d) * c / norm;
        close(got.waterplane, plane * steep, 1e-4);
        // An ellipse's second moment is a quarter of its area by the square of its half-breadth.
        close(
            got.transverse_radius,
            plane * b * b * (1.0 - d * d) / 4.0 * steep / volume,
            2e-4,
        );
        assert!(
            (got.draught - (height + slope * a + norm) / steep).abs() < 0.01,
            "{got:?}"
        );
    }
}

/// Half an ellipsoid's surface is wetted when it floats to its middle (its whole by quadrature, see `shell_closed_forms`).
#[test]
fn half_an_ellipsoid_is_wet() {
    const AREA: f64 = 1_625_986.726_856_42;
    let semi = [990.0, 255.0, 32.0];
    let shell = loft(
        &Superellipsoid {
            semi,
            exponent: 2.0,
        },
        DEFAULT_TOLERANCE,
    )
    .unwrap();
    let volume = 2.0 / 3.0 * PI * semi.iter().product::<f64>();
    let load = plumb(volume, [990.0, -12.0], 0.0, 0.0, Water::Sea);
    close(
        afloat(&shell, load, Water::Sea).unwrap().wetted,
        AREA / 2.0,
        1e-4,
    );
}

/// V = 4/9 LBT, A = 2/3 LB, KB = 5T/8, BM_T = 3/35 B²/T, BM_L = 3/40 L²/T.
#[test]
fn the_parabolic_hull_has_its_hydrostatics() {
    let (length, beam, draught) = (2000.0, 500.0, 125.0);
    let shell = loft(
        &Wigley {
            length,
            beam,
            draught,
        },
        DEFAULT_TOLERANCE,
    )
    .unwrap();
    let hull = Hull::new(&shell).unwrap();
    let under = hull.immersed(&Waterline {
        height: 0.0,
        slope: 0.0,
    });
    close(under.volume, 4.0 / 9.0 * length * beam * draught, 1e-10);
    close(under.plane, 2.0 / 3.0 * length * beam, 1e-10);
    close(
        draught + under.moment[1] / under.volume,
        5.0 / 8.0 * draught,
        1e-10,
    );
    close(
        under.plane_across / under.volume,
        3.0 / 35.0 * beam * beam / draught,
        1e-10,
    );
    let centred = under.plane_second - under.plane_moment.powi(2) / under.plane;
    close(
        centred / under.volume,
        3.0 / 40.0 * length * length / draught,
        1e-9,
    );
}

#[test]
fn what_is_too_heavy_sinks_and_says_by_how_much() {
    let shell = loft(&Block(BOX), DEFAULT_TOLERANCE).unwrap();
    let load = Load {
        mass: 50.0,
        centre: [500.0, 60.0],
    };
    let error = afloat(&shell, load, Water::Density(1000.0)).unwrap_err();
    let AfloatError::Sinks {
        carries, litres, ..
    } = error.clone()
    else {
        panic!("{error}");
    };
    close(carries, 48.0, 1e-9);
    close(litres, 2.0, 1e-7);
    assert!(error.to_string().contains("take off 2.00 kg"), "{error}");
}

#[test]
fn what_cannot_be_is_refused() {
    let shell = loft(&Block(BOX), DEFAULT_TOLERANCE).unwrap();
    let load = |mass, x, z| Load {
        mass,
        centre: [x, z],
    };
    for bad in [
        load(0.0, 500.0, 60.0),
        load(f64::NAN, 500.0, 60.0),
        load(9.0, f64::NAN, 0.0),
    ] {
        assert!(matches!(
            afloat(&shell, bad, Water::Sea),
            Err(AfloatError::Given { .. })
        ));
    }
    let far = afloat(&shell, load(9.0, 5000.0, 60.0), Water::Sea);
    assert!(matches!(far, Err(AfloatError::NoTrim { .. })), "{far:?}");
    // A mast so high that the box turns over lengthwise.
    let high = afloat(&shell, load(20.0, 480.0, 9000.0), Water::Sea);
    assert!(matches!(high, Err(AfloatError::NoTrim { .. })), "{high:?}");
    let dry = afloat(&shell, load(9.0, 500.0, 60.0), Water::Density(-1.0));
    assert!(matches!(dry, Err(AfloatError::Given { .. })));
}

fn example(name: &str) -> Shell {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    shell(&design::parse(&text, &file).unwrap(), DEFAULT_TOLERANCE).unwrap()
}

/// The hull's volume is the shell's, which is found by another integral; an empty board floats high, a ridden one may sink.
#[test]
fn the_examples_float() {
    for name in ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"] {
        let shell = example(name);
        let known = measures(&shell).unwrap();
        let hull = Hull::new(&shell).unwrap();
        close(hull.volume, known.volume, 1e-9);
        let [x, z] = known.centre_of_volume;
        let board = Load {
            mass: 6.0,
            centre: [x, z],
        };
        let empty = afloat(&shell, board, Water::Sea).unwrap();
        assert!(
            empty.trim.abs() < 0.1 && empty.transverse_height > 0.0,
            "{name} {empty:?}"
        );
        let child = Load {
            mass: 22.0,
            centre: [x, z + 300.0],
        };
        let ridden = afloat(&shell, board.with(child), Water::Fresh).unwrap();
        assert!(ridden.draught > empty.draught && ridden.reserve < empty.reserve);
        let man = Load {
            mass: 110.0,
            centre: [x, z + 900.0],
        };
        assert!(matches!(
            afloat(&shell, board.with(man), Water::Sea),
            Err(AfloatError::Sinks { .. })
        ));
        println!("{name}: {empty:?}\n  {ridden:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever floats balances: the displacement is the load's, and the centre of buoyancy lies plumb under the load's centre.
    #[test]
    fn weight_and_buoyancy_balance(mass in 2.0..26.0_f64, shift in -120.0..120.0_f64, high in -50.0..250.0_f64) {
        static SHELL: std::sync::OnceLock<Shell> = std::sync::OnceLock::new();
        let shell = SHELL.get_or_init(|| example("twin-5ft8"));
        let load = Load { mass, centre: [840.0 + shift, high] };
        match afloat(shell, load, Water::Sea) {
            Ok(got) => {
                close(got.displaced, mass / 1025.976 * 1e9, 1e-9);
                let [x, z] = got.centre_of_buoyancy;
                let off = (load.centre[0] - x) + got.water.slope * (load.centre[1] - z);
                prop_assert!(off.abs() < 1e-6, "{got:?}");
                prop_assert!(got.lengthwise_height > 0.0);
            }
            Err(AfloatError::Sinks { carries, .. }) => prop_assert!(mass >= carries),
            Err(AfloatError::NoTrim { .. }) => prop_assert!(mass < 6.0 || shift.abs() > 60.0 || high > 100.0),
            Err(other) => return Err(TestCaseError::fail(other.to_string())),
        }
    }
}
