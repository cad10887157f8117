//! Mass and waterline on the index.

use super::html::{escape, put};
use super::preview;
use crate::board::Board;
use crate::design::units;
use crate::geometry::path::{Path, Point};
use crate::views::drawing::{Drawing, Item, Layer, Shape};
use crate::views::report::{LyingReport, Report};

pub(super) fn mass(html: &mut String, report: &Report) {
    let (unit, m) = (report.report, &report.mass);
    put(
        html,
        format_args!(
            "<h2>Mass</h2>\n<p>{} in all, wood at {} % moisture; centre of gravity {} from the tail, {} over the base \
             line. Air inside: {}.</p>\n<table>\n<tr><th>part</th><th>of</th><th class=\"n\">mass</th>\
             <th class=\"n\">centre from the tail</th></tr>\n",
            escape(&units::mass(m.total, unit)),
            m.moisture,
            escape(&units::size(m.centre[0], unit)),
            escape(&units::size(m.centre[2], unit)),
            escape(&units::litres(m.hollow))
        ),
    );
    for [name, of, mass, x] in m.rows(unit) {
        put(
            html,
            format_args!(
                "<tr><td>{}</td><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td></tr>\n",
                escape(&name),
                escape(&of),
                escape(&mass),
                escape(&x)
            ),
        );
    }
    html.push_str("</table>\n");
}

pub(super) fn afloat(html: &mut String, board: &Board, report: &Report) {
    html.push_str(
        "<h2>Afloat</h2>\n<table>\n<tr><th></th><th class=\"n\">mass</th><th class=\"n\">draught</th><th>trim</th>\
         <th></th></tr>\n",
    );
    for lying in &report.afloat {
        let [mass, draught, trim, spare] = lying.cells(report.report);
        put(
            html,
            format_args!(
                "<tr><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td>{}</td><td>{}</td></tr>\n",
                escape(&lying.name()),
                escape(&mass),
                escape(&draught),
                escape(&trim),
                escape(&spare)
            ),
        );
    }
    html.push_str("</table>\n");
    for lying in report
        .afloat
        .iter()
        .filter(|l| l.afloat.is_some() && l.water == "sea")
    {
        put(
            html,
            format_args!(
                "<figure>{}<figcaption>Side view on the centreline, {}; nose to the right</figcaption></figure>\n",
                preview(&side_view(board, lying)),
                escape(&lying.name())
            ),
        );
    }
}

/// Bottom and deck on the centreline, and the water.
fn side_view(board: &Board, lying: &LyingReport) -> Drawing {
    const PLACES: usize = 120;
    let (tail, nose) = board.shell.x_range();
    let line = |deck: usize| {
        (0..=PLACES).map(move |k| {
            let x = tail + (nose - tail) * k as f64 / PLACES as f64;
            Point::new(x, board.shell.centre_heights(x)[deck])
        })
    };
    let profile: Vec<Point> = line(0)
        .chain(line(1).collect::<Vec<_>>().into_iter().rev())
        .collect();
    let mut items = vec![(Layer::OutsideCut, Path::polyline(&profile, true))];
    if let Some(a) = lying.afloat {
        // A little beyond both ends.
        let beyond = 0.03 * (nose - tail);
        let [aft, fore] = a.water_heights;
        let slope = (fore - aft) / board.design.length;
        let at = |x: f64| Point::new(x, aft + slope * x);
        items.push((
            Layer::Mark,
            Path::polyline(&[at(tail - beyond), at(nose + beyond)], false),
        ));
    }
    let item = |(layer, path)| Item {
        part: "side view".into(),
        layer,
        shape: Shape::Path(path),
    };
    Drawing {
        title: String::new(),
        items: items.into_iter().map(item).collect(),
    }
}
