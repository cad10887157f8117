//! The JSON Schema of the design file, judged by an independent validator: it takes every sound file, and refuses every fault of a
//! single key.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::units::Unit;
use boardwright::design::{Fallback, Key, KeyKind, TableKeys, parse, schema, starter, tables};
use serde_json::json;
use toml::{Table, Value};

use crate::common::any_design::{Dice, plausible, wild};
use crate::common::program::{assert_code, empty, out, run_in};
use crate::common::python;

/// The least file, as long as the board of the samples in the table of keys.
const LEAST: &str =
    "name = 'Least'\n[outline]\nlength = \"6' 4\\\"\"\nwidth = 500\n[foil]\ncentre = 65\n";

#[derive(serde::Serialize)]
struct Case {
    name: String,
    text: String,
    sound: bool,
}

fn case(name: impl Into<String>, text: impl Into<String>, sound: bool) -> Case {
    Case {
        name: name.into(),
        text: text.into(),
        sound,
    }
}

fn value(sample: &str) -> Value {
    let table: Table = toml::from_str(&format!("v = {sample}")).unwrap();
    table["v"].clone()
}

/// The table of a file at a dotted path, made where it is missing; of a repeated one the first, with its required keys.
fn at<'t>(file: &'t mut Table, table: &TableKeys) -> &'t mut Table {
    let mut place = file;
    let steps: Vec<&str> = table.path.split('.').filter(|s| !s.is_empty()).collect();
    for (i, step) in steps.iter().enumerate() {
        let last = i + 1 == steps.len();
        let new = if last && table.repeated() {
            let required = table
                .keys
                .iter()
                .filter(|k| k.fallback == Fallback::Required);
            let keys = required.map(|k| (k.name.to_owned(), value(k.sample)));
            Value::Array(vec![Value::Table(keys.collect())])
        } else {
            Value::Table(Table::new())
        };
        place = match place.entry(*step).or_insert(new) {
            Value::Table(table) => table,
            Value::Array(list) => list[0].as_table_mut().unwrap(),
            other => panic!("{other}"),
        };
    }
    place
}

/// The least file with a key set, in the company it needs.
fn with(table: &TableKeys, key: &Key, set: Value) -> Table {
    let mut file: Table = toml::from_str(LEAST).unwrap();
    let keys = at(&mut file, table);
    for rival in table.keys {
        if key.instead == Some(rival.name) || rival.instead == Some(key.name) {
            keys.remove(rival.name);
        }
    }
    if let Some((selector, words)) = key.only {
        keys.insert(selector.to_owned(), Value::String(words[0].to_owned()));
    }
    keys.insert(key.name.to_owned(), set);
    file
}

fn text(file: &Table) -> String {
    toml::to_string(file).unwrap()
}

/// Values that are none of the key's: of other types, other words, and beyond its range.
fn wrong_values(key: &Key) -> Vec<Value> {
    let mut wrong = vec![Value::Boolean(true), Value::Table(Table::new())];
    if !matches!(key.kind, KeyKind::Pairs(..) | KeyKind::Places(..)) {
        wrong.push(Value::Array(vec![Value::Integer(1)]));
    }
    match key.kind {
        KeyKind::Text(most) => {
            wrong.extend([Value::Integer(3), Value::String("x".repeat(most + 1))]);
        }
        KeyKind::Choice(words) => {
            wrong.push(Value::Integer(3));
            wrong.push(Value::String(format!("{}-", words[0])));
            wrong.push(Value::String(words[0].to_uppercase()));
        }
        KeyKind::Length(least, most) => {
            wrong.extend([Value::Float(least - 0.5), Value::Float(most + 0.5)]);
            for none in [
                "",
                "wide",
                "20,5 mm",
                "12 furlongs",
                "3/ in",
                "mm",
                "6' 4' 3'",
            ] {
                wrong.push(Value::String(none.to_owned()));
            }
        }
        KeyKind::Degrees(least, most) | KeyKind::Number(least, most) => {
            wrong.extend([Value::Float(least - 0.01), Value::Float(most + 0.01)]);
            wrong.push(Value::String("25".to_owned()));
        }
        KeyKind::Count(least, most) => {
            wrong.push(Value::Integer(i64::from(least) - 1));
            wrong.push(Value::Integer(i64::from(most) + 1));
            wrong.push(Value::Float(f64::from(least) + 0.5));
        }
        KeyKind::Pairs(_, least, most) => {
            let pair = |y: f64| Value::Array(vec![Value::Integer(500), Value::Float(y)]);
            wrong.push(Value::Array(vec![Value::Integer(500)]));
            wrong.push(Value::Array(vec![pair(least - 0.5)]));
            wrong.push(Value::Array(vec![pair(most + 0.5)]));
            wrong.push(Value::Array(vec![pair((least + most) / 2.0); 201]));
            wrong.push(Value::Array(vec![Value::Array(vec![Value::Integer(5); 3])]));
        }
        KeyKind::Places(least, most) => {
            wrong.push(Value::Array(vec![Value::Integer(500); least - 1]));
            wrong.push(Value::Array(vec![Value::Integer(500); most + 1]));
            wrong.push(Value::Array(vec![Value::Boolean(true); least]));
        }
    }
    wrong
}

/// Every fault of a single key, from the table of keys.
fn single_faults(cases: &mut Vec<Case>) {
    for table in tables() {
        let header = table.header();
        for key in table.keys {
            let name = format!("{header} {}", key.name);
            let sample = with(table, key, value(key.sample));
            cases.push(case(format!("{name}: its sample"), text(&sample), true));
            for wrong in wrong_values(key) {
                let file = with(table, key, wrong.clone());
                cases.push(case(format!("{name} = {wrong}"), text(&file), false));
            }
            if let Some(other) = key.instead {
                let mut file = sample.clone();
                let other = table.key(other).unwrap();
                at(&mut file, table).insert(other.name.to_owned(), value(other.sample));
                cases.push(case(
                    format!("{name} beside {}", other.name),
                    text(&file),
                    false,
                ));
            }
            if let Some((selector, words)) = key.only {
                let KeyKind::Choice(all) = table.key(selector).unwrap().kind else {
                    panic!("{name}");
                };
                for word in all.iter().filter(|word| !words.contains(word)) {
                    let mut file = sample.clone();
                    at(&mut file, table)
                        .insert(selector.to_owned(), Value::String((*word).to_owned()));
                    cases.push(case(format!("{name} for {word}"), text(&file), false));
                }
            }
            if let Some(narrowed) = key.narrowed {
                for (word, least, most) in narrowed.words {
                    for (mm, sound) in [
                        (*least, true),
                        (*most, true),
                        (least - 0.1, false),
                        (most + 0.1, false),
                    ] {
                        let mut file = with(table, key, Value::Float(mm));
                        at(&mut file, table)
                            .insert(narrowed.by.to_owned(), Value::String((*word).to_owned()));
                        cases.push(case(format!("{name} {mm} for {word}"), text(&file), sound));
                    }
                }
            }
            if matches!(
                key.fallback,
                Fallback::Required | Fallback::RequiredUnless(_)
            ) {
                let mut file = sample.clone();
                at(&mut file, table).remove(key.name);
                cases.push(case(format!("{name} missing"), text(&file), false));
            }
            // Plain numbers of another unit have its ranges.
            for unit in Unit::ALL {
                let KeyKind::Length(least, most) = key.kind else {
                    continue;
                };
                let wide = [least, most, least - 1.0, most + 1.0];
                for (i, mm) in wide.into_iter().enumerate() {
                    let mut file = with(table, key, Value::Float(mm / unit.in_mm()));
                    file.insert("unit".to_owned(), Value::String(unit.symbol().to_owned()));
                    // The least file's own numbers are millimetres.
                    for (path, name, mm) in [("outline", "width", 500), ("foil", "centre", 65)] {
                        let own = file.get_mut(path).and_then(|t| t.as_table_mut()).unwrap();
                        if own.contains_key(name) && (path, name) != (table.path, key.name) {
                            own.insert(name.to_owned(), Value::String(format!("{mm} mm")));
                        }
                    }
                    // Samples of required keys beside it are millimetres too.
                    for beside in table.keys.iter().filter(|k| k.name != key.name) {
                        let own = at(&mut file, table);
                        if let (KeyKind::Length(..), Some(Value::Integer(mm))) =
                            (beside.kind, own.get(beside.name).cloned())
                        {
                            own.insert(beside.name.to_owned(), Value::String(format!("{mm} mm")));
                        }
                    }
                    let said = format!("{name} = {mm} mm in {}", unit.symbol());
                    cases.push(case(said, text(&file), i < 2));
                }
            }
        }
        let mut file: Table = toml::from_str(LEAST).unwrap();
        at(&mut file, table).insert("colour".to_owned(), Value::Integer(3));
        cases.push(case(
            format!("{header} with an unknown key"),
            text(&file),
            false,
        ));
        if table.repeated() {
            let mut file: Table = toml::from_str(LEAST).unwrap();
            let one = Value::Table(at(&mut file, table).clone());
            let mut parent = &mut file;
            let (above, last) = table.path.rsplit_once('.').unwrap_or(("", table.path));
            for step in above.split('.').filter(|s| !s.is_empty()) {
                parent = parent.get_mut(step).unwrap().as_table_mut().unwrap();
            }
            parent.insert(last.to_owned(), Value::Array(vec![one; table.most + 1]));
            cases.push(case(format!("{header} too often"), text(&file), false));
        }
    }
}

/// Files that the parser takes: examples, fixtures, the starter, and designs drawn at random in every unit.
fn sound_files(cases: &mut Vec<Case>) {
    cases.push(case("the starter", starter(), true));
    cases.push(case("the least file", LEAST, true));
    for folder in ["examples", "tests/fixtures/at_large"] {
        let folder = format!("{}/{folder}", env!("CARGO_MANIFEST_DIR"));
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|e| e == "toml") {
                let text = std::fs::read_to_string(&path).unwrap();
                cases.push(case(path.display().to_string(), text, true));
            }
        }
    }
    for number in 0..200 {
        let mut dice = Dice::new(5, number);
        let design = match number % 2 {
            0 => plausible(&mut dice),
            _ => wild(&mut dice),
        };
        if parse(&design.text(), "any.toml").is_ok() {
            cases.push(case(format!("drawn {number}"), design.text(), true));
        }
    }
    for length in [
        "6' 4 1/2\"",
        "6ft 4in",
        "6'-4 1/2\"",
        "6'4",
        "78¾\"",
        "78.125in",
        "1.9 m",
        "1985",
        " 2.6 m ",
        "6′ 4″",
        "76 1⁄2 inches",
        "+6 Feet",
    ] {
        let file = LEAST.replace("6' 4\\\"", &length.replace('"', "\\\""));
        cases.push(case(length, file, true));
    }
}

#[test]
fn an_independent_validator_agrees_with_the_parser_on_single_keys() {
    let mut cases = Vec::new();
    sound_files(&mut cases);
    let whole = cases.len();
    single_faults(&mut cases);
    // The parser is the judge: what a case says of its file is so. A key's bounds and samples may break a rule between keys, which is no
    // fault of that key, so only whole files are held to it.
    for (i, case) in cases.iter().enumerate() {
        let taken = parse(&case.text, "case.toml").is_ok();
        assert!(
            taken == case.sound || (case.sound && i >= whole && !case.name.is_empty()),
            "{}: {}",
            case.name,
            case.text
        );
    }
    assert!(cases.iter().filter(|c| !c.sound).count() > 1000 && whole > 100);
    let folder = python::scratch("schema");
    let (schema_file, cases_file) = (folder.join("schema.json"), folder.join("cases.json"));
    std::fs::write(&schema_file, schema().to_string()).unwrap();
    std::fs::write(&cases_file, json!(cases).to_string()).unwrap();
    let arguments = [&schema_file, &cases_file].map(|p| p.to_str().unwrap());
    if let Some(counts) = python::run("check_schema.py", &arguments) {
        println!("{counts}");
        let refused = cases.iter().filter(|c| !c.sound).count();
        assert_eq!(counts["refused"], refused);
        assert_eq!(counts["accepted"], cases.len() - refused);
    }
}

/// Editors show the schema's descriptions and defaults; every key has both a description and a type.
#[test]
fn the_command_prints_the_schema_with_every_key_described() {
    let folder = empty("cli-schema");
    let printed = run_in(&folder, &["schema"]);
    assert_code(&printed, 0);
    let schema: serde_json::Value = serde_json::from_str(&out(&printed)).unwrap();
    assert_eq!(
        out(&printed),
        format!("{:#}\n", boardwright::design::schema())
    );
    for table in tables() {
        let mut at = &schema;
        for step in table.path.split('.').filter(|s| !s.is_empty()) {
            at = &at["properties"][step];
            if at["items"].is_object() {
                at = &at["items"];
            }
        }
        for key in table.keys {
            let member = &at["properties"][key.name];
            let said = member["description"].as_str().unwrap_or_default();
            assert!(
                said.contains(key.doc),
                "{} {}: {member}",
                table.header(),
                key.name
            );
            if let Fallback::Word(word) = key.fallback {
                assert_eq!(member["default"], word);
            }
        }
    }
}
