//! Mass and waterline on the screen of `boardwright check`.

use super::columns::Side;
use super::layout::{headed, heading};
use super::paint::Paint;
use crate::design::units;
use crate::views::report::Report;

use Side::{Left, Right};

pub(super) fn mass(text: &mut String, report: &Report, paint: Paint) {
    let (unit, m) = (report.report, &report.mass);
    let aside = format!(
        "{} in all, wood at {} % moisture; centre of gravity {} from the tail, {} up",
        units::mass(m.total, unit),
        m.moisture,
        units::size(m.centre[0], unit),
        units::size(m.centre[2], unit)
    );
    heading(text, paint, "Mass", &aside);
    let mut rows = vec![
        ["part", "of", "mass", "centre from the tail"]
            .map(String::from)
            .to_vec(),
    ];
    rows.extend(m.rows(unit).into_iter().map(|r| r.to_vec()));
    headed(text, paint, &[Left, Left, Right, Right], &rows);
}

pub(super) fn afloat(text: &mut String, report: &Report, paint: Paint) {
    let unit = report.report;
    heading(
        text,
        paint,
        "Afloat",
        "at rest in still water, upright, the hollow tight",
    );
    let mut rows = vec![
        ["", "mass", "draught", "trim", ""]
            .map(String::from)
            .to_vec(),
    ];
    for lying in &report.afloat {
        let mut row = vec![lying.name()];
        row.extend(lying.cells(unit));
        rows.push(row);
    }
    headed(text, paint, &[Left, Right, Right, Left, Left], &rows);
}
