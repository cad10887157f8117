//! From a design's wood and shop to strips as work.

#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::board::Board;
use boardwright::design::{Design, parse, starter};
use boardwright::rail::Strained;
use boardwright::stock::Shop;
use boardwright::timber::{find, twist_strain};

const LEAST: &str = "name = 'Least'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n";

fn sound(text: &str) -> Design {
    parse(text, "board.toml").unwrap_or_else(|faults| panic!("{faults}"))
}

fn fault(more: &str) -> (String, Option<String>) {
    let text = format!("{LEAST}{more}");
    let faults = parse(&text, "board.toml").unwrap_err();
    assert_eq!(faults.list().len(), 1, "{faults}");
    let f = &faults.list()[0];
    (f.message.clone(), f.remedy.clone())
}

#[test]
fn a_silent_file_takes_the_shops_defaults_and_says_that_its_planks_are_assumed() {
    let design = sound(LEAST);
    assert!(design.timber.assumed_planks);
    assert_eq!(design.shop.planks.len(), 1);
    let silent = Shop {
        planks: design.shop.planks.clone(),
        ..Shop::default()
    };
    assert_eq!(design.shop, silent);
    assert_eq!(&design.timber.rail, find("western redcedar").unwrap());
    assert!(!sound(starter()).timber.assumed_planks);
}

#[test]
fn a_species_of_the_makers_own_goes_before_the_tables() {
    let design = sound(&format!(
        "{LEAST}[timber]\nrail = 'Balsa'\n[[timber.species]]\nname = 'balsa'\nwood = 'hardwood'\nspecific_gravity = 0.2\n\
         modulus = 4000\nloading = 'pure'\nrupture = 30\n"
    ));
    assert_eq!(design.timber.rail.modulus, 4000.0);
    assert_eq!(design.timber.rail.true_modulus(), 4000.0);
    assert_eq!(design.shop.species, "balsa");
}

#[test]
fn wood_that_cannot_be_meant_is_told_with_a_remedy() {
    let (message, remedy) = fault("[timber]\nrail = 'red cedar'\n");
    assert!(message.contains("red cedar"), "{message}");
    assert!(remedy.unwrap().contains("western redcedar"));
    let (_, remedy) = fault("[timber]\nrail = 'balsaa'\n");
    assert!(remedy.unwrap().contains("\"balsa\""));
    // Gigapascals for megapascals are out of range; psi for one of the two is told by the strain.
    let own = |modulus: &str, rupture: &str| {
        format!(
            "[[timber.species]]\nname = 'x'\nspecific_gravity = 0.4\nmodulus = {modulus}\nrupture = {rupture}\n"
        )
    };
    assert!(fault(&own("9.5", "68")).0.contains("modulus"));
    assert!(fault(&own("500", "68")).0.contains("breaking strain"));
    assert!(fault("[shop]\nscarf_ratio = 4\n").0.contains("scarf_ratio"));
    assert!(
        fault("[[shop.plank]]\nwidth = 150\nthickness = 50\n")
            .0
            .contains("length")
    );
}

#[test]
fn planks_too_thin_are_a_trouble_and_no_error() {
    let thin = "[[shop.plank]]\nlength = 2400\nwidth = 100\nthickness = 6\n";
    let board = Board::new(sound(&format!("{LEAST}{thin}"))).unwrap();
    assert!(board.yard.cutting.is_err() && board.yard.totals.is_none());
    let told = board
        .yard
        .troubles
        .iter()
        .find(|t| t.ratio.is_none())
        .unwrap();
    assert!(told.remedy.contains("thicker"), "{told:?}");
}

#[test]
fn the_examples_have_plans_that_add_up() {
    for name in ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"] {
        let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
        let board = Board::new(sound(&text)).unwrap();
        let yard = &board.yard;
        assert_eq!(yard.strips.len(), board.strips.len());
        println!(
            "{name}: {} strips a side of {}",
            yard.strips.len(),
            board.design.timber.rail.name
        );
        for strained in Strained::ALL {
            if let Some((work, d)) = yard.worst(strained) {
                let share = d.utilisation.ratio;
                assert_eq!(
                    share > 1.0,
                    yard.troubles.iter().any(|t| t.ratio == Some(share)),
                    "{name}: {strained:?}"
                );
                println!(
                    "  {}: {share:.2} of {:.3} % on strip {} ({:?}), x {:.0}, {}",
                    strained.name(),
                    100.0 * d.utilisation.limit,
                    work.number,
                    work.kind,
                    d.x,
                    d.place(board.ribs.len())
                );
            }
        }
        let r = &boardwright::report::report(&board).rail;
        println!("  {:?}\n  anywhere {:?}", r.at_ribs, r.anywhere);
        for t in &yard.troubles {
            println!("  ! {}: {}\n    -> {}", t.headline, t.extent, t.remedy);
        }
        for (need, work) in yard.needs.iter().zip(&yard.strips) {
            assert!((need.length - need.finished - 100.0).abs() < 1e-9);
            assert!(
                need.keep_off
                    .iter()
                    .all(|(a, b)| a <= b && *b <= work.blank)
            );
        }
        match (&yard.cutting, &yard.totals) {
            (Ok(plan), Some(t)) => {
                let shares = t.yielded + t.spare + t.kept + t.waste;
                assert!((shares - 1.0).abs() < 1e-9 && t.waste > 0.0, "{t:?}");
                for (need, scarfed) in yard.needs.iter().zip(&plan.scarfs) {
                    for joint in &scarfed.joints {
                        let clear =
                            |&(a, b): &(f64, f64)| joint.to <= a + 1e-6 || joint.from >= b - 1e-6;
                        assert!(need.keep_off.iter().all(clear), "{name}: {joint:?}");
                    }
                }
                println!(
                    "  {t:?}, gap {:.3}, any scarf {:.3}",
                    plan.gap(),
                    plan.gap_any_scarf()
                );
            }
            other => println!("  no plan: {other:?}"),
        }
    }
}

#[test]
fn a_thinner_strip_that_is_offered_against_twist_passes_and_one_a_tenth_thicker_does_not() {
    let text = std::fs::read_to_string("examples/round-tail-6ft4.toml").unwrap();
    let board = Board::new(sound(&text)).unwrap();
    let told = board
        .yard
        .troubles
        .iter()
        .find(|t| t.headline.contains("twisted"))
        .unwrap();
    let words = told.remedy.split("strips ").nth(1).unwrap();
    let words = words.trim_start_matches("of ");
    let offered: f64 = words.split(' ').next().unwrap().parse().unwrap();
    let (work, d) = board.yard.worst(Strained::Twist).unwrap();
    let strain = |t: f64| twist_strain(work.section[1], t, d.curvature).unwrap();
    assert!(strain(offered) <= d.utilisation.limit, "{}", told.remedy);
    assert!(
        strain(offered + 0.1) > d.utilisation.limit,
        "{}",
        told.remedy
    );
}
