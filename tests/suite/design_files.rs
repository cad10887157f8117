//! The starter, the examples and silent files give the designs they should.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::{
    design::units::{Unit, feet_inches},
    design::{
        Arrangement, Contour, Design, Fallback, KeyKind, Nose, OutlineBody, Rocker, Tail, parse,
        reference, starter, tables,
    },
};

#[track_caller]
fn sound(text: &str) -> Design {
    parse(text, "board.toml").unwrap_or_else(|faults| panic!("{faults}"))
}

#[track_caller]
fn near(got: f64, expected: f64) {
    assert!((got - expected).abs() < 1e-9, "{got} is not {expected}");
}

const LEAST: &str = "name = 'Least'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n";

#[test]
fn the_starter_is_sound_and_shows_every_key_with_its_description() {
    let text = starter();
    let design = sound(text);
    assert_eq!(feet_inches(design.length), "6' 4\"");
    assert_eq!(design.outline.tail, Tail::Round);
    for table in tables() {
        for key in table.keys {
            let line = format!("{} = {}", key.name, key.sample);
            assert!(text.contains(&line), "{line}");
            assert!(
                !key.doc.is_empty() && !key.doc.ends_with('.'),
                "{}",
                key.name
            );
        }
        assert!(table.path.is_empty() || text.contains(&table.header()));
    }
    assert!(text.lines().all(|line| line.chars().count() <= 100));
}

#[test]
fn every_shy_key_of_the_starter_is_sound_where_it_belongs() {
    // Swaps each commented key in, with the shape it belongs to and without what it contradicts.
    for table in tables() {
        for key in table.keys.iter().filter(|key| key.commented) {
            let mut here = false;
            let lines = starter().lines().map(|line| {
                if line.starts_with('[') {
                    here = line == table.header();
                }
                let name = line.trim_start_matches("# ").split(" = ").next().unwrap();
                let rival = table
                    .key(name)
                    .is_some_and(|k| k.instead == Some(key.name) && !line.starts_with('#'));
                match key.only {
                    _ if !here => line.to_owned(),
                    _ if name == key.name => line.trim_start_matches("# ").to_owned(),
                    Some((selector, words)) if name == selector && !line.starts_with('#') => {
                        format!("{selector} = '{}'", words[0])
                    }
                    _ if rival => String::new(),
                    _ => line.to_owned(),
                }
            });
            let text = lines
                .collect::<Vec<_>>()
                .join("\n")
                .replace("tail_block = 90", "");
            assert!(text.contains(&format!("\n{} = {}", key.name, key.sample)));
            sound(&text);
        }
    }
}

#[test]
fn the_starters_samples_are_its_defaults() {
    for key in tables().iter().flat_map(|table| table.keys) {
        let sample = match key.fallback {
            Fallback::Number(number) => format!("{number}"),
            Fallback::Word(word) => format!("\"{word}\""),
            _ => continue,
        };
        // The starter's one section shows a contour, since a depth needs one.
        if key.name != "contour" {
            assert_eq!(key.sample, sample, "{}", key.name);
        }
    }
}

#[test]
fn every_default_lies_in_its_range() {
    for key in tables().iter().flat_map(|table| table.keys) {
        let Fallback::Number(number) = key.fallback else {
            continue;
        };
        let inside = match key.kind {
            KeyKind::Length(a, b) | KeyKind::Degrees(a, b) | KeyKind::Number(a, b) => {
                (a..=b).contains(&number)
            }
            KeyKind::Count(a, b) => (f64::from(a)..=f64::from(b)).contains(&number),
            _ => false,
        };
        assert!(inside, "{}", key.name);
    }
}

#[test]
fn the_reference_names_every_key() {
    let text = reference();
    for key in tables().iter().flat_map(|table| table.keys) {
        assert!(
            text.contains(&format!("| `{}` |", key.name)),
            "{}",
            key.name
        );
    }
    assert!(
        text.contains("| `thickness` | Length, 3 to 15 mm | 6 mm | Thickness, across the rail |")
    );
}

/// Defaults are common practice, no published source.
#[test]
fn a_silent_file_takes_a_good_boards_defaults() {
    let design = sound(LEAST);
    assert_eq!((design.report, design.notes.as_str()), (Unit::Mm, ""));
    let OutlineBody::Measures {
        width,
        wide_point,
        nose_width,
        tail_width,
    } = design.outline.body
    else {
        panic!("measures were given");
    };
    near(width, 500.0);
    near(wide_point, 1040.0);
    near(nose_width, 290.0);
    near(tail_width, 350.0);
    assert_eq!(
        design.outline.nose,
        Nose::Pointed {
            angle: 55.0_f64.to_radians()
        }
    );
    assert_eq!(design.outline.tail, Tail::Round);
    assert_eq!(
        design.rocker,
        Rocker::Measures {
            nose: 120.0,
            tail: 55.0,
            flat: [720.0, 1120.0]
        }
    );
    let xs: Vec<f64> = design
        .foil
        .points(design.length)
        .iter()
        .map(|p| p[0])
        .collect();
    assert_eq!(xs, [0.0, 304.8, 1000.0, 1695.2, 2000.0]);
    near(design.foil.points(design.length)[2][1], 65.0);
    near(design.foil.points(design.length)[1][1], 0.62 * 65.0);
    near(design.foil.points(design.length)[4][1], 0.285 * 65.0);
    let [section] = design.sections.as_slice() else {
        panic!("one section stands for none");
    };
    assert_eq!(
        (section.x, section.contour, section.contour_depth),
        (1000.0, Contour::Flat, 0.0)
    );
    assert_eq!(
        (section.edge_radius, section.tuck, section.apex),
        (30.0, 16.0, 0.4)
    );
    near(section.tuck_angle, 45.0_f64.to_radians());
    let built = &design.construction;
    assert_eq!(
        (built.bottom_skin, built.deck_skin, built.rib, built.spine),
        (4.0, 4.0, 6.0, 6.0)
    );
    assert_eq!((built.tail_block, built.nose_block), (90.0, 120.0));
    assert_eq!(
        (built.cover, built.proud, built.slot_clearance),
        (2.0, 0.5, 0.2)
    );
    near(built.skin_turn, 25.0_f64.to_radians());
    near(built.skin_bend_radius, 120.0);
    let strip = built.strip;
    assert_eq!((strip.thickness, strip.width), (6.0, 12.7));
    assert_eq!(
        (strip.bead_radius, strip.cove_radius, strip.cove_depth),
        (3.0, 3.0, 2.5)
    );
    let starter = built.starter;
    assert_eq!(
        (starter.size, starter.count, starter.arrangement),
        (8.0, 2, Arrangement::SideBySide)
    );
    // 1790 mm of hollow hold seven spacings of 250 mm: seven ribs, with 145 mm left at each end.
    let stations: Vec<f64> = (0..7)
        .map(|i| 90.0 + 145.0 + 250.0 * f64::from(i))
        .collect();
    assert_eq!(built.rib_stations, stations);
}

#[test]
fn a_bare_section_is_the_silent_files_section() {
    let text = format!("{LEAST}[[section]]\nat = 1000\n");
    assert_eq!(sound(&text), sound(LEAST));
}

#[test]
fn sections_are_put_in_order() {
    let text = format!("{LEAST}[[section]]\nat = 1500\n[[section]]\nat = 300\nedge = 'hard'\n");
    let design = sound(&text);
    let sections = &design.sections;
    let seen: Vec<_> = sections
        .iter()
        .map(|s| (s.x, s.edge_radius, s.tuck))
        .collect();
    assert_eq!(seen, [(300.0, 2.0, 8.0), (1500.0, 30.0, 16.0)]);
}

#[test]
fn bare_numbers_and_reports_follow_the_unit() {
    let text = LEAST
        .replace("2000", "2")
        .replace("500", "'500 mm'")
        .replace("65", "0.065");
    let text = format!("unit = 'm'\n{text}");
    assert_eq!(sound(&text).foil, sound(LEAST).foil);
    assert_eq!(sound(&text).report, Unit::Mm);
    let feet =
        "name = 'F'\nunit = 'ft'\n[outline]\nlength = 6\nwidth = '20 in'\n[foil]\ncentre = 0.2\n";
    assert_eq!(sound(feet).report, Unit::In);
    near(sound(feet).length, 6.0 * 304.8);
    let output = feet.replace("'ft'", "'ft'\nreport = 'mm'");
    assert_eq!(sound(&output).report, Unit::Mm);
}

#[test]
fn tails_take_their_defaults_from_the_width_before_them() {
    let tail = |lines: &str| {
        let text = LEAST.replace(
            "width = 500",
            &format!("width = 500\ntail_width = 400\n{lines}"),
        );
        let design = sound(&text);
        (design.outline.tail, design.construction.tail_block)
    };
    assert_eq!(
        tail("tail = 'square'"),
        (Tail::Square { width: 200.0 }, 60.0)
    );
    assert_eq!(
        tail("tail = 'squash'"),
        (
            Tail::Squash {
                width: 200.0,
                radius: 50.0
            },
            60.0
        )
    );
    assert_eq!(
        tail("tail = 'swallow'"),
        (
            Tail::Swallow {
                width: 240.0,
                depth: 108.0
            },
            148.0
        )
    );
    let angle = 50.0_f64.to_radians();
    assert_eq!(tail("tail = 'pin'"), (Tail::Pin { angle }, 120.0));
}

#[test]
fn points_stand_for_measures() {
    let text = "name = 'P'\n[outline]\nlength = 2000\npoints = [[300, 180], [1000, 250], [1700, 150]]\ntail = 'square'\n\
        [rocker]\npoints = [[0, 50], [900, 0], [2000, 120]]\n[foil]\npoints = [[0.01, 20], [1000, 65], [1999.98, 18]]\n";
    let design = sound(text);
    let Tail::Square { width } = design.outline.tail else {
        panic!("square was asked for");
    };
    // Half of the full width at 304.8 mm on the straight line between the points.
    near(width, 180.0 + 70.0 * 4.8 / 700.0);
    assert_eq!(
        design.rocker,
        Rocker::Points(vec![[0.0, 50.0], [900.0, 0.0], [2000.0, 120.0]])
    );
    // Ends typed in rounded figures are set on the ends.
    assert_eq!(
        design.foil.points(design.length),
        [[0.0, 20.0], [1000.0, 65.0], [2000.0, 18.0]]
    );
}

#[test]
fn a_flatter_bead_gets_a_cove_within_its_arc() {
    let text = format!("{LEAST}[construction.strip]\nbead_radius = 5\n");
    let strip = sound(&text).construction.strip;
    near(strip.cove_radius, 5.0);
    near(strip.cove_depth, 0.5);
    // Half of 1/4 in, typed in millimetres to two decimals.
    let text = format!("{LEAST}[construction.strip]\nthickness = '1/4 in'\nbead_radius = 3.17\n");
    near(sound(&text).construction.strip.bead_radius, 3.175);
}

#[test]
fn the_examples_are_sound_and_what_they_say() {
    for (file, length, wide, thick) in [
        ("round-tail-6ft4", "6' 4\"", "1' 8 1/4\"", "2 5/8\""),
        ("noserider-9ft4", "9' 4\"", "1' 11\"", "3\""),
        ("twin-5ft8", "5' 8\"", "1' 9\"", "2 1/2\""),
    ] {
        let path = format!("{}/examples/{file}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let design = sound(&text);
        assert_eq!(feet_inches(design.length), length);
        let width = match &design.outline.body {
            OutlineBody::Measures { width, .. } => *width,
            OutlineBody::Points(points) => points.iter().map(|p| 2.0 * p[1]).fold(0.0, f64::max),
        };
        assert_eq!(feet_inches(width), wide);
        let thickness = design
            .foil
            .points(design.length)
            .iter()
            .map(|p| p[1])
            .fold(0.0, f64::max);
        assert_eq!(feet_inches(thickness), thick);
    }
}

#[test]
fn a_design_serialises() {
    let json = serde_json::to_value(sound(LEAST)).unwrap();
    assert_eq!(json["length"], 2000.0);
    assert_eq!(json["report"], "mm");
}
