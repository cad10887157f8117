//! Tables as HTML.

use super::text::{put, words};
use crate::design::units::Unit;
use crate::output::export::{ExportError, csv};
use crate::views::table::Table;

/// The table, its numbers flush right; no heading line where no column has a name.
pub(super) fn write(html: &mut String, table: &Table, unit: Unit) -> Result<(), ExportError> {
    csv::check(table)?;
    let class = |column: usize| {
        if table.is_numeric(column) {
            " class=\"n\""
        } else {
            ""
        }
    };
    html.push_str("<div class=\"scroll\"><table>\n");
    if !table.title.is_empty() {
        put(
            html,
            format_args!("<caption>{}</caption>\n", words(&table.title)),
        );
    }
    if table.columns.iter().any(|c| !c.heading().is_empty()) {
        html.push_str("<thead><tr>");
        for (i, column) in table.columns.iter().enumerate() {
            put(
                html,
                format_args!("<th{}>{}</th>", class(i), words(&column.heading())),
            );
        }
        html.push_str("</tr></thead>\n");
    }
    html.push_str("<tbody>\n");
    for row in &table.rows {
        html.push_str("<tr>");
        for (i, (cell, column)) in row.iter().zip(&table.columns).enumerate() {
            let text = words(&cell.text(column, unit)).replace('\n', "<br>");
            put(html, format_args!("<td{}>{text}</td>", class(i)));
        }
        html.push_str("</tr>\n");
    }
    html.push_str("</tbody>\n</table></div>\n");
    Ok(())
}
