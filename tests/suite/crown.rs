//! Decks from flat to domed: the lofted section has the crown that was entered, and every plausible board lofts.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::{Design, parse, place_breaks};
use boardwright::shape::{DEFAULT_TOLERANCE, Shell, key_faults, measures, shell};
use proptest::prelude::*;

/// A board with one section, the rest by default.
fn design(crown: Option<f64>, fullness: f64, at: f64, tail: &str) -> Design {
    let crown = crown.map_or(String::new(), |c| format!("crown = {c}\n"));
    let text = format!(
        "name = \"crown\"\n[outline]\nlength = 1900\nwidth = 520\ntail = \"{tail}\"\n[foil]\ncentre = 66\n\
         [[section]]\nat = {at}\nfullness = {fullness}\n{crown}"
    );
    parse(&text, "crown.toml").unwrap_or_else(|faults| panic!("{faults}"))
}

/// Heights of deck and half-width in the plane at `x`, read off points of the lofted patch: the deck's centre, half way
/// out to the widest point, and how far every point lies under the chord of its neighbours.
struct Measured {
    fall: f64,
    height: f64,
    dent: f64,
    level: f64,
}

fn measured(shell: &Shell, x: f64) -> Measured {
    let (patch, u) = shell.locate(x);
    let patch = &shell.patches[patch];
    let n = 4000;
    let points: Vec<[f64; 2]> = (0..=n)
        .map(|i| shell.apex + (1.0 - shell.apex) * f64::from(i) / f64::from(n))
        .map(|v| patch.point(u, v))
        .map(|p| [p.y, p.z])
        .collect();
    let (apex, centre) = (points[0], points[points.len() - 1]);
    let height = |y: f64| {
        let i = points
            .partition_point(|p| p[0] > y)
            .clamp(1, points.len() - 1);
        let (p, q) = (points[i - 1], points[i]);
        p[1] + (q[1] - p[1]) * (y - p[0]) / (q[0] - p[0])
    };
    let dent = points.windows(21).step_by(10).map(|w| {
        let (a, m, b) = (w[0], w[10], w[20]);
        let chord = (b[0] - a[0]).hypot(b[1] - a[1]);
        // Positive where the middle lies on the board's side of the chord.
        ((m[0] - a[0]) * (b[1] - a[1]) - (m[1] - a[1]) * (b[0] - a[0])) / chord
    });
    Measured {
        fall: centre[1] - height(apex[0] / 2.0),
        height: centre[1] - apex[1],
        dent: dent.fold(0.0, |worst, d| f64::max(worst, -d)),
        level: centre[1] - height(0.54 * apex[0]),
    }
}

/// The whole range at the middle and near both ends, every fullness: entered is measured, convex, and more crown never
/// makes a bigger board.
#[test]
fn the_crown_entered_is_the_crown_measured() {
    for at in [300.0, 950.0, 1500.0] {
        for fullness in [0.0, 0.5, 1.0] {
            let deck = measured(
                &shell(&design(None, fullness, at, "squash"), DEFAULT_TOLERANCE).unwrap(),
                at,
            );
            let mut last = f64::INFINITY;
            for share in [0.0, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.4, 0.449] {
                let crown = share * deck.height;
                let design = design(Some(crown), fullness, at, "squash");
                let shell = shell(&design, DEFAULT_TOLERANCE)
                    .unwrap_or_else(|e| panic!("{at} {fullness} {crown}: {e}"));
                let found = measured(&shell, at);
                assert!(
                    (found.fall - crown).abs() < 0.01,
                    "{at} {fullness}: {} for {crown}",
                    found.fall
                );
                assert!(
                    found.dent < 0.002,
                    "{at} {fullness} {crown}: a dent of {}",
                    found.dent
                );
                if share == 0.0 {
                    assert!(found.level < 0.005, "{at} {fullness}: {}", found.level);
                }
                let volume = measures(&shell).unwrap().volume;
                assert!(
                    volume < last * (1.0 + 1e-7),
                    "{at} {fullness} {crown}: {volume} over {last}"
                );
                last = volume;
            }
        }
    }
}

/// A swallow tail cuts flat and domed decks as it does others.
#[test]
fn a_cleft_cuts_every_deck() {
    for crown in [0.0, 0.5, 2.0, 6.0] {
        let shell = shell(
            &design(Some(crown), 0.5, 200.0, "swallow"),
            DEFAULT_TOLERANCE,
        )
        .unwrap();
        assert!((measured(&shell, 200.0).fall - crown).abs() < 0.01);
    }
}

/// Crowns that no deck can have are shown together, each in its place, with the greatest that can be, which then passes.
#[test]
fn impossible_crowns_are_shown_in_their_places() {
    let text = |crowns: [f64; 3]| {
        let section = |(at, crown)| format!("[[section]]\nat = {at}\ncrown = {crown}\n");
        let sections: String = [1500, 300, 950].iter().zip(crowns).map(section).collect();
        format!(
            "name = \"c\"\n[outline]\nlength = 1900\nwidth = 520\n[foil]\ncentre = 66\n{sections}"
        )
    };
    let wrong = text([39.0, 38.0, 4.0]);
    let design = parse(&wrong, "c.toml").unwrap();
    assert!(shell(&design, DEFAULT_TOLERANCE).is_err());
    let faults = place_breaks(&wrong, "c.toml", &key_faults(&design)).unwrap();
    let places: Vec<_> = faults
        .list()
        .iter()
        .map(|f| (f.line, f.column, f.offending.as_str()))
        .collect();
    assert_eq!(places, [(9, 9, "39"), (12, 9, "38")]);
    let most = |i: usize| {
        let remedy = &faults.list()[i].remedy;
        let words = remedy.split("at most ").nth(1).unwrap();
        words.split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    let mended = parse(&text([most(0), most(1), 4.0]), "c.toml").unwrap();
    assert!(key_faults(&mended).is_empty());
    shell(&mended, DEFAULT_TOLERANCE).unwrap();
    let passed = parse(&text([most(0) + 0.11, 4.0, 4.0]), "c.toml").unwrap();
    assert_eq!(key_faults(&passed).len(), 1);
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(9),
        ..ProptestConfig::default()
    })]

    /// Three sections with crowns of 0 to 8 mm anywhere between the hand's breadths at tail and nose.
    #[test]
    fn a_plausible_crown_lofts(
        (length, width, centre) in (1500.0..2900.0_f64, 450.0..620.0_f64, 55.0..85.0_f64),
        crowns in prop::array::uniform3(0.0..8.0_f64),
        fullness in prop::array::uniform3(0.1..0.9_f64),
        places in (0.18..0.35_f64, 0.4..0.6_f64, 0.65..0.8_f64),
    ) {
        let places = [places.0, places.1, places.2].map(|p| p * length);
        let mut text = format!(
            "name = \"c\"\n[outline]\nlength = {length:.1}\nwidth = {width:.1}\n[foil]\ncentre = {centre:.1}\n"
        );
        for i in 0..3 {
            text += &format!(
                "[[section]]\nat = {:.1}\nfullness = {:.2}\ncrown = {:.2}\n", places[i], fullness[i], crowns[i]
            );
        }
        let design = parse(&text, "c.toml").unwrap_or_else(|faults| panic!("{faults}"));
        prop_assert!(key_faults(&design).is_empty(), "{:?}\n{text}", key_faults(&design));
        let shell = shell(&design, DEFAULT_TOLERANCE).unwrap_or_else(|e| panic!("{e}\n{text}"));
        let m = measures(&shell).unwrap();
        prop_assert!((m.centre_thickness - centre).abs() < 0.06, "{}", m.centre_thickness);
        // A box of the board's measures holds it; a body of ellipses fills 4/3 π/8 = 0.52 of that.
        let fill = m.volume / (length * width * centre);
        prop_assert!((0.4..0.7).contains(&fill), "{fill}\n{text}");
        for (section, entered) in design.sections.iter().zip(crowns) {
            let found = measured(&shell, section.x);
            prop_assert!((found.fall - entered).abs() < 0.02, "{} for {entered} at {}\n{text}", found.fall, section.x);
            prop_assert!(found.dent < 0.002, "a dent of {} at {}\n{text}", found.dent, section.x);
        }
    }
}
