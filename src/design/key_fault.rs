//! Faults of keys that only show once the shape is drawn, put in their places in the file.

use toml::de::DeTable;

use super::{Faults, read, source::Report, table::Table};

/// A fault of one key of a design that was read without faults.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyFault {
    /// The table's dotted name.
    pub table: &'static str,
    /// Which of the tables of this name: for sections counted from the tail, 0 for a table that comes once.
    pub row: usize,
    /// The key.
    pub key: &'static str,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// What to do about it.
    pub remedy: String,
}

/// The faults with their places in the file they were read from; nothing if there are none.
///
/// A key that the file leaves out is shown by its table's header.
pub fn place_faults(text: &str, file_name: &str, faults: &[KeyFault]) -> Option<Faults> {
    let mut report = Report::new(text, file_name);
    let (tree, _) = DeTable::parse_recoverable(text);
    let file = read::file(tree.get_ref(), &mut report);
    for fault in faults {
        let mut tables: Vec<&Table> = file.all(fault.table).collect();
        let place = |table: &Table| table.number("at").unwrap_or(0.0);
        tables.sort_by(|a, b| place(a).total_cmp(&place(b)));
        let span = tables.get(fault.row).map_or(0..0, |t| t.span(fault.key));
        report.add(span, fault.message.clone(), fault.remedy.clone());
    }
    report.finish(Some(())).err()
}
