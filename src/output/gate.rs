//! The last gate: no file says NaN or infinity.
//!
//! Drawings, maps, charts, tables and meshes are checked number by number where they are written. What is put together from text, pages
//! and reports, is looked through here.

use super::{OutFile, OutputError};
use crate::design::Design;

/// How a number that is none is printed where nobody thought of it.
const NO_NUMBER: [&str; 2] = ["NaN", "inf"];

/// Refuses the first page, report or table that says one, unless the maker wrote the word in the design.
pub(super) fn check(design: &Design, files: &[OutFile]) -> Result<(), OutputError> {
    let words = NO_NUMBER.map(|word| (word, makers_texts(design).any(|text| holds(text, word))));
    for file in files {
        let Some("html" | "json" | "csv") = file.path.rsplit('.').next() else {
            continue;
        };
        let text = String::from_utf8_lossy(&file.bytes);
        for (word, by_maker) in words {
            if !by_maker && holds(&text, word) {
                return Err(OutputError::NotFinite {
                    path: file.path.clone(),
                    word,
                });
            }
        }
    }
    Ok(())
}

/// Whether a text has a word, with no letter or digit next to it.
fn holds(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + word.len()..].chars().next();
        let joins = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
        !joins(before) && !joins(after)
    })
}

/// The texts of a design that stand in its files.
fn makers_texts(design: &Design) -> impl Iterator<Item = &str> {
    let timber = &design.timber;
    let species = [&timber.rail, &timber.frame, &timber.skins, &timber.blocks];
    let woods = species.into_iter().flat_map(|s| [&s.name, &s.source]);
    let fittings = design.fittings.iter().map(|f| &f.name);
    let planks = design.shop.planks.iter().map(|p| &p.name);
    [&design.name, &design.notes]
        .into_iter()
        .chain(woods)
        .chain(fittings)
        .chain(planks)
        .map(String::as_str)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{parse, starter};

    fn page(path: &str, text: &str) -> OutFile {
        OutFile {
            path: path.to_owned(),
            what: String::new(),
            bytes: text.as_bytes().to_vec(),
        }
    }

    #[test]
    fn a_page_that_says_no_number_is_refused_by_its_name() {
        let Ok(design) = parse(starter(), "x") else {
            return assert!(parse(starter(), "x").is_ok());
        };
        for path in ["index.html", "board.json", "tables/mass.csv"] {
            for text in ["NaN", "<td>NaN mm</td>", "1,inf\r\n", "from -inf to 3"] {
                let refused = check(&design, &[page(path, text)]);
                let message = refused.map_err(|e| e.to_string());
                assert!(message.is_err_and(|m| m.starts_with(path)), "{path} {text}");
            }
            for text in ["an info", "infinite", "CaNaNeo", "nan", "inf_1", "–"] {
                assert!(check(&design, &[page(path, text)]).is_ok(), "{text}");
            }
        }
    }

    #[test]
    fn what_the_maker_wrote_is_no_fault() {
        let named = starter().replace("\"first board\"", "\"inf beach\"");
        let checked = parse(&named, "x").map(|design| {
            let ours = check(&design, &[page("index.html", "<h1>inf beach</h1>")]);
            let none = check(&design, &[page("index.html", "NaN mm")]);
            (ours.is_ok(), none.is_ok())
        });
        assert_eq!(checked, Ok((true, false)));
    }
}
