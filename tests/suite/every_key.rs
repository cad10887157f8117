//! Designs over every documented key: refused with places, or boards whose files are sound and whose parts go together.
//!
//! `BOARDWRIGHT_DESIGNS=700` runs that many, seven in ten of them plausible, and prints what became of them;
//! `BOARDWRIGHT_SEED` draws others; `BOARDWRIGHT_FAILURES` names a folder for the smallest files that fail.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use boardwright::design::{KeyKind, parse, tables};

use crate::common::any_design::{AnyDesign, Dice, plausible, wild};
use crate::common::outcome::{Outcome, outcome};

/// Designs in a run of the suite.
const USUAL: usize = 20;
/// Seed in a run of the suite.
const SEED: u64 = 9;

fn variable(name: &str) -> Option<String> {
    std::env::var(name).ok().filter(|v| !v.is_empty())
}

fn seed() -> u64 {
    variable("BOARDWRIGHT_SEED").map_or(SEED, |s| s.parse().unwrap())
}

/// A design of the series: seven in ten are plausible.
fn design(number: usize) -> (bool, AnyDesign) {
    let mut dice = Dice::new(seed(), number as u64);
    let sober = number % 10 < 7;
    (
        sober,
        if sober {
            plausible(&mut dice)
        } else {
            wild(&mut dice)
        },
    )
}

/// Every key of the table is written, with several values, in designs that the parser accepts.
#[test]
fn every_documented_key_is_varied() {
    let mut seen: BTreeMap<(&str, &str), BTreeSet<String>> = BTreeMap::new();
    let mut accepted = [0, 0];
    for number in 0..700 {
        let (sober, design) = design(number);
        if parse(&design.text(), "any.toml").is_err() {
            continue;
        }
        accepted[usize::from(sober)] += 1;
        for line in design.lines {
            let values = seen.entry((line.table.path, line.key.name)).or_default();
            values.insert(line.text);
        }
    }
    let mut never = String::new();
    for table in tables() {
        for key in table.keys {
            let values = seen.get(&(table.path, key.name)).map_or(0, BTreeSet::len);
            let least = match key.kind {
                KeyKind::Choice(words) => words.len(),
                KeyKind::Text(_) => 2,
                KeyKind::Count(least, most) => ((most - least) as usize + 1).min(2),
                _ => 5,
            };
            if values < least {
                writeln!(never, "{} {}: {values} values", table.header(), key.name).unwrap();
            }
        }
    }
    assert!(never.is_empty(), "keys that are hardly varied:\n{never}");
    // Plausible means that the parser takes nearly all of them; of wild ones it takes some.
    assert!(accepted[1] >= 441 && accepted[0] >= 30, "{accepted:?}");
}

/// What becomes of every design of the series, on all processors.
fn outcomes(count: usize) -> Vec<(bool, AnyDesign, Outcome)> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    if number >= count {
                        break;
                    }
                    let (sober, design) = design(number);
                    let outcome = outcome(&design.text(), sober);
                    done.lock()
                        .unwrap()
                        .push((number, (sober, design, outcome)));
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap();
    done.sort_by_key(|(number, _)| *number);
    done.into_iter().map(|(_, outcome)| outcome).collect()
}

/// How many designs are followed.
fn count() -> usize {
    variable("BOARDWRIGHT_DESIGNS").map_or(USUAL, |n| n.parse().unwrap())
}

#[test]
fn any_design_is_refused_or_becomes_a_sound_board() {
    let all = outcomes(count());
    println!("{}", summary(&all));
    if let Some(folder) = variable("BOARDWRIGHT_FAILURES") {
        write_failures(&folder, &all);
    }
    for (number, (_, design, outcome)) in all.iter().enumerate() {
        let wrongs = &outcome.wrongs;
        assert!(
            wrongs.is_empty(),
            "design {number}: {wrongs:?}\n{}",
            design.text()
        );
    }
}

#[test]
fn plausible_boards_go_together() {
    let all = outcomes(count());
    println!("{}", summary(&all));
    for (number, (_, design, outcome)) in all.iter().enumerate() {
        let misfits = &outcome.misfits;
        assert!(
            misfits.is_empty(),
            "design {number}: {misfits:?}\n{}",
            design.text()
        );
    }
}

/// Counts and extremes, for the plausible and for the wild ones.
fn summary(all: &[(bool, AnyDesign, Outcome)]) -> String {
    let mut text = String::new();
    for sober in [true, false] {
        let of: Vec<&Outcome> = all.iter().filter(|a| a.0 == sober).map(|a| &a.2).collect();
        let boards: Vec<&&Outcome> = of
            .iter()
            .filter(|o| o.accepted() && o.wrongs.is_empty())
            .collect();
        let parsed = of.iter().filter(|o| o.faults.is_empty()).count();
        let mut say = |line: String| writeln!(text, "{line}").unwrap();
        say(format!(
            "{} {} designs: {parsed} parsed, {} boards, {} refused by the parser, {} by the kernel",
            of.len(),
            if sober { "plausible" } else { "wild" },
            boards.len(),
            of.iter().filter(|o| !o.faults.is_empty()).count(),
            of.iter().filter(|o| o.refusal.is_some()).count(),
        ));
        let faults: usize = of.iter().map(|o| o.faults.len()).sum();
        say(format!("  {faults} faults"));
        let mut findings: Vec<usize> = boards.iter().map(|o| o.findings).collect();
        findings.sort_unstable();
        if let (Some(middle), Some(most)) = (findings.get(findings.len() / 2), findings.last()) {
            say(format!("  findings a board: median {middle}, most {most}"));
        }
        if let Some(far) = of.iter().max_by(|a, b| a.largest.0.total_cmp(&b.largest.0)) {
            say(format!(
                "  largest coordinate {:.0} mm in {}",
                far.largest.0, far.largest.1
            ));
        }
        let unfit = boards.iter().filter(|o| !o.misfits.is_empty()).count();
        say(format!("  dry fits past limits: {unfit}"));
        for (number, (_, _, outcome)) in all.iter().enumerate().filter(|a| a.1.0 == sober) {
            if let Some(first) = outcome.misfits.first() {
                say(format!("  design {number}: {first}"));
            }
        }
        let grouped = |pick: &dyn Fn(&Outcome) -> Vec<String>| {
            let mut groups: BTreeMap<String, usize> = BTreeMap::new();
            for o in &of {
                // A design counts once for each sort.
                for sort in pick(o).into_iter().collect::<BTreeSet<String>>() {
                    *groups.entry(sort).or_default() += 1;
                }
            }
            let mut groups: Vec<(usize, String)> =
                groups.into_iter().map(|(k, n)| (n, k)).collect();
            groups.sort_by(|a, b| b.cmp(a));
            groups
        };
        let lists: [(&str, Vec<(usize, String)>); 4] = [
            ("refused by the parser", grouped(&|o| o.faults.clone())),
            (
                "refused by the kernel",
                grouped(&|o| o.refusal.clone().into_iter().collect()),
            ),
            (
                "past limits of the dry fit",
                grouped(&|o| {
                    let kind = |m: &String| m.split(':').next().unwrap_or_default().to_owned();
                    o.misfits.iter().map(kind).collect()
                }),
            ),
            (
                "wrong",
                grouped(&|o| {
                    o.wrongs
                        .iter()
                        .map(|w| crate::common::outcome::masked(w))
                        .collect()
                }),
            ),
        ];
        for (title, groups) in lists {
            for (count, sort) in groups.iter().take(40) {
                say(format!("  {title}: {count} × {sort}"));
            }
        }
    }
    text
}

/// Writes the smallest file for the first design of every sort of failure, and a list of all.
fn write_failures(folder: &str, all: &[(bool, AnyDesign, Outcome)]) {
    let sort = |o: &Outcome| {
        let failure = o.failure()?;
        Some(failure.split(&[':', '('][..]).take(2).collect::<String>())
    };
    let mut sorts: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (number, (_, _, outcome)) in all.iter().enumerate() {
        if let Some(sort) = sort(outcome) {
            sorts.entry(sort).or_default().push(number);
        }
    }
    let _ = std::fs::create_dir_all(folder);
    let mut list = String::new();
    for (name, numbers) in &sorts {
        for &number in numbers.iter().take(3) {
            let (sober, design, first) = &all[number];
            let smallest =
                design.smallest(|text| sort(&outcome(text, *sober)).as_ref() == Some(name));
            let now = outcome(&smallest.text(), *sober);
            let file = format!("{number:04}.toml");
            std::fs::write(format!("{folder}/{file}"), smallest.text()).unwrap();
            let what = now
                .wrongs
                .first()
                .or(now.misfits.first())
                .cloned()
                .unwrap_or_default();
            writeln!(
                list,
                "{file}: {what} (as drawn: {:?}; {} designs alike)",
                first.wrongs.first().or(first.misfits.first()),
                numbers.len()
            )
            .unwrap();
            std::fs::write(format!("{folder}/README"), &list).unwrap();
        }
    }
}
