//! A JSON Schema of the design file, made from the tables of keys, for editors that check and complete as one types.

use serde_json::{Map, Value, json};

use super::key::{Fallback, Key, KeyKind, POINTS, TableKeys};
use super::keys::tables;
use super::manual::describe;
use super::scalar::plain;
use super::schema_length::length_pattern;
use crate::design::units::Unit;

/// The JSON Schema (draft 2020-12) of a design file.
///
/// It holds every table and key: types, words, ranges, required keys, keys that belong to a word of another or contradict another. Ranges
/// of lengths are held where they are plain numbers, by the file's `unit`; a length with a unit of its own is held to its writing alone.
/// Rules between values ([`rules`](super::rules)) are the parser's to check.
pub fn schema() -> Value {
    let mut root = object_of(&tables()[0]);
    for table in tables().iter().filter(|table| !table.path.is_empty()) {
        let object = object_of(table);
        let member = match table.repeated() {
            true => json!({
                "type": "array",
                "description": table.doc,
                "maxItems": table.most,
                "items": object,
            }),
            false => object,
        };
        put(&mut root, table.path, member);
    }
    let mut defs = Map::new();
    defs.insert(
        "length".to_owned(),
        json!({ "type": ["number", "string"], "pattern": length_pattern() }),
    );
    let mut by_unit = Vec::new();
    for unit in Unit::ALL {
        let name = format!("plain-{}", unit.symbol());
        let mut when = json!({ "properties": { "unit": { "const": unit.symbol() } } });
        if unit != Unit::Mm {
            when["required"] = json!(["unit"]);
        }
        by_unit.push(json!({ "if": when, "then": { "$ref": format!("#/$defs/{name}") } }));
        defs.insert(name, ranges_in(unit));
    }
    if let Some(Value::Array(all)) = root.get_mut("allOf") {
        all.append(&mut by_unit);
    } else {
        root["allOf"] = Value::Array(by_unit);
    }
    root["$schema"] = json!("https://json-schema.org/draft/2020-12/schema");
    root["title"] = json!("boardwright design file");
    root["$defs"] = Value::Object(defs);
    root
}

/// Puts the schema of a table where its dotted path leads.
fn put(root: &mut Value, path: &str, member: Value) {
    let mut at = root;
    let mut steps = path.split('.').peekable();
    while let Some(step) = steps.next() {
        let inside = &mut at["properties"][step];
        if steps.peek().is_none() {
            *inside = member;
            return;
        }
        at = inside;
    }
}

/// The schema of one table, without the tables below it.
fn object_of(table: &TableKeys) -> Value {
    let mut properties = Map::new();
    let mut conditions = Vec::new();
    let mut required = Vec::new();
    for key in table.keys {
        properties.insert(key.name.to_owned(), member(key));
        match key.fallback {
            Fallback::Required => required.push(key.name),
            Fallback::RequiredUnless(other) => conditions
                .push(json!({ "anyOf": [{ "required": [key.name] }, { "required": [other] }] })),
            _ => {}
        }
        if let Some(other) = key.instead {
            conditions.push(json!({ "not": { "required": [key.name, other] } }));
        }
        if let Some((selector, words)) = key.only {
            let mut then = json!({ "properties": { selector: { "enum": words } } });
            let default = table.key(selector).map(|key| key.fallback);
            if !matches!(default, Some(Fallback::Word(word)) if words.contains(&word)) {
                then["required"] = json!([selector]);
            }
            conditions.push(json!({ "if": { "required": [key.name] }, "then": then }));
        }
    }
    if table.path.is_empty() {
        required.extend(needed());
    }
    let mut object = json!({
        "type": "object",
        "description": table.doc,
        "additionalProperties": false,
        "properties": properties,
    });
    if !required.is_empty() {
        object["required"] = json!(required);
    }
    if !conditions.is_empty() {
        object["allOf"] = json!(conditions);
    }
    object
}

/// The tables that a file cannot do without, since they have required keys.
fn needed() -> impl Iterator<Item = &'static str> {
    let required = |key: &Key| {
        matches!(
            key.fallback,
            Fallback::Required | Fallback::RequiredUnless(_)
        )
    };
    let once = tables()
        .iter()
        .filter(|table| !table.repeated() && !table.path.is_empty());
    once.filter(move |table| table.keys.iter().any(required))
        .map(|table| table.path)
}

/// The schema of one key's value, without the ranges of lengths.
fn member(key: &Key) -> Value {
    let length = || json!({ "$ref": "#/$defs/length" });
    let mut member = match key.kind {
        KeyKind::Text(most) => json!({ "type": "string", "maxLength": most }),
        KeyKind::Choice(words) => json!({ "enum": words }),
        KeyKind::Length(..) => json!({ "allOf": [length()] }),
        KeyKind::Degrees(least, most) | KeyKind::Number(least, most) => {
            json!({ "type": "number", "minimum": least, "maximum": most })
        }
        KeyKind::Count(least, most) => {
            json!({ "type": "integer", "minimum": least, "maximum": most })
        }
        KeyKind::Pairs(..) => json!({
            "type": "array",
            "maxItems": POINTS,
            "items": { "type": "array", "minItems": 2, "maxItems": 2, "items": length() },
        }),
        KeyKind::Places(least, most) => json!({
            "type": "array",
            "minItems": least,
            "maxItems": most,
            "items": length(),
        }),
    };
    member["description"] = json!(describe(key));
    match (key.fallback, key.kind) {
        (Fallback::Word(word), _) => member["default"] = json!(word),
        (Fallback::Number(number), KeyKind::Length(..)) => {
            member["default"] = json!(format!("{} mm", plain(number)));
        }
        (Fallback::Number(number), _) => member["default"] = json!(number),
        _ => {}
    }
    member
}

/// The ranges of all lengths that are plain numbers of this unit.
fn ranges_in(unit: Unit) -> Value {
    let mut root = json!({ "properties": {} });
    for table in tables() {
        let mut properties = Map::new();
        let mut conditions = Vec::new();
        for key in table.keys {
            let bounds = |least: f64, most: f64| json!({ "minimum": unit.from_mm(least), "maximum": unit.from_mm(most) });
            match key.kind {
                KeyKind::Length(least, most) => {
                    properties.insert(key.name.to_owned(), bounds(least, most));
                }
                KeyKind::Pairs(_, least, most) => {
                    let pair = json!([true, bounds(least, most)]);
                    properties.insert(
                        key.name.to_owned(),
                        json!({ "items": { "prefixItems": pair } }),
                    );
                }
                _ => {}
            }
            if let Some(narrowed) = key.narrowed {
                for (word, least, most) in narrowed.words {
                    conditions.push(json!({
                        "if": {
                            "properties": { narrowed.by: { "const": word } },
                            "required": [narrowed.by],
                        },
                        "then": { "properties": { key.name: bounds(*least, *most) } },
                    }));
                }
            }
        }
        if properties.is_empty() {
            continue;
        }
        let mut object = json!({ "properties": properties });
        if !conditions.is_empty() {
            object["allOf"] = json!(conditions);
        }
        if table.repeated() {
            object = json!({ "items": object });
        }
        if table.path.is_empty() {
            root = object;
        } else {
            put_ranges(&mut root, table.path, object);
        }
    }
    root
}

/// Puts the ranges of a table where its dotted path leads, beside those of the tables above and below it.
fn put_ranges(root: &mut Value, path: &str, object: Value) {
    let mut at = root;
    for step in path.split('.') {
        at = &mut at["properties"][step];
    }
    *at = object;
}
