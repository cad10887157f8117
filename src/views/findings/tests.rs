//! Every code and every change has words, in each unit.

use super::text;
use crate::design::finding::{
    BoardEnd, Change, Code, Face, Fact, Finding, Half, Part, Place, RibFault, SkinFault, Spot,
};
use crate::design::units::Unit;
use crate::design::{Arrangement, LaminationPlane, Softening, Starter, Strip};

const STRIP: Strip = Strip {
    thickness: 6.0,
    width: 12.7,
    bead_radius: 3.2,
    cove_radius: 3.25,
    cove_depth: 1.9,
};
const STARTER: Starter = Starter {
    size: 8.0,
    count: 2,
    laminations: 2,
    lamination_plane: LaminationPlane::Vertical,
    arrangement: Arrangement::SideBySide,
};

/// Changes with numbers, each once.
fn measured() -> Vec<Change> {
    let thin = Strip {
        thickness: 5.4,
        ..STRIP
    };
    let narrow = Strip {
        width: 10.1,
        ..STRIP
    };
    let (to, now) = (1.0, 2.0);
    let name = "planks".to_owned();
    vec![
        Change::StripWidth(10.5),
        Change::Strip {
            to: thin,
            now: STRIP,
        },
        Change::Strip {
            to: narrow,
            now: STRIP,
        },
        Change::SpeciesAndStrip {
            wood: "balsa".into(),
            to: thin,
            now: STRIP,
        },
        Change::Starter(STARTER),
        Change::Laminations {
            count: 3,
            plane: LaminationPlane::Horizontal,
            now: STARTER,
        },
        Change::Species(vec!["balsa".into(), "paulownia".into()]),
        Change::Soften(Softening::All),
        Change::GentlerBend { to, now },
        Change::GentlerTwist { to, now },
        Change::ScarfStrain { to: 0.5, now: 0.4 },
        Change::Stagger {
            to: 200.0,
            now: 300.0,
        },
        Change::PlankLength {
            plank: 0,
            name: name.clone(),
            to: 2500.0,
            now: 2400.0,
        },
        Change::PlankCount {
            plank: 0,
            name,
            more: 1,
            to: 3,
        },
        Change::LongerBlock(BoardEnd::Tail),
        Change::SmallerCutter(Some(6.2)),
        Change::ThickerStock(vec!["rib", "spine"]),
        Change::SmallerBreather(40.0),
        Change::LaminateSkin {
            count: 3,
            thickness: 1.33,
        },
        Change::ThinnerSkin(3.1),
        Change::FurtherFromEnd { by: 6.0, now: 8.0 },
        Change::MoveAlong {
            by: 20.0,
            towards: BoardEnd::Nose,
            from_tail: 220.5,
        },
        Change::MoveRibTo {
            rib: 2,
            to: [300.0, 420.0],
        },
        Change::NotchRib {
            width: 36.0,
            height: 12.0,
            remaining: 25.0,
            of: 37.0,
        },
        Change::MoveOutboard {
            by: 2.0,
            from_centre: 9.0,
        },
        Change::MoveInboard {
            by: 2.0,
            from_centre: 150.0,
        },
        Change::NarrowerCut(4.0),
        Change::CutDepth(18.0),
        Change::ToThickerPlace(3.0),
        Change::MoveApart {
            by: 16.0,
            along: true,
        },
        Change::SmallerMargins(16.0),
        Change::LessMass(40.0),
        Change::MoreVolume(40.0),
    ]
}

/// A finding of `code` with every fact, place and number that any of them may have.
fn full(code: Code, part: Part) -> Finding {
    let place = Place {
        x: Some(1234.5),
        y: Some(56.0),
        rib: Some(3),
        between: Some([Some(3), None]),
        bay: Some(4),
        course: Some(2),
        strip: Some(2),
        side: Some(Half::Port),
        block: Some(BoardEnd::Nose),
    };
    let facts = vec![
        Fact::Used(1.2),
        Fact::Wood("balsa".into()),
        Fact::Working(0.75),
        Fact::Radius(116.0),
        Fact::Slots {
            in_spine: true,
            width: 5.2,
        },
        Fact::End(BoardEnd::Nose),
        Fact::LeastHeight(4.0),
        Fact::Depth(30.0),
        Fact::WoodDepth(25.0),
        Fact::IntoSkin(2.0),
        Fact::LeastDistance(4.0),
        Fact::FinCut,
        Fact::Water {
            fresh: true,
            ridden: true,
        },
        Fact::LongestPlank(1800.0),
        Fact::StockLength(1200.0),
        Fact::Profile("starter"),
        Fact::Blank([8.2, 14.0]),
        Fact::Rib(RibFault::TooSmall),
        Fact::Skin(SkinFault::Folds),
    ];
    Finding {
        facts,
        places: vec![
            Spot {
                place,
                value: Some(-0.25),
            };
            2
        ],
        ..Finding::new(code, part)
            .against(Part::Skin(Face::Deck))
            .at(place)
            .measured(-0.25, 0.5)
            .remedies(measured())
    }
}

/// Whether a text gives a number in this unit.
fn measures(text: &str, unit: &str) -> bool {
    let words: Vec<&str> = text.split(' ').collect();
    words.windows(2).any(|w| {
        let word = w[1].trim_end_matches(|c: char| !c.is_alphanumeric());
        w[0].ends_with(|c: char| c.is_ascii_digit()) && word == unit
    })
}

#[test]
fn every_code_has_words_in_the_unit_asked_for() {
    for code in Code::ALL {
        let finding = full(*code, Part::Strips(vec![2, 3]));
        for unit in [Unit::Mm, Unit::Cm, Unit::M, Unit::In, Unit::Ft] {
            let text = text(&finding, unit);
            let lines: Vec<String> = text.lines.iter().map(|l| l.1.clone()).collect();
            let all = format!(
                "{}; {}; {}",
                text.sentence(),
                text.remedies.join("; "),
                lines.join("; ")
            );
            assert!(
                !text.headline.is_empty() && !text.extent.is_empty(),
                "{all}"
            );
            assert!(text.remedies.iter().all(|r| r.len() > 5), "{all}");
            let alien: &[&str] = if unit.is_metric() {
                &["in", "lb", "ft"]
            } else {
                &["mm", "cm", "m", "kg", "g"]
            };
            for unit in alien {
                assert!(!measures(&all, unit), "{code:?}: {unit} in {all}");
            }
            assert!(!all.contains("  ") && !all.contains("; ;"), "{all}");
        }
    }
}

#[test]
fn a_negative_margin_says_which_way_it_fails() {
    let words = |code| text(&full(code, Part::Rail), Unit::Mm).extent;
    assert_eq!(
        words(Code::PlaningAllowance),
        "near rib 3, at worst 0.25 mm inside the finished rail, course 2, 1234 mm from the tail"
    );
    assert!(words(Code::WoodBehindRail).contains("at worst open by 0.25 mm"));
    let inches = text(&full(Code::JointGap, Part::Rail), Unit::In);
    assert_eq!(
        inches.headline,
        "a joint between strips is open by more than 0.020 in on the finished rail"
    );
    assert_eq!(
        inches.lines,
        [(
            3,
            "course 2: -0.010 in at 48 5/8\", course 2: -0.010 in at 48 5/8\"".to_owned()
        )]
    );
}
