//! The folder's index: one page, nothing fetched from anywhere.

use super::html::{STYLE, escape, put};
use super::{CAUTIONS, OutFile, preview};
use crate::board::Board;
use crate::design::finding::Severity;
use crate::design::units;
use crate::views::findings::FindingText;
use crate::views::report::{Report, Worst, measure_list};
use crate::views::sheets::Sheet;

/// The page; `files` are the others in the folder.
pub(super) fn page(board: &Board, report: &Report, sheets: &[Sheet], files: &[OutFile]) -> String {
    let mut html = String::new();
    let name = escape(&board.design.name);
    put(
        &mut html,
        format_args!(
            "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
             <title>{name}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<h1>{name}</h1>\n"
        ),
    );
    if !board.design.notes.is_empty() {
        put(
            &mut html,
            format_args!("<p>{}</p>\n", escape(&board.design.notes)),
        );
    }
    measures(&mut html, board);
    warnings(&mut html, report);
    gallery(&mut html, sheets);
    rail(&mut html, report);
    super::wood::section(&mut html, board, report);
    super::index_skins::skins(&mut html, report, files);
    super::index_mass::mass(&mut html, report);
    super::index_mass::afloat(&mut html, board, report);
    listing(&mut html, files);
    html.push_str("<h2>Work safely</h2>\n<dl>\n");
    for (operation, caution) in CAUTIONS {
        put(
            &mut html,
            format_args!("<dt>{operation}</dt><dd>{caution}</dd>\n"),
        );
    }
    html.push_str("</dl>\n</body>\n</html>\n");
    html
}

fn measures(html: &mut String, board: &Board) {
    let unit = board.design.report;
    html.push_str("<h2>Measures</h2>\n<table>\n");
    for m in measure_list(board) {
        let at = m.at.map_or(String::new(), |x| {
            format!("at {} from the tail", units::size(x, unit))
        });
        put(
            html,
            format_args!(
                "<tr><td>{}</td><td class=\"n\">{}</td><td>{}</td></tr>\n",
                m.name,
                escape(&m.value.text(unit)),
                escape(&at)
            ),
        );
    }
    html.push_str("</table>\n");
}

fn warnings(html: &mut String, report: &Report) {
    if report.warned() == 0 {
        html.push_str("<h2>Warnings</h2>\n<p>None: every course holds, every strip goes round, and every skin takes its shape.</p>\n");
    }
    for (severity, title) in [
        (Severity::Error, "Errors"),
        (Severity::Warning, "Warnings"),
        (Severity::Note, "Notes"),
    ] {
        if report.count(severity) > 0 {
            put(html, format_args!("<h2>{title}</h2>\n"));
        }
        for found in report.findings.iter().filter(|f| f.severity == severity) {
            finding(html, &found.text);
        }
    }
}

/// One thing that is wrong, with its extent, what to change, and rib by rib what there is more to say.
fn finding(html: &mut String, found: &FindingText) {
    put(
        html,
        format_args!(
            "<div class=\"{}\"><p><strong>{}</strong>",
            found.severity.name(),
            escape(&found.headline)
        ),
    );
    if !found.extent.is_empty() {
        put(html, format_args!(": {}", escape(&found.extent)));
    }
    put(
        html,
        format_args!(". <span class=\"small\">[{}]</span></p>", found.code.name()),
    );
    match found.remedies.as_slice() {
        [] => {}
        [one] => put(html, format_args!("<p>Fix: {}.</p>", escape(one))),
        many => {
            html.push_str("<p>Fixes, easiest first:</p><ul>\n");
            for remedy in many {
                put(html, format_args!("<li>{}</li>\n", escape(remedy)));
            }
            html.push_str("</ul>");
        }
    }
    if !found.lines.is_empty() {
        html.push_str("<details><summary>Rib by rib</summary><table>\n");
        for (rib, line) in &found.lines {
            put(
                html,
                format_args!("<tr><td>rib {rib}</td><td>{}</td></tr>\n", escape(line)),
            );
        }
        html.push_str("</table></details>");
    }
    html.push_str("</div>\n");
}

/// The sheets' pictures: long parts first, each across the page, then ribs and cradles.
fn gallery(html: &mut String, sheets: &[Sheet]) {
    html.push_str(
        "<h2>Templates</h2>\n<p class=\"small\">Full size when printed at 100 %: measure the rule on the sheet before \
         you cut.</p>\n",
    );
    let (ribs, long): (Vec<&Sheet>, Vec<&Sheet>) = sheets.iter().partition(|s| {
        ["rib-", "cradle-"]
            .iter()
            .any(|part| s.name.starts_with(part))
    });
    for (class, group) in [("sheets wide", long), ("sheets", ribs)] {
        put(html, format_args!("<div class=\"{class}\">\n"));
        for sheet in group {
            let name = escape(&sheet.name);
            put(
                html,
                format_args!(
                    "<figure>{}<figcaption>{} <a href=\"svg/{name}.svg\">SVG</a> \
                     <a href=\"dxf/{name}.dxf\">DXF</a></figcaption></figure>\n",
                    preview(&sheet.drawing),
                    escape(&sheet.what)
                ),
            );
        }
        html.push_str("</div>\n");
    }
}

fn rail(html: &mut String, report: &Report) {
    let r = &report.rail;
    put(
        html,
        format_args!(
            "<h2>Rail</h2>\n<p>The guide lies {:.2} mm under the finished surface; a nested strip gains {:.2} mm.</p>\n\
             <table>\n<tr><th>at the ribs</th><th class=\"n\">worst</th><th>where</th></tr>\n",
            r.guide_depth, r.pitch
        ),
    );
    let w = &r.at_ribs;
    let rows = [
        ("joint roll", w.roll, "°"),
        ("lip digs in", w.dig_in, " mm"),
        ("joint opens", w.mouth_gap, " mm"),
        ("flat base planed", w.bevel, "°"),
        ("cover, wood behind the finished rail", w.cover, " mm"),
        ("proud, stock outside it", w.proud, " mm"),
    ];
    for (name, worst, unit) in rows {
        let Some(Worst {
            value, rib, course, ..
        }) = worst
        else {
            continue;
        };
        let rib = rib.map_or(String::new(), |rib| format!("rib {rib}, "));
        put(
            html,
            format_args!(
                "<tr><td>{name}</td><td class=\"n\">{value:.2}{unit}</td><td>{rib}course {course}</td></tr>\n"
            ),
        );
    }
    html.push_str(
        "</table>\n<table>\n<tr><th class=\"n\">rib</th><th class=\"n\">from the tail</th>",
    );
    html.push_str("<th class=\"n\">courses a side</th></tr>\n");
    for rib in &report.ribs {
        put(
            html,
            format_args!(
                "<tr><td class=\"n\">{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td></tr>\n",
                rib.number,
                escape(&units::size(rib.x, report.report)),
                rib.courses
            ),
        );
    }
    html.push_str("</table>\n");
}

fn listing(html: &mut String, files: &[OutFile]) {
    html.push_str("<h2>Files</h2>\n<table>\n");
    for file in files {
        put(
            html,
            format_args!(
                "<tr><td><a href=\"{0}\">{0}</a></td><td>{1}</td><td class=\"n\">{2} bytes</td></tr>\n",
                escape(&file.path),
                escape(&file.what),
                file.bytes.len()
            ),
        );
    }
    html.push_str("</table>\n");
}

#[cfg(test)]
mod tests {
    use super::escape;

    #[test]
    fn a_name_is_no_markup() {
        assert_eq!(
            escape("<b a=\"6' 4\">\u{7}"),
            "&lt;b a=&quot;6&#39; 4&quot;&gt;\u{fffd}"
        );
    }
}
