//! Tables as JSON: `title`, `columns` with name and unit, `rows` as arrays in column order.

use super::{ExportError, csv, number};
use crate::views::table::{Cell, Column, Table};
use serde_json::{Map, Value, json};

/// The table as an indented JSON object, ending with a line end.
pub fn write(table: &Table) -> Result<String, ExportError> {
    Ok(format!("{:#}\n", value(table)?))
}

/// The table as a JSON value, to be put into a larger document.
pub fn value(table: &Table) -> Result<Value, ExportError> {
    csv::check(table)?;
    let columns: Vec<Value> = table
        .columns
        .iter()
        .map(|column| json!({ "name": column.name, "unit": column.unit }))
        .collect();
    let rows: Vec<Value> = table
        .rows
        .iter()
        .map(|row| {
            row.iter()
                .zip(&table.columns)
                .map(|(cell, column)| cell_value(cell, column))
                .collect()
        })
        .collect();
    let mut object = Map::new();
    object.insert("title".into(), Value::from(table.title.as_str()));
    object.insert("columns".into(), Value::from(columns));
    object.insert("rows".into(), Value::from(rows));
    Ok(Value::Object(object))
}

fn cell_value(cell: &Cell, column: &Column) -> Value {
    match cell {
        Cell::Text(text) => Value::from(text.as_str()),
        Cell::Number(n) => rounded(*n, column),
        Cell::Quantity(quantity) => rounded(quantity.plain().0, column),
        Cell::Count(count) => Value::from(*count),
        Cell::Empty => Value::Null,
    }
}

/// Rounded as in CSV; the nearest f64 of that decimal prints as it again.
fn rounded(value: f64, column: &Column) -> Value {
    number::text(value, column.decimals.min(9))
        .parse::<f64>()
        .map_or(Value::Null, Value::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_reads_back() {
        let table = Table {
            title: "Ribs".into(),
            columns: vec![Column::plain("rib"), Column::measured("station", "mm", 2)],
            rows: vec![
                vec![Cell::Count(1), 300.128.into()],
                vec!["é\u{1}".into(), Cell::Empty],
            ],
        };
        let text = write(&table).unwrap_or_default();
        let back: Result<Value, _> = serde_json::from_str(&text);
        let expected = json!({
            "title": "Ribs",
            "columns": [{ "name": "rib", "unit": "" }, { "name": "station", "unit": "mm" }],
            "rows": [[1, 300.13], ["é\u{1}", null]],
        });
        assert_eq!(back.ok(), Some(expected));
    }
}
