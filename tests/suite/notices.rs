//! Every warning and note stands in every list: on both screens, on the index, in `board.json`, in `check --json` and in the table.

use crate::common::program;
use program::{assert_code, empty, err, example, out, run_in};
use serde_json::Value;

/// A name, the design, the source and severity that it must have notices of, and words of the headline.
type Case = (
    &'static str,
    String,
    &'static str,
    &'static str,
    &'static str,
);

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
        (
            "cutter",
            cutter,
            "frame",
            "warning",
            "narrower than the cutter",
        ),
        ("plug", plug, "fittings", "warning", "fin-1"),
        ("rider", rider, "float", "note", "does not float"),
        ("wide-strips", wide.clone(), "strips", "warning", "are bent"),
        ("wide-rail", wide, "rail", "warning", "stock proud"),
        (
            "short-planks",
            short,
            "strips",
            "warning",
            "wood cannot be cut",
        ),
        ("twin", twin.clone(), "skins", "warning", "deck skin"),
        (
            "twist",
            twin,
            "strips",
            "note",
            "twist of the strips is not judged",
        ),
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

/// White space of any width as one space: screens break lines.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn unescaped(html: &str) -> String {
    let pairs = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&amp;", "&"),
    ];
    pairs
        .iter()
        .fold(html.to_owned(), |text, (from, to)| text.replace(from, to))
}

#[test]
fn every_list_has_every_notice() {
    let folder = empty("notices");
    for (name, text, source, severity, words) in cases() {
        let file = format!("{name}.toml");
        std::fs::write(folder.join(&file), text).unwrap();
        let build = run_in(&folder, &["build", &file, "-o", name]);
        assert_code(&build, 0);
        let read = |path: &str| std::fs::read_to_string(folder.join(name).join(path)).unwrap();
        let json: Value = serde_json::from_str(&read("board.json")).unwrap();
        let list = json["warnings"].as_array().unwrap();
        let text = |notice: &Value, key: &str| notice[key].as_str().unwrap().to_owned();

        // What the design was made for is there, with something to change.
        let meant = |n: &&Value| {
            text(n, "source") == source
                && text(n, "severity") == severity
                && text(n, "headline").contains(words)
        };
        let found = list.iter().find(meant);
        let found = found.unwrap_or_else(|| panic!("{name}: {list:#?}"));
        assert!(!found["remedies"].as_array().unwrap().is_empty(), "{found}");

        // Whatever stands in a list of one kind stands in this.
        let mut warnings = 0;
        for kind in [
            "/frame_troubles",
            "/strips/troubles",
            "/skins/troubles",
            "/clashes",
            "/rail/troubles",
        ] {
            for trouble in json.pointer(kind).unwrap().as_array().unwrap() {
                warnings += 1;
                // The rail's are kept without words: by limit and remedy.
                let same = |n: &&Value| match trouble["headline"].as_str() {
                    Some(headline) => text(n, "headline") == headline,
                    None => n["limit"] == trouble["limit"] && n["remedies"][0] == trouble["remedy"],
                };
                assert!(list.iter().any(|n| same(&n)), "{name}: {trouble}");
            }
        }
        for lying in json["afloat"].as_array().unwrap() {
            let sinks = list.iter().any(|n| {
                text(n, "source") == "float"
                    && n["value"] == lying["mass"]
                    && n["limit"] == lying["carries"]
            });
            assert_eq!(lying["trouble"].is_string(), sinks, "{name}: {lying}");
        }
        let of = |severity: &str| {
            list.iter()
                .filter(|n| text(n, "severity") == severity)
                .count()
        };
        assert_eq!(of("warning"), warnings, "{name}");
        assert_eq!(of("note"), list.len() - warnings, "{name}");

        // The same list from `check`, and the same count from `build`.
        let check = run_in(&folder, &["check", &file, "--json"]);
        let checked: Value = serde_json::from_slice(&check.stdout).unwrap();
        assert_eq!(checked["warnings"], json["warnings"], "{name}");
        let again = run_in(&folder, &["build", &file, "-o", name, "--json"]);
        let counted: Value = serde_json::from_slice(&again.stdout).unwrap();
        assert_eq!(counted["warnings"], warnings, "{name}");
        assert_eq!(counted["notes"], list.len() - warnings, "{name}");
        let strict = run_in(&folder, &["check", &file, "--strict"]);
        assert_code(&strict, if warnings > 0 { 4 } else { 0 });

        let built = out(&build);
        assert_eq!(
            built.lines().filter(|l| l.starts_with("warning: ")).count(),
            warnings,
            "{built}"
        );
        assert_eq!(
            built.lines().filter(|l| l.starts_with("note: ")).count(),
            of("note"),
            "{built}"
        );
        let screen = flowing(&out(&strict));
        let page = flowing(&unescaped(&read("index.html")));
        let table = rows(&read("tables/warnings.csv"));
        assert_eq!(table.len(), list.len() + 1, "{name}: {}", err(&build));
        let column = |head: &str| table[0].iter().position(|h| h.starts_with(head)).unwrap();
        for (notice, row) in list.iter().zip(&table[1..]) {
            let (headline, extent) = (text(notice, "headline"), text(notice, "extent"));
            let sentence = if extent.is_empty() {
                headline.clone()
            } else {
                format!("{headline}: {extent}")
            };
            assert!(screen.contains(&flowing(&sentence)), "{sentence}\n{screen}");
            assert!(
                built.contains(&format!("{}: {sentence}\n", text(notice, "severity"))),
                "{built}"
            );
            assert!(
                page.contains(&flowing(&format!("<strong>{headline}</strong>"))),
                "{headline}"
            );
            assert!(page.contains(&flowing(&extent)), "{extent}");
            for (head, key) in [
                ("severity", "severity"),
                ("source", "source"),
                ("part", "part"),
                ("what is wrong", "headline"),
                ("where", "extent"),
            ] {
                // Text that a spreadsheet would take for a formula has an apostrophe before it.
                let words = text(notice, key);
                let sign = words.starts_with(['+', '-', '=', '@']);
                let guard = if sign { "'" } else { "" };
                assert_eq!(row[column(head)], format!("{guard}{words}"), "{name}");
            }
            for (head, key) in [
                ("from the tail", "x"),
                ("value", "value"),
                ("limit", "limit"),
            ] {
                match notice[key].as_f64() {
                    Some(number) => {
                        let shown: f64 = row[column(head)].parse().unwrap();
                        assert!((shown - number).abs() < 1e-3, "{row:?}");
                    }
                    None => assert_eq!(row[column(head)], "", "{row:?}"),
                }
            }
            for remedy in notice["remedies"].as_array().unwrap() {
                let remedy = remedy.as_str().unwrap();
                assert!(row[column("what to change")].contains(remedy), "{row:?}");
                assert!(screen.contains(&flowing(remedy)), "{remedy}");
                assert!(page.contains(&flowing(remedy)), "{remedy}");
            }
        }
        let told = screen.matches(" → ").count();
        assert_eq!(told, list.len(), "{name}: one arrow a notice");
    }
}
