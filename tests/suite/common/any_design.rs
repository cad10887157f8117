//! Designs at random over every key of the table of keys, as a maker would write them.

use std::fmt::Write;

use boardwright::design::timber;
use boardwright::design::units::{Unit, parse_length};
use boardwright::design::{Fallback, Key, KeyKind, TableKeys, Usual, tables};

/// Random numbers (SplitMix64: Steele, Lea & Flood, *Fast splittable pseudorandom number generators*, 2014).
pub struct Dice(u64);

impl Dice {
    /// Of a design's number in a series.
    pub fn new(seed: u64, number: u64) -> Self {
        let mut dice = Self(seed ^ number.wrapping_mul(0xd1b5_4a32_d192_ed03));
        dice.next();
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn pick<'t, T>(&mut self, of: &'t [T]) -> &'t T {
        &of[self.below(of.len())]
    }
}

/// What a line says.
#[derive(Debug, Clone, PartialEq)]
enum Value {
    /// Millimetres, degrees or as it is.
    Number(f64),
    Text(String),
    Pairs(Vec<[f64; 2]>),
    Places(Vec<f64>),
}

/// A line of a design file.
#[derive(Debug, Clone)]
pub struct Line {
    pub table: &'static TableKeys,
    /// Which of a repeated table it belongs to.
    nth: usize,
    pub key: &'static Key,
    value: Value,
    /// The value as the file has it.
    pub text: String,
}

/// A design file.
#[derive(Debug, Clone)]
pub struct AnyDesign {
    pub lines: Vec<Line>,
    unit: Unit,
}

/// Length of the board that the samples in the table of keys are of, mm.
const SAMPLE_LENGTH: f64 = 76.0 * 25.4;

/// A value a maker might write for every key of a plausible board: about what is usual, no key beside one that it contradicts.
pub fn plausible(dice: &mut Dice) -> AnyDesign {
    let unit = *dice.pick(&[Unit::Mm, Unit::Mm, Unit::Cm, Unit::M, Unit::In, Unit::Ft]);
    let mut design = AnyDesign {
        lines: Vec::new(),
        unit,
    };
    // Some makers write little down, some nearly all.
    let wordy = *dice.pick(&[0.08, 0.25, 0.6]);
    for table in tables() {
        let count = match table.repeated() {
            false => 1,
            true => dice.below(5).saturating_sub(1),
        };
        for nth in 0..count {
            fill(&mut design, dice, table, nth, wordy);
        }
    }
    agree(&mut design, dice);
    design
}

/// A plausible board with some of its values, from one to nearly all, anywhere within their documented ranges.
pub fn wild(dice: &mut Dice) -> AnyDesign {
    let mut design = plausible(dice);
    let keys: Vec<(&'static TableKeys, &'static Key)> = tables()
        .iter()
        .flat_map(|t| t.keys.iter().map(move |k| (t, k)))
        .collect();
    // Half of them no more than four.
    let count = (keys.len() as f64)
        .powf(dice.between(0.0, 1.0).powi(2))
        .floor() as usize;
    for _ in 0..count {
        let (table, key) = *dice.pick(&keys);
        if key.name == "unit" || (!belongs(&design, table, 0, key) && dice.chance(0.8)) {
            continue;
        }
        if table.repeated() && design.lines.iter().all(|l| l.table.path != table.path) {
            fill(&mut design, dice, table, 0, 0.0);
        }
        let value = anywhere(&design, dice, table, key);
        set(&mut design, dice, (table, 0, key), value);
    }
    design
}

/// Lines of one table.
fn fill(
    design: &mut AnyDesign,
    dice: &mut Dice,
    table: &'static TableKeys,
    nth: usize,
    wordy: f64,
) {
    // Keys that stand for others decide first.
    let rivals: Vec<&str> = table.keys.iter().filter_map(|k| k.instead).collect();
    let instead: Vec<&str> = rivals.into_iter().filter(|_| dice.chance(0.04)).collect();
    for key in table.keys {
        let required = matches!(
            key.fallback,
            Fallback::Required | Fallback::RequiredUnless(_)
        );
        let replaced = key.instead.is_some_and(|other| instead.contains(&other));
        let rival = table.keys.iter().any(|k| k.instead == Some(key.name));
        let wanted = match rival {
            true => instead.contains(&key.name),
            false => required || dice.chance(wordy),
        };
        if !wanted || replaced || !belongs(design, table, nth, key) {
            continue;
        }
        let value = if key.name == "unit" {
            Value::Text(design.unit.symbol().to_owned())
        } else {
            usual(design, dice, (table, nth, key))
        };
        set(design, dice, (table, nth, key), value);
    }
    // Bare numbers are in the unit that the file names.
    if let Some(key) = table.key("unit").filter(|_| design.unit != Unit::Mm) {
        let value = Value::Text(design.unit.symbol().to_owned());
        set(design, dice, (table, nth, key), value);
    }
}

/// Whether a key contradicts none of the lines so far and belongs to the word that another has.
fn belongs(design: &AnyDesign, table: &'static TableKeys, nth: usize, key: &Key) -> bool {
    let line = |name: &str| design.find(table.path, nth, name);
    let contradicts = table.keys.iter().any(|k| {
        line(k.name).is_some() && (k.instead == Some(key.name) || key.instead == Some(k.name))
    });
    let word = |selector: &str| match line(selector).map(|l| &l.value) {
        Some(Value::Text(word)) => word.clone(),
        _ => match table.key(selector).map(|k| k.fallback) {
            Some(Fallback::Word(word)) => word.to_owned(),
            _ => String::new(),
        },
    };
    let only = key
        .only
        .is_none_or(|(selector, words)| words.contains(&word(selector).as_str()));
    only && !contradicts
}

/// What rules across keys ask for that no key's own usual range can say.
fn agree(design: &mut AnyDesign, dice: &mut Dice) {
    let number = |d: &AnyDesign, path: &str, nth, name: &str| match d.find(path, nth, name)?.value {
        Value::Number(n) => Some(n),
        _ => None,
    };
    let word = |d: &AnyDesign, path: &str, nth, name: &str| match &d.find(path, nth, name)?.value {
        Value::Text(t) => Some(t.clone()),
        _ => None,
    };
    // A hard edge has a small radius.
    for nth in 0..4 {
        if word(design, "section", nth, "edge").as_deref() == Some("hard")
            && number(design, "section", nth, "edge_radius").is_some()
        {
            let radius = dice.between(0.8, 6.0);
            design.change(dice, "section", nth, "edge_radius", radius);
        }
    }
    // Bead within cove, and a cove no deeper than its arc.
    let strip = "construction.strip";
    let thickness = number(design, strip, 0, "thickness").unwrap_or(6.0);
    let bead = number(design, strip, 0, "bead_radius").unwrap_or(thickness / 2.0);
    let cove = number(design, strip, 0, "cove_radius").map(|r| r.max(bead));
    if let Some(cove) = cove {
        design.change(dice, strip, 0, "cove_radius", cove);
    }
    if number(design, strip, 0, "cove_depth").is_some() {
        let radius = cove.unwrap_or(bead);
        let arc = radius
            - (radius * radius - thickness * thickness / 4.0)
                .max(0.0)
                .sqrt();
        if arc > 0.3 {
            let depth = dice.between(0.7, 0.98) * arc;
            design.change(dice, strip, 0, "cove_depth", depth.max(0.2));
        } else {
            design.drop(strip, 0, "cove_depth");
        }
    }
    // A box is as long as its fin; between tabs there is wood.
    let tabs = word(design, "fins", 0, "cut").as_deref() == Some("tabs");
    let spacing = number(design, "fins", 0, "tab_spacing");
    if let Some(length) = number(design, "fins", 0, "cut_length").filter(|_| !tabs) {
        let base = number(design, "fins", 0, "base").unwrap_or(115.0);
        design.change(dice, "fins", 0, "cut_length", base + length / 3.0);
    }
    if tabs {
        for nth in 0..4 {
            design.drop("fins.fin", nth, "cut_length");
        }
        // Half of the shortest base against a quarter of the longest.
        match (spacing, number(design, "fins", 0, "cut_length")) {
            (None, None) => {}
            (None, Some(_)) => design.drop("fins", 0, "cut_length"),
            (Some(spacing), _) => {
                design.drop("fins", 0, "base");
                for nth in 0..4 {
                    design.drop("fins.fin", nth, "base");
                }
                design.change(dice, "fins", 0, "tab_spacing", spacing.max(52.0));
                design.change(dice, "fins", 0, "cut_length", spacing.max(52.0) / 2.0);
            }
        }
    }
    // The block behind a cleft is as long as the cleft asks.
    if word(design, "outline", 0, "tail").as_deref() == Some("swallow") {
        design.drop("construction", 0, "tail_block");
    }
}

/// A value that a maker might well choose.
fn usual(
    design: &AnyDesign,
    dice: &mut Dice,
    (table, nth, key): (&'static TableKeys, usize, &'static Key),
) -> Value {
    let scale = design.length() / SAMPLE_LENGTH;
    let near = |dice: &mut Dice, length: f64| dice.between(-0.015, 0.015) * length;
    match key.kind {
        KeyKind::Text(_) => Value::Text(text(dice, table, key)),
        KeyKind::Choice(words) => Value::Text((*dice.pick(words)).to_owned()),
        KeyKind::Pairs(_, least, most) => {
            let sample = pairs(key.sample);
            let last = sample.len() - 1;
            let moved = sample.iter().enumerate().map(|(i, &[x, y])| {
                let end = (i == 0 && x == 0.0) || (i == last && (x - SAMPLE_LENGTH).abs() < 0.1);
                let off = if end {
                    0.0
                } else {
                    near(dice, design.length())
                };
                [
                    x * scale + off,
                    (y * dice.between(0.92, 1.08)).clamp(least, most),
                ]
            });
            Value::Pairs(moved.collect())
        }
        KeyKind::Places(least, _) => {
            let mut places = places(key.sample);
            while places.len() > least.max(2) && dice.chance(0.3) {
                places.remove(dice.below(places.len()));
            }
            let moved = places
                .iter()
                .map(|x| x * scale + near(dice, design.length()));
            Value::Places(moved.collect())
        }
        KeyKind::Length(..) | KeyKind::Degrees(..) | KeyKind::Number(..) | KeyKind::Count(..) => {
            let (least, most) = match key.usual {
                Usual::Between(least, most) => (least, most),
                Usual::Share(of, least, most) => {
                    let whole = design.number(table, nth, of);
                    (least * whole, most * whole)
                }
                Usual::Near => {
                    let centre = central(key);
                    (0.75 * centre, 1.3 * centre)
                }
            };
            let [low, high] = key.range().unwrap();
            let value = dice.between(least, most).clamp(low, high);
            Value::Number(if matches!(key.kind, KeyKind::Count(..)) {
                value.round()
            } else {
                value
            })
        }
    }
}

/// Any value within the documented range.
fn anywhere(design: &AnyDesign, dice: &mut Dice, table: &TableKeys, key: &'static Key) -> Value {
    let length = design.length();
    let rising = |dice: &mut Dice, count: usize| {
        let mut places: Vec<f64> = (0..count)
            .map(|_| dice.between(0.0, 1.02) * length)
            .collect();
        places.sort_by(f64::total_cmp);
        places
    };
    match key.kind {
        KeyKind::Text(_) => {
            let words = ["", "ß ½ \u{202e}\"<b>&\\", "=1+1", "%%d", "nan"];
            let odd = dice.chance(0.3);
            Value::Text(if odd {
                (*dice.pick(&words)).to_owned()
            } else {
                text(dice, table, key)
            })
        }
        KeyKind::Choice(words) => Value::Text((*dice.pick(words)).to_owned()),
        KeyKind::Pairs(_, least, most) => {
            let count = 2 + dice.below(6);
            let mut xs = rising(dice, count);
            // Most makers know where their board ends.
            if dice.chance(0.7) && key.sample.contains("[[0,") {
                xs[0] = 0.0;
                xs[count - 1] = length;
            }
            let zero = dice.below(count);
            let pair = |(i, x)| {
                [
                    x,
                    if i == zero && least == 0.0 {
                        0.0
                    } else {
                        dice.between(least, most)
                    },
                ]
            };
            Value::Pairs(xs.into_iter().enumerate().map(pair).collect())
        }
        KeyKind::Places(least, most) => {
            let count = least + dice.below(most.min(least + 12) - least + 1);
            Value::Places(rising(dice, count))
        }
        KeyKind::Length(..) | KeyKind::Degrees(..) | KeyKind::Number(..) | KeyKind::Count(..) => {
            let [least, most] = key.range().unwrap();
            let value = match dice.below(7) {
                0 => least,
                1 => most,
                _ => dice.between(least, most),
            };
            Value::Number(if matches!(key.kind, KeyKind::Count(..)) {
                value.round()
            } else {
                value
            })
        }
    }
}

/// A key's default, or its sample.
fn central(key: &Key) -> f64 {
    match key.fallback {
        Fallback::Number(number) => number,
        _ => length(&toml_value(key.sample)),
    }
}

/// A text: a species where the sample is one.
fn text(dice: &mut Dice, table: &TableKeys, key: &Key) -> String {
    let sample = key.sample.trim_matches('"');
    let names: Vec<&str> = timber::names().collect();
    let own = table.path == "timber.species" && key.name == "name";
    if timber::find(sample).is_ok() || (own && dice.chance(0.5)) {
        return (*dice.pick(&names)).to_owned();
    }
    (*dice.pick(&[sample, "Größe ½", "a & b"])).to_owned()
}

fn toml_value(sample: &str) -> toml::Value {
    let table: toml::Table = toml::from_str(&format!("v = {sample}")).unwrap();
    table["v"].clone()
}

/// Millimetres of a number, or of a text with a unit.
fn length(value: &toml::Value) -> f64 {
    match value {
        toml::Value::Integer(n) => *n as f64,
        toml::Value::Float(n) => *n,
        toml::Value::String(text) => parse_length(text, Unit::Mm).unwrap(),
        other => panic!("{other}"),
    }
}

fn places(sample: &str) -> Vec<f64> {
    toml_value(sample)
        .as_array()
        .unwrap()
        .iter()
        .map(length)
        .collect()
}

fn pairs(sample: &str) -> Vec<[f64; 2]> {
    let list = toml_value(sample);
    let pair = |p: &toml::Value| [length(&p[0]), length(&p[1])];
    list.as_array().unwrap().iter().map(pair).collect()
}

/// Writes a line, or writes it anew.
fn set(
    design: &mut AnyDesign,
    dice: &mut Dice,
    (table, nth, key): (&'static TableKeys, usize, &'static Key),
    value: Value,
) {
    let text = written(design.unit, dice, key, &value);
    let line = Line {
        table,
        nth,
        key,
        value,
        text,
    };
    let same = |l: &&mut Line| l.table.path == table.path && l.nth == nth && l.key.name == key.name;
    match design.lines.iter_mut().find(same) {
        Some(old) => *old = line,
        None => design.lines.push(line),
    }
}

/// A value as a file has it: lengths as bare numbers, or with a unit.
fn written(unit: Unit, dice: &mut Dice, key: &Key, value: &Value) -> String {
    let bare = |mm: f64| {
        let text = format!("{:.6}", mm / unit.to_mm(1.0));
        let text = text.trim_end_matches('0').trim_end_matches('.');
        text.to_owned()
    };
    match value {
        Value::Number(n) => match key.kind {
            KeyKind::Length(..) => match dice.below(4) {
                0 => format!("\"{n:.3} mm\""),
                1 => format!("\"{:.5} in\"", n / 25.4),
                _ => bare(*n),
            },
            KeyKind::Count(..) => format!("{n}"),
            _ => format!("{n:.4}"),
        },
        Value::Text(text) => toml::Value::String(text.clone()).to_string(),
        Value::Pairs(pairs) => {
            let pairs: Vec<String> = pairs
                .iter()
                .map(|[x, y]| format!("[{}, {}]", bare(*x), bare(*y)))
                .collect();
            format!("[{}]", pairs.join(", "))
        }
        Value::Places(places) => {
            let places: Vec<String> = places.iter().map(|x| bare(*x)).collect();
            format!("[{}]", places.join(", "))
        }
    }
}

impl AnyDesign {
    fn find(&self, path: &str, nth: usize, name: &str) -> Option<&Line> {
        self.lines
            .iter()
            .find(|l| l.table.path == path && l.nth == nth && l.key.name == name)
    }

    fn change(&mut self, dice: &mut Dice, path: &str, nth: usize, name: &str, to: f64) {
        if let Some(line) = self.find(path, nth, name) {
            let (table, key) = (line.table, line.key);
            set(self, dice, (table, nth, key), Value::Number(to));
        }
    }

    fn drop(&mut self, path: &str, nth: usize, name: &str) {
        self.lines
            .retain(|l| !(l.table.path == path && l.nth == nth && l.key.name == name));
    }

    /// The board's length, mm.
    fn length(&self) -> f64 {
        match self.find("outline", 0, "length").map(|l| &l.value) {
            Some(Value::Number(mm)) => *mm,
            _ => SAMPLE_LENGTH,
        }
    }

    /// The number of a key of the same table, or of another that its name begins with; what stands for it where it is silent.
    fn number(&self, table: &'static TableKeys, nth: usize, name: &str) -> f64 {
        let (path, nth, name) = match name.rsplit_once('.') {
            Some((path, name)) => (path, 0, name),
            None => (table.path, nth, name),
        };
        match self.find(path, nth, name).map(|l| &l.value) {
            Some(Value::Number(n)) => *n,
            _ => {
                let table = tables().iter().find(|t| t.path == path).unwrap();
                central(table.key(name).unwrap())
            }
        }
    }

    /// The file.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for table in tables() {
            let of: Vec<&Line> = self
                .lines
                .iter()
                .filter(|l| l.table.path == table.path)
                .collect();
            let mut numbers: Vec<usize> = of.iter().map(|l| l.nth).collect();
            numbers.sort_unstable();
            numbers.dedup();
            for nth in numbers {
                if !table.path.is_empty() {
                    writeln!(
                        text,
                        "[{0}{1}{2}]",
                        bracket(table, '['),
                        table.path,
                        bracket(table, ']')
                    )
                    .unwrap();
                }
                for line in of.iter().filter(|l| l.nth == nth) {
                    writeln!(text, "{} = {}", line.key.name, line.text).unwrap();
                }
            }
        }
        text
    }

    /// The same with as few lines as possible, as long as `fails` says so of its text.
    pub fn smallest(&self, fails: impl Fn(&str) -> bool) -> Self {
        let mut kept = self.clone();
        // Whole tables first, then lines.
        for table in tables().iter().filter(|t| !t.path.is_empty()) {
            let mut fewer = kept.clone();
            fewer.lines.retain(|l| l.table.path != table.path);
            if fewer.lines.len() < kept.lines.len() && fails(&fewer.text()) {
                kept = fewer;
            }
        }
        let mut i = kept.lines.len();
        while i > 0 {
            i -= 1;
            let mut fewer = kept.clone();
            fewer.lines.remove(i);
            if fails(&fewer.text()) {
                kept = fewer;
            }
        }
        kept
    }
}

fn bracket(table: &TableKeys, with: char) -> String {
    if table.repeated() {
        with.to_string()
    } else {
        String::new()
    }
}
