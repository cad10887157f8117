//! A design cannot lie: whatever values a draft has, it is refused by the rules it breaks, or becomes a sound design and a board.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeSet;

use boardwright::board::Board;
use boardwright::design::units::Unit;
use boardwright::design::{
    Arrangement, Design, Draft, FinOffset, FinSet, Foil, KeyKind, KeyPlace, OutlineBody, Rocker,
    Tail, key, parse, reference, rules, starter, tables,
};

use crate::common::any_design::{Dice, plausible, wild};

/// Designs drawn at random by the table of keys, as far as the parser takes them.
fn drawn(count: u64) -> Vec<Design> {
    let draw = |number| {
        let mut dice = Dice::new(23, number);
        let design = if number % 2 == 0 {
            plausible(&mut dice)
        } else {
            wild(&mut dice)
        };
        parse(&design.text(), "drawn.toml").ok()
    };
    let designs: Vec<Design> = (0..count).filter_map(draw).collect();
    assert!(designs.len() as u64 > count / 4, "{}", designs.len());
    designs
}

fn start() -> Draft {
    Draft::new("Tern", 1930.4, 514.0, 66.0)
}

/// Drafts that have every number a draft may have.
fn full_drafts() -> Vec<Draft> {
    let mut text = starter().to_owned();
    for set in ["none", "five"] {
        text = text.replace("set = \"none\"", &format!("set = \"{set}\""));
    }
    let mut by_measures: Draft = parse(&text, "starter.toml").unwrap().into();
    by_measures.sections[0].crown = Some(4.0);
    by_measures.outline.tail = Tail::Squash {
        width: 180.0,
        radius: 40.0,
    };
    by_measures.skins.plank_length = Some(2400.0);
    by_measures.construction.frame.holes.span = Some(90.0);
    by_measures.bed.beam = Some([90.0, 45.0]);
    by_measures.bed.width = Some(400.0);
    by_measures.bed.stations = Some(vec![300.0, 900.0, 1500.0]);
    let mut by_points = by_measures.clone();
    by_points.outline.body =
        OutlineBody::Points(vec![[300.0, 181.0], [985.0, 257.0], [1630.0, 149.0]]);
    by_points.outline.tail = Tail::Swallow {
        width: 220.0,
        depth: 70.0,
    };
    by_points.construction.tail_block = 130.0;
    by_points.rocker = Rocker::Points(vec![[0.0, 55.0], [900.0, 0.0], [1930.4, 120.0]]);
    by_points.foil = Foil::Points(vec![[0.0, 22.0], [965.0, 67.0], [1930.4, 20.0]]);
    for draft in [&by_measures, &by_points] {
        if let Err(broken) = draft.clone().check() {
            panic!("{broken}");
        }
    }
    vec![by_measures, by_points]
}

/// No number of any key may be none, infinite, or beyond all reason.
#[test]
fn every_number_of_a_draft_is_held_to_its_key() {
    let mut tried = 0;
    for draft in full_drafts() {
        let count = draft.clone().numbers().len();
        for i in 0..count {
            for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300] {
                let mut changed = draft.clone();
                let place = {
                    let mut numbers = changed.numbers();
                    *numbers[i].1 = value;
                    numbers[i].0
                };
                let broken = changed.check().expect_err(&format!("{place} = {value}"));
                let named = |p: &KeyPlace| (p.table, p.key) == (place.table, place.key);
                assert!(
                    broken.list().iter().any(|b| b.places.iter().any(named)),
                    "{place} = {value}: {broken}"
                );
                assert!(
                    broken
                        .list()
                        .iter()
                        .all(|b| !b.remedy.is_empty() && !b.places.is_empty())
                );
                tried += 1;
            }
        }
    }
    assert!(tried > 1500, "{tried}");
}

/// Each key that takes a number has its place among the numbers of some draft, so that none goes unchecked.
#[test]
fn every_key_with_a_number_has_its_place_in_a_draft() {
    let mut seen: BTreeSet<(&str, &str)> = BTreeSet::new();
    let designs = drawn(300).into_iter().map(Draft::from);
    for mut draft in designs.chain(full_drafts()) {
        for (place, _) in draft.numbers() {
            assert!(key(place.table, place.key).is_some(), "{place}");
            seen.insert((place.table, place.key));
        }
    }
    for table in tables() {
        for key in table.keys {
            let number = !matches!(
                key.kind,
                KeyKind::Text(_) | KeyKind::Choice(_) | KeyKind::Count(..)
            );
            // The distance of ribs is written in their places.
            let by_others = key.name == "rib_spacing";
            assert_eq!(
                seen.contains(&(table.path, key.name)),
                number && !by_others,
                "{} {}",
                table.header(),
                key.name
            );
        }
    }
}

/// What the parser takes, a draft's check takes too, and changes nothing in it.
#[test]
fn a_parsed_design_is_a_sound_draft() {
    let examples = ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"].map(|name| {
        let path = format!("{}/examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        parse(&std::fs::read_to_string(path).unwrap(), name).unwrap()
    });
    for design in drawn(400).into_iter().chain(examples) {
        let again = Draft::from(design.clone()).check();
        assert_eq!(again.as_ref(), Ok(&design), "{:?}", again.as_ref().err());
    }
}

/// Random drafts with any values are refused, or make a board or an error, never a panic.
#[test]
fn any_draft_is_refused_or_becomes_a_board() {
    let special = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -0.0,
        f64::MIN_POSITIVE,
        1e-9,
        -1.0,
        1e18,
        f64::MAX,
    ];
    let (mut refused, mut boards) = (0, 0);
    for (number, design) in drawn(120).into_iter().enumerate() {
        for round in 0..6 {
            let mut dice = Dice::new(41 + round, number as u64);
            let mut draft = Draft::from(design.clone());
            let mut numbers = draft.numbers();
            for _ in 0..=dice.below(3) {
                let i = dice.below(numbers.len());
                let (place, value) = &mut numbers[i];
                let range = key(place.table, place.key).and_then(|key| key.range());
                **value = match (dice.below(4), range) {
                    (0, _) => special[dice.below(special.len())],
                    (1, Some([least, most])) => [least, most][dice.below(2)],
                    _ => **value * dice.between(0.9, 1.1),
                };
            }
            drop(numbers);
            match draft.check() {
                Err(broken) => {
                    assert!(!broken.list().is_empty());
                    refused += 1;
                }
                Ok(sound) => {
                    let again = Draft::from(sound.clone()).check();
                    assert_eq!(again.as_ref(), Ok(&sound));
                    // Boards take their time: one in so many.
                    if number % 20 == 0 && round < 3 {
                        let _ = Board::new(sound);
                        boards += 1;
                    }
                }
            }
        }
    }
    assert!(refused >= 60 && boards >= 2, "{refused} {boards}");
}

/// A draft for every rule that breaks it, and it first.
#[test]
fn every_rule_is_broken_by_a_draft() {
    type Change = fn(&mut Draft);
    let breaking: &[(&str, Change)] = &[
        ("name-empty", |d| d.name = "  ".to_owned()),
        ("report-unit", |d| d.report = Unit::Ft),
        ("outline-points-few", |d| {
            d.outline.body = OutlineBody::Points(vec![[400.0, 200.0], [900.0, 250.0]]);
        }),
        ("outline-points-inside", |d| {
            d.outline.body =
                OutlineBody::Points(vec![[400.0, 200.0], [900.0, 250.0], [2000.0, 100.0]]);
        }),
        ("wide-point-inside", |d| measures(d, |m| m[1] = 1700.0)),
        ("nose-width", |d| measures(d, |m| m[2] = 600.0)),
        ("tail-width", |d| measures(d, |m| m[3] = 600.0)),
        ("tail-end-width", |d| {
            d.outline.tail = Tail::Square { width: 450.0 }
        }),
        ("tail-corner", |d| {
            d.outline.tail = Tail::Squash {
                width: 150.0,
                radius: 80.0,
            };
        }),
        ("rocker-spans", |d| {
            d.rocker = Rocker::Points(vec![[0.0, 50.0], [900.0, 0.0], [1900.0, 90.0]]);
        }),
        ("rocker-lowest", |d| {
            d.rocker = Rocker::Points(vec![[0.0, 50.0], [900.0, 3.0], [1930.4, 90.0]]);
        }),
        ("rocker-flat-inside", |d| {
            d.rocker = Rocker::Measures {
                nose: 120.0,
                tail: 50.0,
                flat: [700.0, 1940.0],
            };
        }),
        ("foil-spans", |d| {
            d.foil = Foil::Points(vec![[0.0, 20.0], [900.0, 66.0]])
        }),
        ("foil-nose", |d| foil(d, |m| m[1] = 70.0)),
        ("foil-tail", |d| foil(d, |m| m[2] = 70.0)),
        ("foil-nose-tip", |d| foil(d, |m| m[3] = 50.0)),
        ("foil-tail-tip", |d| foil(d, |m| m[4] = 50.0)),
        ("section-missing", |d| d.sections.clear()),
        ("section-inside", |d| d.sections[0].x = 2000.0),
        ("section-apart", |d| d.sections.push(d.sections[0].clone())),
        ("hollow-height", |d| {
            d.foil = Foil::Points(vec![[0.0, 16.0], [965.2, 17.0], [1930.4, 16.0]]);
        }),
        ("tail-block-cleft", |d| {
            d.outline.tail = Tail::Swallow {
                width: 200.0,
                depth: 100.0,
            };
        }),
        ("hollow-length", |d| {
            (d.construction.tail_block, d.construction.nose_block) = (600.0, 600.0);
            d.length = 1400.0;
            measures(d, |m| m[1] = 700.0);
        }),
        ("ribs-stand", |d| {
            d.construction.rib_stations = vec![500.0, 503.0]
        }),
        ("skin-strain-along", |d| {
            d.skins.limits.strain_along = [0.003, 0.001]
        }),
        ("skin-strain-across", |d| {
            d.skins.limits.strain_across = [0.01, 0.003]
        }),
        ("skin-bend", |d| d.skins.limits.bend_across = [0.013, 0.008]),
        ("bed-beam", |d| d.bed.beam = Some([90.0, 70.0])),
        ("cradles-stand", |d| d.bed.stations = Some(vec![2.0])),
        ("bead-radius", |d| d.construction.strip.bead_radius = 2.0),
        ("cove-radius", |d| d.construction.strip.bead_radius = 3.5),
        ("cove-depth", |d| d.construction.strip.cove_depth = 3.2),
        ("strip-width", |d| {
            let strip = &mut d.construction.strip;
            (strip.thickness, strip.width) = (7.0, 8.1);
            (strip.bead_radius, strip.cove_radius, strip.cove_depth) = (3.5, 3.5, 3.0);
        }),
        ("starter-size", |d| d.construction.starter.size = 5.0),
        ("starter-laminations", |d| {
            d.construction.starter.size = 7.0;
            d.construction.starter.laminations = 4;
        }),
        ("fin-set", |d| d.fins.set = FinSet::Five),
        ("fin-tabs", |d| {
            *d = parse(
                "name = 'T'\n[outline]\nlength = 1930.4\nwidth = 514\n[foil]\ncentre = 66\n[fins]\nset = 'single'\n",
                "t",
            )
            .unwrap()
            .into();
            let cut = &mut d.fins.fins[0].cut;
            (cut.count, cut.length, cut.spacing) = (2, 60.0, 62.0);
        }),
        ("plug-inside", |d| {
            d.plug.as_mut().unwrap().from_tail = Some(2000.0)
        }),
        ("vent-inside", |d| {
            d.vent.as_mut().unwrap().from_tail = Some(2000.0)
        }),
        ("fitting-inside", |d| {
            d.fittings.push(boardwright::design::Fitting {
                name: "camera".to_owned(),
                mass: 0.2,
                x: 2000.0,
                on_deck: true,
            });
        }),
        ("rider-inside", |d| {
            d.rider = Some(boardwright::design::Rider {
                mass: 75.0,
                x: Some(2000.0),
                height: 900.0,
            });
        }),
        ("wood-strain", |d| {
            (d.timber.rail.modulus, d.timber.rail.rupture) = (1000.0, 100.0);
        }),
        ("wood-figures", |d| {
            let wood = &mut d.timber.rail;
            wood.shrinkage = wood
                .shrinkage
                .map(|s| boardwright::design::timber::Shrinkage {
                    radial: f64::NAN,
                    ..s
                });
        }),
        ("planks-missing", |d| d.shop.planks.clear()),
    ];
    let named: BTreeSet<&str> = breaking.iter().map(|(code, _)| *code).collect();
    let all: BTreeSet<&str> = rules().map(|rule| rule.code).collect();
    assert_eq!(named, all);
    assert_eq!(rules().count(), all.len(), "a code names one rule");
    for (code, change) in breaking {
        let mut draft = start();
        change(&mut draft);
        let broken = draft.check().expect_err(code);
        let codes: BTreeSet<&str> = broken.list().iter().map(|b| b.code).collect();
        assert_eq!(codes, BTreeSet::from([*code]), "{broken}");
        let first = &broken.list()[0];
        let rule = rules().find(|rule| rule.code == *code).unwrap();
        assert!(
            rule.keys
                .iter()
                .any(|name| KeyPlace::of(name).key == first.places[0].key),
            "{broken}"
        );
    }
}

fn measures(draft: &mut Draft, change: fn(&mut [f64; 4])) {
    let OutlineBody::Measures {
        width,
        wide_point,
        nose_width,
        tail_width,
    } = &mut draft.outline.body
    else {
        panic!("measures");
    };
    let mut all = [*width, *wide_point, *nose_width, *tail_width];
    change(&mut all);
    [*width, *wide_point, *nose_width, *tail_width] = all;
}

fn foil(draft: &mut Draft, change: fn(&mut [f64; 5])) {
    let Foil::Measures {
        centre,
        nose,
        tail,
        nose_tip,
        tail_tip,
    } = &mut draft.foil
    else {
        panic!("measures");
    };
    let mut all = [*centre, *nose, *tail, *nose_tip, *tail_tip];
    change(&mut all);
    [*centre, *nose, *tail, *nose_tip, *tail_tip] = all;
}

/// Every key of a rule is in the table of keys, and the reference says the rule where the key is.
#[test]
fn the_reference_says_every_rule() {
    let text = reference();
    for rule in rules() {
        for name in rule.keys.iter().chain(rule.rests_on) {
            let place = KeyPlace::of(name);
            assert!(key(place.table, place.key).is_some(), "{name}");
        }
        let said = format!("{} ({})", rule.says, rule.code);
        assert!(text.contains(&said), "{said}");
    }
}

/// What a change of a design breaks is said with its keys, value, limit and remedy.
#[test]
fn a_change_that_breaks_a_rule_is_refused_with_its_figures() {
    let design = start().check().unwrap();
    let broken = design
        .with(|draft| {
            draft.construction.starter.size = 5.0;
            draft.construction.starter.arrangement = Arrangement::Stacked;
        })
        .unwrap_err();
    let [broken] = broken.list() else {
        panic!("{broken}");
    };
    assert_eq!(
        (broken.code, broken.value, broken.limit),
        ("starter-size", Some(5.0), Some(6.0))
    );
    assert_eq!(
        broken.to_string(),
        "construction.starter.size: `size` must be at least the thickness of the strip it carries, 6 mm: \
         give at least 6 mm, or a thinner strip"
    );
    let moved = design
        .with(|draft| draft.sections[0].x = f64::NAN)
        .unwrap_err();
    assert_eq!(moved.list()[0].places[0].to_string(), "section[0].at");
}

/// Old names of keys and words are refused with the new ones.
#[test]
fn renamed_keys_and_words_are_offered_by_their_new_names() {
    let least = "name = 'Least'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n";
    for (lines, place, message, remedy) in [
        (
            "[construction.starter]\nlie = \"abreast\"",
            (8, 1),
            "`lie` is now called `arrangement`",
            "write `arrangement = \"side-by-side\"`",
        ),
        (
            "[construction.starter]\nlie = 'stacked'",
            (8, 1),
            "`lie` is now called `arrangement`",
            "write `arrangement = 'stacked'`",
        ),
        (
            "[construction.starter]\nlaid = 'level'",
            (8, 1),
            "`laid` is now called `lamination_plane`",
            "write `lamination_plane = \"horizontal\"`",
        ),
        (
            "[construction.starter]\narrangement = 'abreast'",
            (8, 15),
            "\"abreast\" is now called \"side-by-side\"",
            "write `arrangement = \"side-by-side\"`",
        ),
        (
            "[timber]\nworking = 0.6",
            (8, 1),
            "`working` is now called `working_strain`",
            "write `working_strain = 0.6`",
        ),
        (
            "[timber]\nsoftened = 'all'",
            (8, 1),
            "`softened` is now called `softening`",
            "write `softening = 'all'`",
        ),
        (
            "[skins]\njoint = 'keyed'",
            (8, 9),
            "\"keyed\" is now called \"key\"",
            "write `joint = \"key\"`",
        ),
    ] {
        let faults = parse(&format!("{least}{lines}\n"), "old.toml").unwrap_err();
        let [fault] = faults.list() else {
            panic!("{faults}");
        };
        assert_eq!((fault.line, fault.column), place, "{fault}");
        assert_eq!(
            (fault.message.as_str(), fault.remedy.as_str()),
            (message, remedy)
        );
    }
}

/// Fins of a library's own making are checked as the file's are.
#[test]
fn fins_are_held_to_the_keys_they_are_written_by() {
    let design = start().check().unwrap();
    let with = |offset| {
        let mut draft = Draft::from(design.clone());
        draft.fins.fins.push(boardwright::design::Fin {
            from_tail: 200.0,
            offset,
            toe: 0.0,
            cant: 0.0,
            base: 115.0,
            cut: boardwright::design::FinCut {
                count: 1,
                spacing: 0.0,
                length: 125.0,
                width: 12.0,
                depth: 14.0,
            },
        });
        draft.check()
    };
    assert!(with(FinOffset::Centre(80.0)).is_ok());
    assert!(with(FinOffset::Rail(30.0)).is_ok());
    assert!(with(FinOffset::Centre(401.0)).is_err());
    assert!(with(FinOffset::Rail(9.0)).is_err());
}
