//! The index's part about strips and wood.

use super::html::{escape, put};
use super::milling::PAGE;
use crate::board::Board;
use crate::design::units;
use crate::views::report::{Report, strip_charts};
use crate::views::sheets::plank_sheets;

/// Strips, wood, and where their sheets are.
pub(super) fn section(html: &mut String, board: &Board, report: &Report) {
    let unit = report.report;
    let (s, w) = (&report.strips, &report.wood);
    put(
        html,
        format_args!(
            "<h2>Strips and wood</h2>\n<p>{} strips a side of {}. <a href=\"{PAGE}\">Milling sheets and cutting plan</a> for the shop; \
             <a href=\"tables/strip-schedule.csv\">strip schedule</a>{}.</p>\n<table>\n",
            s.count(),
            escape(&w.species),
            if board.yard.cutting.is_ok() {
                "; <a href=\"tables/cut-list.csv\">cutting list</a>"
            } else {
                ""
            }
        ),
    );
    html.push_str(
        "<tr><th class=\"n\">a side</th><th>kind</th><th class=\"n\">section</th><th class=\"n\">longest</th></tr>\n",
    );
    for k in &s.kinds {
        put(
            html,
            format_args!(
                "<tr><td class=\"n\">{}</td><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td></tr>\n",
                k.count,
                k.kind.name(),
                k.words(),
                escape(&units::size(k.longest, unit))
            ),
        );
    }
    html.push_str(
        "</table>\n<table>\n<tr><th>worst</th><th class=\"n\">strain</th><th class=\"n\">limit</th><th class=\"n\">used</th>\
         <th class=\"n\">strip</th><th>where</th></tr>\n",
    );
    for x in &s.worst {
        put(
            html,
            format_args!(
                "<tr><td>{}</td><td class=\"n\">{:.2} %</td><td class=\"n\">{:.2} %</td><td class=\"n\">{:.2}</td>\
                 <td class=\"n\">{}</td><td>{} from the tail, {}</td></tr>\n",
                x.strained.name(),
                x.value,
                x.limit,
                x.ratio,
                x.strip,
                escape(&units::size(x.x, unit)),
                escape(&x.place)
            ),
        );
    }
    html.push_str("</table>\n");
    if let Some(g) = s.glulam {
        put(
            html,
            format_args!(
                "<p class=\"small\">Tightest radius {:.0} thicknesses, on strip {}; beams glued of laminations are held to {:.0} (NDS 5.3.8, \
                 from memory), and thin clear strips go well past it (common practice).</p>\n",
                g.value, g.strip, g.limit
            ),
        );
    }
    if let Some(c) = s.spring {
        put(
            html,
            format_args!(
                "<p>Strip {} springs back hardest: {} at rib {}, {} from the tail; a guide to clamping.</p>\n",
                c.strip,
                units::force(c.force, unit),
                c.rib,
                escape(&units::size(c.x, unit))
            ),
        );
    }
    links(html, board);
    wood(html, report);
}

/// Links to the strips' charts and the planks' drawings.
fn links(html: &mut String, board: &Board) {
    html.push_str("<p>Bends and twist along each strip:");
    for chart in strip_charts(board) {
        put(
            html,
            format_args!(
                " <a href=\"charts/{0}.svg\">{1}</a>",
                escape(&chart.name),
                escape(
                    chart
                        .name
                        .trim_start_matches("strip-")
                        .trim_start_matches('0')
                )
            ),
        );
    }
    html.push_str("</p>\n");
    let planks = plank_sheets(board);
    if !planks.is_empty() {
        html.push_str("<ul>\n");
        for sheet in planks {
            let name = escape(&sheet.name);
            put(
                html,
                format_args!(
                    "<li>{} <a href=\"svg/{name}.svg\">SVG</a> <a href=\"dxf/{name}.dxf\">DXF</a></li>\n",
                    escape(&sheet.what)
                ),
            );
        }
        html.push_str("</ul>\n");
    }
}

/// What to buy and what becomes of it, one row each.
fn wood(html: &mut String, report: &Report) {
    let w = &report.wood;
    html.push_str("<table>\n");
    let mut row = |name: &str, words: &str| {
        put(
            html,
            format_args!("<tr><td>{name}</td><td>{}</td></tr>\n", escape(words)),
        );
    };
    for (name, words) in w.rows(report.report) {
        row(name, &words);
    }
    html.push_str("</table>\n");
}
