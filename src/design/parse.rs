//! From the file's text to a design.

use toml::de::DeTable;

use super::{
    Design, Draft, Faults, RuleBreak, build,
    place::KeyPlace,
    read::{self, File},
    rules,
    source::{Report, Span},
    syntax,
    table::Value,
};

/// Reads a design file; `file_name` is only for the faults' sake.
///
/// # Errors
///
/// All faults that can be told in one run, in the order of their places. Where the file is not valid TOML, those of
/// single keys are added as far as the rest can be made out, but none that depend on the file as a whole.
///
/// ```
/// use boardwright::design::{parse, starter};
///
/// assert!(parse(starter(), "board.toml").is_ok());
///
/// let faults = parse("name = 'Tern'\n[outline]\nlenght = 1900\n", "board.toml").unwrap_err();
/// let last = &faults.list()[2];
/// assert_eq!((last.line, last.column), (3, 1));
/// assert_eq!(last.remedy, "did you mean `length`?");
/// ```
pub fn parse(text: &str, file_name: &str) -> Result<Design, Faults> {
    let mut report = Report::new(text, file_name);
    let (tree, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        if syntax::note(&errors, &mut report) {
            let broken = report.lines();
            let first = report.count();
            read::file(tree.get_ref(), &mut report);
            report.retain_from(first, |fault| !broken.contains(&fault.line));
        }
        return report.finish(None);
    }
    let file = read::file(tree.get_ref(), &mut report);
    for table in file.every() {
        table.demands(&mut report);
        table.contradictions(&mut report);
    }
    let design = match build::draft(&file, &mut report).check() {
        Ok(design) => Some(design),
        Err(broken) => {
            for broken in broken.list().iter().filter(|b| !rests_on_fault(&file, b)) {
                let span = span(&file, &broken.places);
                report.add(span, broken.message.clone(), broken.remedy.clone());
            }
            None
        }
    };
    report.finish(design)
}

/// Whether a rule is only broken by values that hold the place of faulty ones.
fn rests_on_fault(file: &File, broken: &RuleBreak) -> bool {
    let faulty = |place: KeyPlace| {
        let table = file.all(place.table).nth(place.row);
        table.is_some_and(|table| table.faulty(place.key))
    };
    let rule = rules::rules().find(|rule| rule.code == broken.code);
    match rule {
        Some(rule) => rule.places(broken).any(faulty),
        None => broken.places.iter().copied().any(faulty),
    }
}

/// The place of the first of these keys that the file writes; else the header of the first's table.
fn span(file: &File, places: &[KeyPlace]) -> Span {
    let table = |place: &KeyPlace| file.all(place.table).nth(place.row);
    let written = places.iter().find_map(|place| {
        let table = table(place).filter(|table| table.has(place.key))?;
        Some(match place.index {
            Some(index) => table.element_span(place.key, index),
            None => table.span(place.key),
        })
    });
    let header = || places.first().and_then(table).map(|t| t.header.clone());
    written.or_else(header).unwrap_or(0..0)
}

/// Puts broken rules of a design that was read without faults in their places in its file; nothing if there are none.
///
/// Sections are counted from the tail. A key that the file leaves out is shown by its table's header.
pub fn place_breaks(text: &str, file_name: &str, breaks: &[RuleBreak]) -> Option<Faults> {
    let mut report = Report::new(text, file_name);
    let (tree, _) = DeTable::parse_recoverable(text);
    let file = read::file(tree.get_ref(), &mut report);
    // Rows of a checked design are in order from the tail, a file's need not be.
    let mut order: Vec<usize> = (0..file.all("section").count()).collect();
    let at: Vec<f64> = file.all("section").map(|t| t.number("at")).collect();
    order.sort_by(|a, b| at[*a].total_cmp(&at[*b]));
    for broken in breaks {
        let in_file = |place: &KeyPlace| match (place.table, order.get(place.row)) {
            ("section", Some(&row)) => KeyPlace { row, ..*place },
            _ => *place,
        };
        let places: Vec<KeyPlace> = broken.places.iter().map(in_file).collect();
        let span = span(&file, &places);
        report.add(span, broken.message.clone(), broken.remedy.clone());
    }
    report.finish(Some(())).err()
}

impl Draft {
    /// A draft with every default, of a board of this length, width and thickness at its centre, mm.
    ///
    /// ```
    /// use boardwright::design::{Draft, parse};
    ///
    /// let draft = Draft::new("Tern", 1930.0, 514.0, 66.0);
    /// let file = "name = 'Tern'\n[outline]\nlength = 1930\nwidth = 514\n[foil]\ncentre = 66\n";
    /// assert_eq!(draft.check().unwrap(), parse(file, "tern.toml").unwrap());
    /// ```
    pub fn new(name: &str, length: f64, width: f64, thickness: f64) -> Self {
        let file = File::of(vec![
            ("", "name", Value::Text(name.to_owned())),
            ("outline", "length", Value::Number(length)),
            ("outline", "width", Value::Number(width)),
            ("foil", "centre", Value::Number(thickness)),
        ]);
        build::draft(&file, &mut Report::new("", ""))
    }
}
