//! The wood and the shop.

use crate::design::rules::species_break;
use crate::design::timber::{Basis, Provenance, Species, Wood, find, names, table as woods};
use crate::design::{
    Aim, Allowances, Kerfs, Plank, Scarfing, Shop, Softening, Timber, hint, read::File,
    scalar::plain, source::Report, table::Table,
};

/// The species of the parts and what goes with the rail's; notes those that are not known or not of wood.
pub(super) fn timber(file: &File, report: &mut Report<'_>) -> Timber {
    let table = file.one("timber");
    let shop = file.one("shop");
    let own = file.all("timber.species").enumerate();
    let own: Vec<Option<Species>> = own
        .map(|(row, table)| species(table, row, report))
        .collect();
    let mut pick = |key: &str| wood(table, file, &own, key, report);
    let rail = pick("rail");
    let mut or_rail = |key: &str| {
        if table.has(key) {
            pick(key)
        } else {
            rail.clone()
        }
    };
    let (skins, blocks) = (or_rail("skins"), or_rail("blocks"));
    Timber {
        frame: pick("frame"),
        rail,
        skins,
        blocks,
        working_strain: table.number("working_strain"),
        softening: match table.word("softening") {
            "starters" => Softening::Starters,
            "strips" => Softening::Strips,
            "all" => Softening::All,
            _ => Softening::None,
        },
        end_allowance: shop.number("end_allowance"),
        scarf_strain: shop.number("scarf_strain"),
        assumed_planks: file.all("shop.plank").next().is_none(),
    }
}

/// The species that `key` names, the maker's own going first; the first of the program's holds the place of one that is not known.
fn wood(
    table: &Table,
    file: &File,
    own: &[Option<Species>],
    key: &str,
    report: &mut Report<'_>,
) -> Species {
    let name = match table.text(key) {
        Some(name) => name,
        None => table.word(key),
    };
    let same = |a: &str, b: &str| a.trim().to_lowercase() == b.trim().to_lowercase();
    let ours = file
        .all("timber.species")
        .zip(own)
        .find(|(table, _)| table.text("name").is_some_and(|n| same(n, name)));
    let found = match ours {
        Some((_, species)) => species.clone(),
        None => find(name).ok().cloned().or_else(|| {
            if !table.faulty(key) {
                unknown(table, file, (key, name), report);
            }
            None
        }),
    };
    found.unwrap_or_else(|| woods()[0].clone())
}

/// Notes a species that nobody knows, with the nearest names.
fn unknown(table: &Table, file: &File, (key, name): (&str, &str), report: &mut Report<'_>) {
    let mut all: Vec<&str> = names().collect();
    all.extend(file.all("timber.species").filter_map(|t| t.text("name")));
    let lower = name.trim().to_lowercase();
    // Names that share a word, or else the one that is a slip of the pen away.
    let words: Vec<&str> = lower
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| w.chars().count() > 3)
        .collect();
    let mut near: Vec<&str> = all
        .iter()
        .copied()
        .filter(|n| words.iter().any(|w| n.to_lowercase().contains(w)))
        .take(3)
        .collect();
    if near.is_empty() {
        near.extend(hint::nearest(&lower, all.iter().copied()));
    }
    let remedy = if near.is_empty() {
        format!(
            "choose one of: {}; or describe yours in [[timber.species]]",
            names().collect::<Vec<_>>().join("; ")
        )
    } else {
        format!(
            "did you mean \"{}\"? Or describe yours in [[timber.species]]",
            near.join("\" or \"")
        )
    };
    report.add(
        table.span(key),
        format!("no species called \"{}\" is known", name.trim()),
        remedy,
    );
}

/// A species of the maker's own, if all of it is sound.
fn species(table: &Table, row: usize, report: &mut Report<'_>) -> Option<Species> {
    let name = table.text("name")?.trim().to_owned();
    if name.is_empty() {
        report.add(
            table.span("name"),
            "`name` must not be empty".to_owned(),
            "write the species' name between the quotes",
        );
        return None;
    }
    if table.keys.keys.iter().any(|key| table.faulty(key.name)) {
        return None;
    }
    let species = Species {
        name,
        wood: match table.word("wood") {
            "hardwood" => Wood::Hardwood,
            _ => Wood::Softwood,
        },
        specific_gravity: table.number("specific_gravity"),
        basis: match table.word("basis") {
            "green" => Basis::Green,
            _ => Basis::TwelvePercent,
        },
        modulus: table.number("modulus"),
        centre_loaded: table.word("loading") == "centre",
        rupture: table.number("rupture"),
        shear: table.optional("shear"),
        shear_ratio: table.optional("shear_ratio"),
        shrinkage: None,
        source: table.text("source").unwrap_or("the maker's own").to_owned(),
        provenance: Provenance::Maker,
    };
    if let Some(broken) = species_break(&species, row) {
        report.add(table.span("rupture"), broken.message, broken.remedy);
        return None;
    }
    Some(species)
}

/// The shop, for a species called `rail`.
pub(super) fn shop(file: &File, rail: &str) -> Shop {
    let (timber, table) = (file.one("timber"), file.one("shop"));
    let (kerf, takes) = (file.one("shop.kerf"), file.one("shop.allowance"));
    let mut planks: Vec<Plank> = file.all("shop.plank").map(plank).collect();
    if planks.is_empty() {
        planks.push(assumed());
    }
    Shop {
        species: rail.to_owned(),
        moisture: timber.number("moisture"),
        planks,
        kerfs: Kerfs {
            resaw: kerf.number("resaw"),
            rip: kerf.number("rip"),
            crosscut: kerf.number("crosscut"),
        },
        allowances: Allowances {
            dress_face: takes.number("dress_face"),
            dress_edge: takes.number("dress_edge"),
            sand_leaf: takes.number("sand_leaf"),
            sand_square: takes.number("sand_square"),
            mould: takes.number("mould"),
            ends: takes.number("ends"),
        },
        spare: table.number("spare"),
        shortest_offcut: table.number("shortest_offcut"),
        scarf_ratio: table.number("scarf_ratio"),
        stagger: table.number("stagger"),
        shortest_piece: table.number("shortest_piece"),
        scarfing: match table.word("scarfing") {
            "when-less" => Scarfing::WhenLess,
            _ => Scarfing::WhenShort,
        },
        aim: match table.word("aim") {
            "price" => Aim::Price,
            _ => Aim::Planks,
        },
    }
}

/// Planks of a size that most merchants have (common practice, no published source).
fn assumed() -> Plank {
    Plank {
        name: "50 × 150, assumed".to_owned(),
        length: 3000.0,
        width: 150.0,
        thickness: 50.0,
        count: None,
        price: 0.0,
        nominal: None,
    }
}

fn plank(table: &Table) -> Plank {
    let [length, width, thickness] =
        ["length", "width", "thickness"].map(|name| table.number(name));
    let nominal = ["nominal_thickness", "nominal_width"].map(|name| table.optional(name));
    let named = table.text("name").map(str::trim).filter(|n| !n.is_empty());
    Plank {
        name: named.map_or_else(
            || format!("{} × {}", plain(thickness), plain(width)),
            str::to_owned,
        ),
        length,
        width,
        thickness,
        // A whole number up to 1000 by its range.
        count: table.optional("count").map(|n| n as u32),
        price: table.number("price"),
        nominal: (nominal != [None, None]).then(|| {
            [nominal[0].unwrap_or(thickness), nominal[1].unwrap_or(width)].map(|mm| mm / 25.4)
        }),
    }
}
