//! Blocks, fins, leash plug and vent.

use crate::design::fields::INNER_PAIR;
use crate::design::{
    Blocks, Fin, FinCut, FinOffset, FinSet, Fins, Hole, Through, read::File, table::Table,
};

pub(super) fn blocks(table: &Table) -> Blocks {
    Blocks {
        layer: table.number("layer"),
        oversize: table.number("oversize"),
    }
}

/// The fins of the set, then the maker's own.
pub(super) fn fins(file: &File) -> Fins {
    let table = file.one("fins");
    let set = match table.word("set") {
        "single" => FinSet::Single,
        "twin" => FinSet::Twin,
        "three" => FinSet::Three,
        "five" => FinSet::Five,
        _ => FinSet::None,
    };
    let of_set = usual(set, table.number("from_rail")).into_iter();
    let of_set = of_set.map(|(from_tail, offset, toe, cant, base)| {
        let base = table.number_or("base", base);
        Fin {
            from_tail,
            offset,
            toe: f64::to_radians(toe),
            cant: f64::to_radians(cant),
            base,
            cut: cut(table, None, set == FinSet::Single, base),
        }
    });
    let own = file.all("fins.fin").map(|fin| own(fin, table));
    Fins {
        set,
        fins: of_set.chain(own).collect(),
        margin: table.number("margin"),
        floor: table.number("floor"),
    }
}

/// Trailing end from the tail (mm), place across, toe and cant (degrees) and base (mm) of a set's fins (common practice, no
/// published source).
fn usual(set: FinSet, from_rail: f64) -> Vec<(f64, FinOffset, f64, f64, f64)> {
    let rail = FinOffset::Rail(from_rail);
    let inner = FinOffset::Rail(INNER_PAIR * from_rail);
    let centre = FinOffset::Centre(0.0);
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

fn own(fin: &Table, fins: &Table) -> Fin {
    let base = fin.number_or("base", fins.number_or("base", 115.0));
    Fin {
        from_tail: fin.number("from_tail"),
        offset: FinOffset::Centre(fin.number("from_centre")),
        toe: fin.number("toe"),
        cant: fin.number("cant"),
        base,
        cut: cut(fins, Some(fin), false, base),
    }
}

/// The cut-outs of a fin of this base; what `fin` writes goes before what `fins` writes.
fn cut(fins: &Table, fin: Option<&Table>, single: bool, base: f64) -> FinCut {
    let number = |name: &str, rule: f64| {
        let rule = fins.number_or(name, rule);
        fin.map_or(rule, |own| own.number_or(name, rule))
    };
    let tabs = fins.word("cut") == "tabs";
    let usual_length = if tabs { base / 4.0 } else { base + 10.0 };
    FinCut {
        count: if tabs { fins.count("tabs") } else { 1 },
        spacing: if tabs {
            fins.number_or("tab_spacing", base / 2.0)
        } else {
            0.0
        },
        length: number("cut_length", usual_length),
        width: number("cut_width", if single { 25.0 } else { 12.0 }),
        depth: number("cut_depth", 14.0),
    }
}

/// The leash plug or the vent; none where it goes through neither skin.
pub(super) fn hole(table: &Table) -> Option<Hole> {
    let through = match table.word("through") {
        "deck" => Through::Deck,
        "bottom" => Through::Bottom,
        _ => return None,
    };
    // A vent opens into the hollow.
    let floored = table.keys.key("floor").is_some();
    Some(Hole {
        through,
        from_tail: table.optional("from_tail"),
        from_centre: table.optional("from_centre"),
        diameter: table.number("diameter"),
        depth: table.number("depth"),
        margin: table.number("margin"),
        floor: if floored { table.number("floor") } else { 0.0 },
    })
}
