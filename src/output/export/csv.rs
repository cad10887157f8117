//! Tables as comma-separated values (RFC 4180): CRLF line ends, quotes only where needed, decimal points.

use super::{ExportError, number};
use crate::views::table::{Cell, Column, Table};

/// The table with one heading line; units stand in the headings.
pub fn write(table: &Table) -> Result<String, ExportError> {
    check(table)?;
    let mut out = String::new();
    let headings = table.columns.iter().map(|column| quoted(&column.heading()));
    push_line(&mut out, headings);
    for row in &table.rows {
        let cells = row.iter().zip(&table.columns);
        push_line(&mut out, cells.map(|(cell, column)| field(cell, column)));
    }
    Ok(out)
}

fn push_line(out: &mut String, fields: impl Iterator<Item = String>) {
    for (i, field) in fields.enumerate() {
        if i > 0 {
            out.push(',');
        }
        out.push_str(&field);
    }
    out.push_str("\r\n");
}

fn field(cell: &Cell, column: &Column) -> String {
    match cell {
        Cell::Text(text) => quoted(text),
        Cell::Number(value) => number::text(*value, column.decimals.min(9)),
        Cell::Quantity(quantity) => number::text(quantity.plain().0, column.decimals.min(9)),
        Cell::Count(count) => count.to_string(),
        Cell::Empty => String::new(),
    }
}

/// Text as a field. A spreadsheet runs a cell as a formula when it starts like one: such text gets an apostrophe before it.
fn quoted(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        return quoted(&format!("'{text}"));
    }
    if text.contains(['"', ',', '\r', '\n']) || text.starts_with(' ') || text.ends_with(' ') {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

/// One cell a column, every number finite.
pub(super) fn check(table: &Table) -> Result<(), ExportError> {
    for (index, row) in table.rows.iter().enumerate() {
        if row.len() != table.columns.len() {
            return Err(ExportError::RaggedTable {
                title: table.title.clone(),
                row: index,
                cells: row.len(),
                columns: table.columns.len(),
            });
        }
        for (cell, column) in row.iter().zip(&table.columns) {
            let value = match cell {
                Cell::Number(value) => *value,
                Cell::Quantity(quantity) => quantity.plain().0,
                Cell::Text(_) | Cell::Count(_) | Cell::Empty => 0.0,
            };
            if !value.is_finite() {
                return Err(ExportError::TableNotFinite {
                    title: table.title.clone(),
                    row: index,
                    column: column.name.clone(),
                });
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_that_a_spreadsheet_would_run_is_guarded_and_numbers_are_not() {
        let start_of_formula = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"];
        for text in start_of_formula {
            let table = Table {
                title: "Planks".into(),
                columns: vec![Column::plain("plank"), Column::measured("height", "mm", 1)],
                rows: vec![vec![text.into(), (-2.5).into()]],
            };
            let written = write(&table).unwrap_or_default();
            let row = written.split_once("\r\n").map_or("", |(_, row)| row);
            assert!(row.trim_start_matches('"').starts_with('\''), "{row}");
            assert!(row.ends_with(",-2.5\r\n"), "{row}");
        }
    }

    #[test]
    fn fields_are_quoted_and_rounded() {
        let mut table = Table {
            title: "Strips".into(),
            columns: vec![Column::plain("strip"), Column::measured("length", "mm", 1)],
            rows: vec![
                vec!["a, \"b\"\nc".into(), 1234.56.into()],
                vec![Cell::Count(7), (-0.01).into()],
                vec![Cell::Empty, Cell::Empty],
            ],
        };
        let expected = "strip,length (mm)\r\n\"a, \"\"b\"\"\nc\",1234.6\r\n7,0\r\n,\r\n";
        assert_eq!(write(&table).as_deref(), Ok(expected));
        table.rows.push(vec![Cell::Empty]);
        assert!(matches!(
            write(&table),
            Err(ExportError::RaggedTable { row: 3, .. })
        ));
        table.rows[3].push(f64::NAN.into());
        assert!(matches!(
            write(&table),
            Err(ExportError::TableNotFinite { row: 3, .. })
        ));
    }
}
