//! The skins' part of the screen of `boardwright check`.

use super::columns::{Side, wrapped};
use super::layout::{WIDTH, headed, heading};
use super::paint::Paint;
use crate::views::report::Report;
use crate::wood::skin::Treatment;

use Side::{Left, Right};

pub(super) fn skins(text: &mut String, report: &Report, paint: Paint) {
    let unit = report.report;
    heading(
        text,
        paint,
        "Skins",
        "strain in the sheet when bent; bends as radius over thickness t",
    );
    let mut rows = vec![
        ["", "worst", "dry to", "soaked to", "where", ""]
            .map(String::from)
            .to_vec(),
    ];
    for skin in &report.skins.skins {
        text.push_str(&wrapped(&skin.line(unit), WIDTH, "  "));
        for f in &skin.strains {
            let [value, dry, soaked] = f.texts();
            rows.push(vec![
                format!(
                    "{} {}",
                    skin.face.name(),
                    f.cause.name().replace("strain in the sheet", "strain")
                ),
                value,
                dry,
                soaked,
                f.place(unit),
                f.treatment.name().to_owned(),
            ]);
        }
    }
    if rows.len() > 1 {
        headed(text, paint, &[Left, Right, Right, Right, Left, Left], &rows);
    }
    for skin in &report.skins.skins {
        if skin.treatment == Treatment::Soak {
            let told = format!("{}: {}", skin.face.name(), skin.treatment.sentence());
            text.push_str(&wrapped(&told, WIDTH, "  "));
        }
    }
}
