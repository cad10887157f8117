//! Every finding stands in every list: on both screens, on the index, in `board.json`, in `check --json` and in the table; and in words of the maker's unit.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::page::{flowing, unescaped};
use crate::common::program;
use boardwright::board::Board;
use boardwright::design::{self, finding::Code, units::Unit};
use boardwright::views::findings::{explain, text};
use program::{assert_code, empty, err, example, out, run_in};
use serde_json::Value;

/// A name, the design, the code and severity of a finding that it must have.
type Case = (&'static str, String, &'static str, &'static str);

fn cases() -> Vec<Case> {
    let read = |name: &str| std::fs::read_to_string(example(name)).unwrap();
    let twin = read("twin-5ft8.toml");
    let starter = boardwright::design::starter().to_owned();
    let changed = |text: &str, from: &str, to: &str| {
        let new = text.replace(from, to);
        assert_ne!(text, new, "{from}");
        new
    };
    let cutter = format!("{twin}\n[construction.cutter]\ndiameter = '6 mm'\n");
    let plug = format!("{twin}\n[plug]\nfrom_tail = '25 cm'\nfrom_centre = '15 cm'\n");
    let rider = format!("{twin}\n[rider]\nmass = 95\n");
    let wide = changed(&starter, "\nwidth = 12.7\n", "\nwidth = 24\n");
    let short = changed(&twin, "length = 210\n", "length = 30\n");
    let short = changed(&short, "length = 150\n", "length = 30\n");
    vec![
        ("cutter", cutter, "slot-narrow", "warning"),
        ("plug", plug, "pads-overlap", "error"),
        ("rider", rider, "sinks", "note"),
        ("wide-strips", wide.clone(), "bend-hard-way", "error"),
        ("wide-rail", wide, "planing-allowance", "warning"),
        ("short-planks", short, "scarf-no-room", "error"),
        ("twin", twin.clone(), "skin-strain-along", "warning"),
        ("twist", twin, "twist-unjudged", "note"),
    ]
}

/// Rows of a CSV file, fields unquoted.
fn rows(text: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut field, mut quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => field.extend(chars.next()),
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut field)),
            '\n' if !quoted => {
                row.push(std::mem::take(&mut field));
                rows.push(std::mem::take(&mut row));
            }
            '\r' if !quoted => {}
            c => field.push(c),
        }
    }
    rows
}

#[test]
fn every_list_has_every_finding() {
    let folder = empty("findings");
    for (name, text, code, severity) in cases() {
        let file = format!("{name}.toml");
        std::fs::write(folder.join(&file), text).unwrap();
        let build = run_in(&folder, &["build", &file, "-o", name]);
        assert_code(&build, 0);
        let read = |path: &str| std::fs::read_to_string(folder.join(name).join(path)).unwrap();
        let json: Value = serde_json::from_str(&read("board.json")).unwrap();
        assert_eq!(json["format"], boardwright::views::report::FORMAT);
        let list = json["findings"].as_array().unwrap();
        let text = |finding: &Value, key: &str| finding[key].as_str().unwrap().to_owned();

        // What the design was made for is there, with something to change.
        let meant = |f: &&Value| text(f, "code") == code && text(f, "severity") == severity;
        let found = list.iter().find(meant);
        let found = found.unwrap_or_else(|| panic!("{name}: {list:#?}"));
        assert!(!found["remedies"].as_array().unwrap().is_empty(), "{found}");

        // Once each, errors first; no other list beside it.
        let order = |f: &Value| {
            let severity = text(f, "severity");
            ["error", "warning", "note"]
                .iter()
                .position(|s| *s == severity)
        };
        assert!(list.is_sorted_by_key(order), "{name}");
        for (i, a) in list.iter().enumerate() {
            assert!(list[..i].iter().all(|b| a != b), "{a}");
        }
        for gone in [
            "/warnings",
            "/frame_troubles",
            "/clashes",
            "/strips/troubles",
            "/skins/troubles",
            "/rail/troubles",
        ] {
            assert!(json.pointer(gone).is_none(), "{gone}");
        }
        for float_states in json["afloat"].as_array().unwrap() {
            let sinks = list.iter().any(|f| {
                text(f, "code") == "sinks"
                    && f["value"] == float_states["mass"]
                    && f["limit"] == float_states["carries"]
            });
            assert_eq!(
                float_states["afloat"].is_null(),
                sinks,
                "{name}: {float_states}"
            );
        }

        // The same list from `check`, and the same counts from `build`.
        let of = |severity: &str| {
            list.iter()
                .filter(|f| text(f, "severity") == severity)
                .count()
        };
        let check = run_in(&folder, &["check", &file, "--json"]);
        let checked: Value = serde_json::from_slice(&check.stdout).unwrap();
        assert_eq!(checked["findings"], json["findings"], "{name}");
        let again = run_in(&folder, &["build", &file, "-o", name, "--json"]);
        let counted: Value = serde_json::from_slice(&again.stdout).unwrap();
        let built = out(&build);
        for (key, severity) in [
            ("errors", "error"),
            ("warnings", "warning"),
            ("notes", "note"),
        ] {
            assert_eq!(counted[key], of(severity), "{name}");
            let start = format!("{severity}: ");
            let lines = built.lines().filter(|l| l.starts_with(&start));
            assert_eq!(lines.count(), of(severity), "{built}");
        }
        let strict = run_in(&folder, &["check", &file, "--strict"]);
        let heeded = of("error") + of("warning");
        assert_code(&strict, if heeded > 0 { 4 } else { 0 });

        let screen = flowing(&out(&strict));
        let page = flowing(&unescaped(&read("index.html")));
        let table = rows(&read("tables/findings.csv"));
        assert_eq!(table.len(), list.len() + 1, "{name}: {}", err(&build));
        let column = |head: &str| table[0].iter().position(|h| h.starts_with(head)).unwrap();
        for (finding, row) in list.iter().zip(&table[1..]) {
            let (headline, extent) = (text(finding, "headline"), text(finding, "extent"));
            let code = text(finding, "code");
            let sentence = if extent.is_empty() {
                format!("{headline} [{code}]")
            } else {
                format!("{headline}: {extent} [{code}]")
            };
            assert!(screen.contains(&flowing(&sentence)), "{sentence}\n{screen}");
            assert!(
                built.contains(&format!("{}: {sentence}\n", text(finding, "severity"))),
                "{built}"
            );
            assert!(
                page.contains(&flowing(&format!("<strong>{headline}</strong>"))),
                "{headline}"
            );
            assert!(page.contains(&flowing(&extent)), "{extent}");
            for (head, key) in [
                ("code", "code"),
                ("severity", "severity"),
                ("topic", "topic"),
                ("what is wrong", "headline"),
                ("where", "extent"),
            ] {
                // Text that a spreadsheet would take for a formula has an apostrophe before it.
                let words = text(finding, key);
                let sign = words.starts_with(['+', '-', '=', '@']);
                let guard = if sign { "'" } else { "" };
                assert_eq!(row[column(head)], format!("{guard}{words}"), "{name}");
            }
            for (head, number) in [
                ("from the tail", &finding["place"]["x"]),
                ("off the centreline", &finding["place"]["y"]),
                ("value", &finding["value"]),
                ("limit", &finding["limit"]),
            ] {
                match number.as_f64() {
                    Some(number) => {
                        let shown: f64 = row[column(head)].parse().unwrap();
                        assert!((shown - number).abs() < 1e-3, "{row:?}");
                    }
                    None => assert_eq!(row[column(head)], "", "{row:?}"),
                }
            }
            for remedy in finding["remedies"].as_array().unwrap() {
                let remedy = remedy["words"].as_str().unwrap();
                assert!(row[column("what to change")].contains(remedy), "{row:?}");
                assert!(screen.contains(&flowing(remedy)), "{remedy}");
                assert!(page.contains(&flowing(remedy)), "{remedy}");
            }
        }
        // Every place of every finding, in the same order.
        let places = rows(&read("tables/finding-places.csv"));
        let wanted = list.iter().flat_map(|f| {
            let places = f["places"].as_array().unwrap();
            places.iter().map(move |p| (text(f, "code"), p))
        });
        let wanted: Vec<_> = wanted.collect();
        assert_eq!(places.len(), wanted.len() + 1, "{name}");
        for (row, (code, place)) in places[1..].iter().zip(wanted) {
            assert_eq!(row[0], code);
            let rib = place["rib"]
                .as_u64()
                .map_or(String::new(), |n| n.to_string());
            assert_eq!(row[3], rib, "{place}");
        }
        let output = screen.matches(" → ").count();
        assert_eq!(output, list.len(), "{name}: one arrow a finding");
    }
}

/// Boards with a finding of each of these codes; the rail's and the strips' are those of strips far too wide.
fn boards() -> Vec<(&'static [Code], String)> {
    let read = |name: &str| std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    let (twin, round) = (read("twin-5ft8"), read("round-tail-6ft4"));
    let wide = boardwright::design::starter().replace("\nwidth = 12.7\n", "\nwidth = 24\n");
    let thin = twin
        .replace("[\"5' 8\\\"\", 2.2]", "[\"5' 8\\\"\", 0.9]")
        .replace("[142.24, 4.1]", "[142.24, 2.2]")
        .replace("nose_block = 12", "nose_block = 4")
        .replace("132, 152]", "132, 165]");
    assert_ne!(thin, twin);
    let plug = format!("{twin}\n[plug]\nfrom_tail = 5\nfrom_centre = 0\n");
    let fin = |more: &str| {
        let (before, rest) = round.split_once("[fins]\n").unwrap();
        let (_, after) = rest.split_once("[timber]").unwrap();
        format!("{before}[[fins.fin]]\nbase = 100\n{more}\n[timber]{after}")
    };
    vec![
        (&[Code::PlaningAllowance, Code::BendHardWay], wide.clone()),
        (&[Code::RibLeftOut], thin),
        (&[Code::FittingOffBoard], plug),
        (
            &[Code::BaySealed],
            format!("{round}\n[construction.holes]\npattern = \"none\"\nbreather = \"40 mm\""),
        ),
        (
            &[Code::SlotNarrow],
            format!("{round}\n[construction.cutter]\nrelief = \"wall\"\ndiameter = \"8 mm\""),
        ),
        (
            &[Code::VentBlocked],
            format!("{round}\n[vent]\nfrom_tail = 50\n"),
        ),
        (
            &[Code::FittingInSpine],
            fin("from_tail = 300\nfrom_centre = 7\ncut_width = 12"),
        ),
        (
            &[Code::FittingInRail],
            fin("from_tail = 300\nfrom_centre = 165"),
        ),
        (
            &[Code::FittingTooDeep],
            fin("from_tail = 300\nfrom_centre = 60\ncut_depth = 40"),
        ),
        (
            &[Code::SpineLeftThin],
            fin("from_tail = 120\ncut_depth = 30"),
        ),
        (
            &[Code::Sinks, Code::SkinStrainAlong, Code::TwistUnjudged],
            format!("{twin}\n[rider]\nmass = 95\n"),
        ),
    ]
}

/// Every finding of a board is said in the maker's unit alone, names no key that the design file has not, and says nothing twice.
#[test]
fn findings_are_said_in_the_maker_s_unit() {
    let keys: Vec<&str> = boardwright::design::tables()
        .iter()
        .flat_map(|table| table.keys.iter().map(|key| key.name))
        .collect();
    for (codes, file) in boards() {
        let board = Board::new(design::parse(&file, "x").unwrap_or_else(|e| panic!("{e}")));
        let found = board.unwrap().findings();
        for code in codes {
            assert!(
                found.iter().any(|f| f.code == *code),
                "{code:?}: {found:#?}"
            );
        }
        for f in &found {
            let [metric, inches] = [Unit::Mm, Unit::In].map(|unit| {
                let text = text(f, unit);
                let lines = text.lines.iter().map(|l| format!("; {}", l.1));
                let lines: String = lines.collect();
                assert!(!text.headline.is_empty() && !text.remedies.is_empty());
                assert!(!text.extent.contains(&text.headline));
                format!("{}; {}{lines}", text.sentence(), text.remedies.join("; "))
            });
            let words = |text: &str| -> Vec<String> {
                text.split(|c: char| !c.is_alphanumeric() && c != '"')
                    .map(str::to_owned)
                    .collect()
            };
            let has = |text: &str, unit: &str| words(text).iter().any(|w| w == unit);
            for unit in ["mm", "kg", "cm"] {
                assert!(!has(&inches, unit), "{inches}");
            }
            assert!(!has(&metric, "lb") && !metric.contains(" ft"), "{metric}");
            for key in metric.split('`').skip(1).step_by(2) {
                let key = key.split(' ').next().unwrap();
                assert!(keys.contains(&key), "{key} in {metric}");
            }
        }
    }
}

/// `explain` lists every code, has a page for each, and helps with a slip.
#[test]
fn explain_tells_every_code() {
    let folder = empty("explain");
    let list = run_in(&folder, &["explain"]);
    assert_code(&list, 0);
    let list = out(&list);
    for code in Code::ALL {
        let name = code.name();
        let row = format!("{name} {} {}", code.severity().name(), code.title());
        assert!(flowing(&list).contains(&row), "{row}\n{list}");
        let page = run_in(&folder, &["explain", name]);
        assert_code(&page, 0);
        let page = out(&page);
        assert!(
            page.starts_with(&format!("{name}: {}", code.title())),
            "{page}"
        );
        let e = explain(*code);
        let flat = flowing(&page);
        for words in [e.meaning, e.cause, e.limit, e.sketch] {
            assert!(flat.contains(&flowing(words)), "{words}\n{page}");
        }
        assert!(
            e.remedies.iter().all(|r| flat.contains(&flowing(r))),
            "{page}"
        );
        assert!(page.lines().all(|l| l.chars().count() <= 90), "{page}");
    }
    let slip = run_in(&folder, &["explain", "join-gap"]);
    assert_code(&slip, 2);
    assert!(
        err(&slip).contains("the nearest: joint-gap"),
        "{}",
        err(&slip)
    );
    let stranger = run_in(&folder, &["explain", "zzz"]);
    assert_code(&stranger, 2);
    assert!(
        err(&stranger).contains("`boardwright explain` lists"),
        "{}",
        err(&stranger)
    );
    let help = out(&run_in(&folder, &["--help"]));
    assert!(help.contains("explain"), "{help}");
}
