//! Wood against published numbers: the moisture table, shrinkage against dimensional change, strengths, torsion of bars.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::timber::{
    Air, Grain, Limits, Shrinkage, Wood, board_density, change_coefficient, equilibrium_moisture,
    find, green_to_moisture, movement, passing, strain, table, torsion_bar, twist_strain,
};
use proptest::prelude::*;

/// Handbook Table 4-2 (FPL-GTR-190): 18 temperatures in °F by 19 humidities.
#[test]
fn every_cell_of_the_moisture_table() {
    let mut worst = 0.0f64;
    let mut cells = 0;
    for line in include_str!("../fixtures/emc_table_4_2.txt").lines() {
        let numbers: Vec<f64> = line
            .split_whitespace()
            .filter_map(|w| w.parse().ok())
            .collect();
        if line.starts_with('#') || numbers.len() != 20 {
            continue;
        }
        let temperature = (numbers[0] - 32.0) / 1.8;
        for (i, printed) in numbers[1..].iter().enumerate() {
            let air = Air {
                temperature,
                humidity: 0.05 * (i + 1) as f64,
            };
            worst = worst.max((equilibrium_moisture(air).unwrap() - printed).abs());
            cells += 1;
        }
    }
    assert_eq!(cells, 342);
    // The equation's coefficients are rounded; an independent calculation found 0.0556.
    assert!((worst - 0.0556).abs() < 1e-4, "{worst}");
}

#[test]
fn moisture_at_points_worked_elsewhere() {
    for (temperature, humidity, expected) in [
        (20.0, 0.50, 9.271),
        (20.0, 0.65, 11.996),
        (20.0, 0.75, 14.451),
        (20.0, 0.85, 18.002),
        (20.0, 0.95, 23.942),
        (5.0, 0.85, 18.470),
    ] {
        let got = equilibrium_moisture(Air {
            temperature,
            humidity,
        })
        .unwrap();
        assert!((got - expected).abs() < 6e-4, "{got} against {expected}");
    }
    assert!(
        equilibrium_moisture(Air {
            temperature: 20.0,
            humidity: 1.01
        })
        .is_err()
    );
    assert!(
        equilibrium_moisture(Air {
            temperature: f64::NAN,
            humidity: 0.5
        })
        .is_err()
    );
}

/// Two tables of one book, 4-3 and 13-5, must tie together by the relation used here.
#[test]
fn dimensional_change_follows_from_shrinkage() {
    let mut pairs = 0;
    for line in include_str!("../fixtures/wood_shrinkage.csv")
        .lines()
        .skip(3)
    {
        let n: Vec<f64> = line
            .split(',')
            .skip(1)
            .map(|w| w.parse().unwrap())
            .collect();
        let shrinkage = Shrinkage {
            radial: n[0],
            tangential: n[1],
            volumetric: Some(n[2]),
            fibre_saturation: n[7],
        };
        for (grain, printed) in [(Grain::Radial, n[4]), (Grain::Tangential, n[5])] {
            let c = change_coefficient(shrinkage, grain);
            assert!((c - printed).abs() <= 5.0e-6 + 1e-12, "{line}: {c}");
            pairs += 1;
        }
    }
    assert_eq!(pairs, 28);
}

/// An 8 in flatsawn board of red alder over 6 % moisture moves 0.1248 in at C = 0.0026 (a published worked example, C rounded).
#[test]
fn movement_of_the_alder_board() {
    let alder = Shrinkage {
        radial: 4.4,
        tangential: 7.3,
        volumetric: None,
        fibre_saturation: 30.0,
    };
    let inches = 8.0 * change_coefficient(alder, Grain::Tangential) * 6.0;
    assert!((inches - 0.1248).abs() < 0.0025, "{inches}");
}

#[test]
fn movement_has_a_sign_and_a_range() {
    let cedar = find("Western Redcedar").unwrap();
    let dry = Air {
        temperature: 20.0,
        humidity: 0.45,
    };
    let damp = Air {
        temperature: 20.0,
        humidity: 0.65,
    };
    let swell = movement(cedar, 400.0, Grain::Tangential, dry, damp).unwrap();
    let shrink = movement(cedar, 400.0, Grain::Tangential, damp, dry).unwrap();
    assert!(swell.change > 0.0 && (swell.change + shrink.change).abs() < 1e-12);
    assert!(swell.in_range);
    let wet = Air {
        temperature: 20.0,
        humidity: 0.95,
    };
    assert!(
        !movement(cedar, 400.0, Grain::Tangential, dry, wet)
            .unwrap()
            .in_range
    );
    assert!(movement(find("paulownia").unwrap(), 1.0, Grain::Radial, dry, damp).is_err());
}

/// Densities at 12 %: the handbook's worked example and the rest by its equation.
#[test]
fn densities() {
    assert!((board_density(0.4, 12.0) - 448.0).abs() < 1e-9);
    for (name, expected) in [
        ("western redcedar", 358.4),
        ("yellow-poplar", 470.4),
        ("sitka spruce", 448.0),
        ("american basswood", 414.4),
    ] {
        let got = find(name).unwrap().density(12.0).unwrap();
        assert!((got - expected).abs() < 1e-9, "{name}: {got}");
    }
    let balsa = find("balsa").unwrap();
    assert!((balsa.gravity_at_twelve() - 0.1642).abs() < 5e-5);
    assert!((balsa.density(12.0).unwrap() - 183.9).abs() < 0.05);
    assert!(balsa.density(31.0).is_err());
}

/// The table's rows against the transcription committed beside it, converted independently from psi.
#[test]
fn strengths_against_the_transcription() {
    let json: serde_json::Value =
        serde_json::from_str(include_str!("../fixtures/wood_species.json")).unwrap();
    for (key, name) in [
        ("western_redcedar_us", "western redcedar"),
        ("western_redcedar_canada", "western redcedar (canada)"),
        ("northern_white_cedar", "northern white-cedar"),
        ("yellow_poplar", "yellow-poplar"),
        ("sitka_spruce", "sitka spruce"),
        ("basswood_american", "american basswood"),
        ("balsa", "balsa"),
        ("douglas_fir_coast", "douglas-fir, coast"),
        ("redwood_old_growth", "redwood, old growth"),
        ("redwood_young_growth", "redwood, young growth"),
    ] {
        let row = &json[key]["12"];
        let species = find(name).unwrap();
        let number = |k: &str| row[k].as_f64();
        let (rupture, modulus) = match (number("mor"), number("mor_kpa")) {
            (Some(psi), _) => (
                psi * 4.4482216 / 645.16,
                number("moe").unwrap() * 1e6 * 4.4482216 / 645.16,
            ),
            (_, Some(kpa)) => (kpa / 1000.0, number("moe_mpa").unwrap()),
            _ => panic!("{key} has no strength"),
        };
        assert!(
            (species.rupture - rupture).abs() < 1e-3,
            "{name} {} {rupture}",
            species.rupture
        );
        assert!((species.modulus - modulus).abs() < 0.5, "{name}");
        if let Some(psi) = number("shear") {
            assert!(
                (species.shear.unwrap() - psi * 6.894757e-3).abs() < 1e-3,
                "{name}"
            );
        }
        let gravity = number("sg").or(json[key]["green"]["sg"].as_f64()).unwrap();
        assert_eq!(species.specific_gravity, gravity, "{name}");
        // The centre-loaded modulus is 10 % short (footnote of the tables).
        assert!((species.true_modulus() / species.modulus - 1.1).abs() < 1e-12);
    }
    assert!(json["paulownia"].is_null());
}

#[test]
fn every_species_is_sound_and_says_where_it_is_from() {
    for species in table() {
        species.check().unwrap();
        assert!(!species.source.is_empty());
        assert_eq!(find(&species.name.to_uppercase()).unwrap(), species);
    }
    assert!(
        find("redcedar")
            .unwrap_err()
            .to_string()
            .contains("western redcedar")
    );
    assert!(find("").is_err());
}

/// R/t at which clear wood breaks, E/(2 MOR) with the tabulated E.
#[test]
fn breaking_radius_over_thickness() {
    for (name, expected) in [
        ("western redcedar", 74.0),
        ("sitka spruce", 77.0),
        ("yellow-poplar", 78.0),
        ("american basswood", 84.0),
        ("balsa", 78.0),
        ("redwood, old growth", 67.0),
    ] {
        let s = find(name).unwrap();
        let limit = Limits::of(s, 1.0).unwrap();
        let ratio = 1.0 / (2.0 * 1.1 * limit.bend.clear_wood);
        assert!((ratio - expected).abs() < 0.6, "{name}: {ratio}");
        let glulam = if s.wood == Wood::Hardwood {
            0.01
        } else {
            0.008
        };
        assert_eq!(limit.bend.glulam_ratio, glulam);
        // Glulam's rule is stricter than breaking for every species here.
        assert!(strain(glulam, 1.0) < limit.bend.clear_wood);
    }
}

/// Published α and β (β at 1.3 and 1.8 in one published table are truncated: hold to 0.002) and the
/// same by an independent exact series; α of the square by hand, four terms: 0.140577 / 0.675314.
#[test]
fn torsion_of_rectangles() {
    let exact = [
        (1.0, 0.140577, 0.208165),
        (1.5, 0.195763, 0.230967),
        (2.0, 0.228682, 0.245878),
        (3.0, 0.263317, 0.267209),
        (4.0, 0.280813, 0.281666),
        (10.0, 0.312328, 0.312328),
    ];
    for (ratio, beta, alpha) in exact {
        let bar = torsion_bar(1.0, ratio).unwrap();
        assert!(
            (bar.beta - beta).abs() < 3e-6 && (bar.alpha - alpha).abs() < 3e-6,
            "{ratio} {bar:?}"
        );
        assert_eq!(bar, torsion_bar(ratio, 1.0).unwrap());
    }
    let printed_beta = [
        (1.0, 0.141),
        (1.1, 0.154),
        (1.2, 0.166),
        (1.3, 0.175),
        (1.4, 0.186),
        (1.5, 0.196),
        (1.8, 0.216),
        (2.0, 0.229),
        (2.3, 0.242),
        (2.5, 0.249),
        (2.8, 0.258),
        (3.0, 0.263),
        (4.0, 0.281),
        (5.0, 0.291),
        (7.5, 0.305),
        (10.0, 0.312),
    ];
    let beta = |ratio: f64| torsion_bar(ratio, 1.0).unwrap().beta;
    // 1.3 is off by 0.00206 in print: the series gives 0.17706.
    assert!(
        printed_beta
            .iter()
            .all(|&(r, b)| (beta(r) - b).abs() < 0.0021)
    );
    let printed_alpha = [
        (1.0, 0.208),
        (1.5, 0.231),
        (2.0, 0.246),
        (3.0, 0.267),
        (4.0, 0.282),
    ];
    assert!(
        printed_alpha
            .iter()
            .all(|&(r, a)| (torsion_bar(r, 1.0).unwrap().alpha - a).abs() < 6e-4)
    );
    assert!((beta(1e5) - 1.0 / 3.0).abs() < 1e-5);
    assert!(torsion_bar(0.0, 1.0).is_err() && torsion_bar(1.0, f64::NAN).is_err());
}

#[test]
fn species_that_pass_are_those_whose_limit_is_not_passed() {
    for strain in [0.0, 0.003, 0.0045, 0.006, 0.02] {
        let able = passing(strain, 0.75).unwrap();
        let wanted = table()
            .iter()
            .filter(|s| strain <= 0.75 * s.rupture / s.true_modulus())
            .count();
        assert_eq!(able.len(), wanted);
    }
    assert!(passing(0.02, 0.75).unwrap().is_empty());
    assert!(passing(0.001, 1.5).is_err());
}

proptest! {
    #[test]
    fn moisture_rises_with_humidity(t in -1.0..90.0f64, h in 0.0..0.99f64) {
        let at = |humidity| equilibrium_moisture(Air { temperature: t, humidity }).unwrap();
        prop_assert!(at(h + 0.01) > at(h));
    }

    #[test]
    fn gravity_grows_as_wood_dries(basic in 0.1..0.9f64, m in 0.0..29.0f64) {
        prop_assert!(green_to_moisture(basic, m) > green_to_moisture(basic, m + 1.0));
        prop_assert!((green_to_moisture(basic, 30.0) - basic).abs() < 1e-15);
    }

    #[test]
    fn flat_bars_shear_by_thickness_times_twist(t in 1.0..10.0f64, ratio in 4.0..40.0f64, rate in 1e-6..1e-3f64) {
        // For b ≫ t the strain tends to t φ', from below; at b/t = 4 it is 0.3 % short.
        let strain = twist_strain(t * ratio, t, rate).unwrap() / (t * rate);
        prop_assert!((0.996..=1.0 + 1e-12).contains(&strain), "{}", strain);
    }

    #[test]
    fn utilisation_is_linear_in_curvature(depth in 1.0..20.0f64, k in 1e-5..1e-2f64) {
        use boardwright::design::timber::BendKind::EasyWay;
        let limits = Limits::of(find("sitka spruce").unwrap(), 0.75).unwrap();
        let one = limits.bending(EasyWay, depth, k);
        let two = limits.bending(EasyWay, depth, -2.0 * k);
        prop_assert!((two.ratio - 2.0 * one.ratio).abs() < 1e-12 * two.ratio);
        let edge = limits.bending(EasyWay, limits.greatest_depth(k), k);
        prop_assert!((edge.ratio - 1.0).abs() < 1e-12);
    }
}
