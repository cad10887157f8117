//! From the file's text to a design.

use toml::de::DeTable;

use super::{Design, Faults, build, read, source::Report, syntax};

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
    let design = build::design(&file, &mut report);
    report.finish(design)
}
