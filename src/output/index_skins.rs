//! The skins on the index.

use super::OutFile;
use super::html::{escape, put};
use crate::views::report::Report;
use crate::wood::skin::Treatment;

pub(super) fn skins(html: &mut String, report: &Report, files: &[OutFile]) {
    let unit = report.report;
    html.push_str("<h2>Skins</h2>\n");
    for skin in &report.skins.skins {
        put(
            html,
            format_args!("<p>{}.</p>\n<table>\n", escape(&skin.line(unit))),
        );
        html.push_str(
            "<tr><th></th><th class=\"n\">worst</th><th class=\"n\">dry to</th><th class=\"n\">soaked to</th>\
             <th>where</th><th></th></tr>\n",
        );
        for f in &skin.strains {
            let [value, dry, soaked] = f.texts();
            put(
                html,
                format_args!(
                    "<tr><td>{}</td><td class=\"n\">{value}</td><td class=\"n\">{dry}</td>\
                     <td class=\"n\">{soaked}</td><td>{}</td><td>{}</td></tr>\n",
                    f.cause.name(),
                    escape(&f.place(unit)),
                    f.treatment.name()
                ),
            );
        }
        html.push_str("</table>\n");
        if skin.treatment != Treatment::Dry {
            put(html, format_args!("<p>{}</p>\n", skin.treatment.sentence()));
        }
    }
    html.push_str("<div class=\"sheets wide\">\n");
    for skin in &report.skins.skins {
        for way in ["along", "across"] {
            let face = skin.face.name();
            let path = format!("maps/{face}-strain-{way}.svg");
            let map = files.iter().find(|f| f.path == path);
            if let Some(Ok(svg)) = map.map(|f| std::str::from_utf8(&f.bytes)) {
                // In a page an SVG needs no name space.
                let svg = svg.replace(" xmlns=\"http://www.w3.org/2000/svg\"", "");
                put(
                    html,
                    format_args!(
                        "<figure>{svg}<figcaption>{face} skin, strain {way} the board <a href=\"{path}\">SVG</a></figcaption></figure>\n"
                    ),
                );
            }
        }
    }
    html.push_str("</div>\n");
    html.push_str(
        "<p class=\"small\">Strain is what the flat sheet must stretch (+) or shrink (−) to take the shape; a bend is its \
         radius over the skin's thickness t. Try an offcut first: wood differs.</p>\n",
    );
}
