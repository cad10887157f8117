//! Blocks, fins, leash plug and vent.

use crate::design::{
    Aside, Blocks, Fin, FinCut, FinSet, Fins, Hole, Through, read::File, scalar::plain,
    source::Report, table::Table,
};

/// Least wood between two tabs' holes, mm (common practice, no published source).
const BETWEEN_TABS: f64 = 5.0;

pub(super) fn blocks(file: &File) -> Option<Blocks> {
    let table = file.one("blocks")?;
    Some(Blocks {
        layer: table.number("layer")?,
        oversize: table.number("oversize")?,
    })
}

/// The fins of the set, then the maker's own.
pub(super) fn fins(file: &File, report: &mut Report<'_>) -> Option<Fins> {
    let table = file.one("fins")?;
    let set = match table.word("set")? {
        "single" => FinSet::Single,
        "twin" => FinSet::Twin,
        "three" => FinSet::Three,
        "five" => FinSet::Five,
        _ => FinSet::None,
    };
    let mut fins = Vec::new();
    let from_rail = table.number("from_rail")?;
    for (from_tail, aside, toe, cant, base) in usual(set, from_rail) {
        let base = table.number_or("base", Some(base))?;
        fins.push(Fin {
            from_tail,
            aside,
            toe: f64::to_radians(toe),
            cant: f64::to_radians(cant),
            base,
            cut: cut(table, None, set == FinSet::Single, base, report)?,
        });
    }
    let own: Vec<Option<Fin>> = file
        .all("fins.fin")
        .map(|fin| own(fin, table, report))
        .collect();
    fins.extend(own.into_iter().collect::<Option<Vec<_>>>()?);
    Some(Fins {
        set,
        fins,
        margin: table.number("margin")?,
        floor: table.number("floor")?,
    })
}

/// Trailing end from the tail (mm), place across, toe and cant (degrees) and base (mm) of a set's fins (common practice, no
/// published source).
fn usual(set: FinSet, from_rail: f64) -> Vec<(f64, Aside, f64, f64, f64)> {
    let (rail, inner) = (Aside::Rail(from_rail), Aside::Rail(1.5 * from_rail));
    let centre = Aside::Centre(0.0);
    match set {
        FinSet::None => vec![],
        FinSet::Single => vec![(125.0, centre, 0.0, 0.0, 180.0)],
        FinSet::Twin => vec![(165.0, rail, 2.0, 4.0, 140.0)],
        FinSet::Three => vec![
            (280.0, rail, 3.0, 6.0, 115.0),
            (90.0, centre, 0.0, 0.0, 115.0),
        ],
        FinSet::Five => vec![
            (280.0, rail, 3.0, 6.0, 115.0),
            (130.0, inner, 2.0, 4.0, 115.0),
            (90.0, centre, 0.0, 0.0, 115.0),
        ],
    }
}

fn own(fin: &Table, fins: &Table, report: &mut Report<'_>) -> Option<Fin> {
    let from_tail = fin.need("from_tail", report);
    let from_centre = fin.number("from_centre")?;
    let base = fin.number_or("base", fins.number_or("base", Some(115.0)))?;
    Some(Fin {
        from_tail: from_tail?,
        aside: Aside::Centre(from_centre),
        toe: fin.number("toe")?,
        cant: fin.number("cant")?,
        base,
        cut: cut(fins, Some(fin), false, base, report)?,
    })
}

/// The cut-outs of a fin of this base; what `fin` says goes before what `fins` says.
fn cut(
    fins: &Table,
    fin: Option<&Table>,
    single: bool,
    base: f64,
    report: &mut Report<'_>,
) -> Option<FinCut> {
    let number = |name: &str, rule: Option<f64>| match fin.filter(|t| t.given(name)) {
        Some(own) => own.number_or(name, None),
        None => fins.number_or(name, rule),
    };
    let tabs = fins.word("cut")? == "tabs";
    let silent = if tabs { base / 4.0 } else { base + 10.0 };
    let length = number("cut_length", Some(silent))?;
    let cut = FinCut {
        // A whole number from 2 to 4 by its range.
        count: if tabs {
            fins.number("tabs")? as usize
        } else {
            1
        },
        spacing: if tabs {
            fins.number_or("tab_spacing", Some(base / 2.0))?
        } else {
            0.0
        },
        length,
        width: number("cut_width", Some(if single { 25.0 } else { 12.0 }))?,
        depth: number("cut_depth", Some(14.0))?,
    };
    if tabs && cut.spacing < length + BETWEEN_TABS {
        let least = plain(length + BETWEEN_TABS);
        report.add(
            fins.span("tab_spacing"),
            format!("`tab_spacing` must leave {BETWEEN_TABS} mm between holes of {} mm, so it must be at least {least} mm", plain(length)),
            format!("give a `tab_spacing` of at least {least} mm, or a lesser `cut_length`"),
        );
        return None;
    }
    Some(cut)
}

/// The leash plug or the vent.
pub(super) fn hole(
    file: &File,
    path: &str,
    length: Option<f64>,
    report: &mut Report<'_>,
) -> Option<Option<Hole>> {
    let table = file.one(path)?;
    let through = match table.word("through")? {
        "deck" => Through::Deck,
        "bottom" => Through::Bottom,
        _ => return Some(None),
    };
    let from_tail = table.number_if_given("from_tail")?;
    if let (Some(x), Some(length)) = (from_tail, length)
        && x > length
    {
        let length = plain(length);
        report.add(
            table.span("from_tail"),
            format!("`from_tail` must not lie beyond the board's length, {length} mm"),
            format!("give a place of at most {length} mm, or check `length`"),
        );
        return None;
    }
    Some(Some(Hole {
        through,
        from_tail,
        from_centre: table.number_if_given("from_centre")?,
        diameter: table.number("diameter")?,
        depth: table.number("depth")?,
        margin: table.number("margin")?,
        floor: if path == "vent" {
            0.0
        } else {
            table.number("floor")?
        },
    }))
}
